"""Numbers of phones: as the wire writes them, as they are kept (E.164), and as they may be shown in a log."""

import hashlib
import hmac
from functools import lru_cache

import phonenumbers

SHORT = 6  # digits of the longest short codes
SHOWN = 3  # last digits of a number that a log shows
AT_HAND = 1000  # numbers that are not taken apart anew for each message


@lru_cache(AT_HAND)
def e164(written, region):
    """Return a sender's number as +255712345678, or None where it is a brand name, a short code or no number at all.

    A number without a country counts as one of `region`; 00 in front stands for +.
    """
    text = written.strip()
    if text.startswith("00"):
        text = "+" + text[2:]
    try:
        number = phonenumbers.parse(text, region)
    except phonenumbers.NumberParseException:
        return None
    whole = phonenumbers.is_possible_number_with_reason(number) == phonenumbers.ValidationResult.IS_POSSIBLE
    if not whole or len(text.lstrip("+")) <= SHORT:  # one that can be dialled in a town only is a short code, too
        return None
    return phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)


def is_region(code):
    """True where a country has this code of ISO 3166."""
    return code in phonenumbers.SUPPORTED_REGIONS


@lru_cache(AT_HAND)
def masked(number, secret):
    """Return a number so that nobody can ring it and lines of one person still match: +254*****678 and a keyed hash."""
    tag = hmac.new(secret.encode(), number.encode(), hashlib.sha256).hexdigest()[:8]
    front = _front(number)
    hidden = len(number) - len(front) - SHOWN
    return f"{front}{'*' * hidden}{number[-SHOWN:]}/{tag}" if hidden >= SHOWN else f"*/{tag}"


def _front(number):
    """What may be seen of the beginning: the country, or that it is a chat."""
    if number.startswith("tg:"):
        return "tg:"
    try:
        return f"+{phonenumbers.parse(number).country_code}"
    except phonenumbers.NumberParseException:
        return ""
