"""Materials at a site, from its log: what came, was used, broke; a count on site starts afresh."""

from dataclasses import dataclass
from functools import cache

AMOUNTS = ("cement_kg", "sand_m3", "gravel_m3", "stone_m3", "bricks", "bar_kg", "mesh", "waterproofer_l", "paint_l", "lime_kg")
SAME = {"stone_m3": "gravel_m3"}


def moves(fields):
    """Yield (way, item, quantity) of a stock entry: "in", "out", "broken", "stolen" or "have"."""
    for name, value in fields.items():
        way, item = _named(name, fields.get("dir"))
        if way:
            yield way, SAME.get(item, item), value
    if {"rod_dia_m", "rod_count", "rod_len_m"} <= set(fields):
        yield fields.get("dir", "in"), "bar_m", fields["rod_count"] * fields["rod_len_m"]


@cache
def _named(name, way):
    if name in AMOUNTS:
        return way, name
    for prefix in ("in", "out", "have", "broken", "stolen"):
        if name.startswith(prefix + "_") and name[len(prefix) + 1 :] in AMOUNTS:
            return prefix, name[len(prefix) + 1 :]
    return None, name


def come(site):
    """Item -> all that came to a site and was not broken or stolen, whether used by now or not; what was counted there has come."""
    total, used = {}, {}
    for entry in site.live:
        for way, item, quantity in moves(entry.fields) if entry.kind == "stock" else ():
            if way in ("in", "broken", "stolen"):
                total[item] = total.get(item, 0.0) + (quantity if way == "in" else -quantity)
            elif way == "out":
                used[item] = used.get(item, 0.0) + quantity
            else:
                total[item] = max(total.get(item, 0.0), quantity + used.get(item, 0.0))
    return total


def on_site(site):
    """Item -> what should lie at a site now; a count that was sent overrides what came before it."""
    left = {}
    for entry in site.live:
        for way, item, quantity in moves(entry.fields) if entry.kind == "stock" else ():
            if way == "have":
                left[item] = quantity
            else:
                left[item] = left.get(item, 0.0) + (quantity if way == "in" else -quantity)
    return left


@dataclass
class Balance:
    """Of one item: what came, was used, was broken or stolen, should lie there; and what counts did not find, or found too much."""

    came: float = 0.0
    used: float = 0.0
    lost: float = 0.0
    left: float = 0.0
    unexplained: float = 0.0


def balances(site):
    """Item -> Balance of a site. The first count of a thing of which nothing came is what was there."""
    found = {}
    for entry in site.live:
        for way, item, quantity in moves(entry.fields) if entry.kind == "stock" else ():
            new = item not in found
            row = found.setdefault(item, Balance())
            if way == "have":
                row.came += quantity if new else 0.0
                row.unexplained += 0.0 if new else row.left - quantity
                row.left = quantity
            else:
                name = {"in": "came", "out": "used"}.get(way, "lost")
                setattr(row, name, getattr(row, name) + quantity)
                row.left += quantity if way == "in" else -quantity
    return found
