"""Lots that can be drawn again: nobody who does not know the seed can foretell them, and nobody can choose them."""

from hashlib import sha256

BITS = 64


def lot(seed, *what):
    """Return a number above 0 and below 1 that hangs on the seed and on what it is drawn for alone."""
    digest = sha256("\0".join((seed, *map(str, what))).encode()).digest()
    return (int.from_bytes(digest[: BITS // 8], "big") + 0.5) / 2**BITS


def of_month(seed, now):
    """Return the seed of a month: with it the draw can be made again, and it does not give away the seed it comes from."""
    return str(int.from_bytes(sha256(f"{seed}\0{now:%Y-%m}".encode()).digest(), "big"))[:12]  # digits are read out over a phone


def sample(seed, weights, count):
    """Return so many names of {name: weight}, each drawn as often as its weight is to that of the others.

    The largest lot ** (1 / weight) are taken: Efraimidis and Spirakis, Weighted random sampling with a reservoir, 2006.
    """
    return sorted(weights, key=lambda name: (-(lot(seed, name) ** (1 / weights[name])), name))[:count]
