"""Whether settings, wires, database and programme are in order, or what is not."""

import re
from urllib.parse import urlsplit

from bot import programme
from bot.channels import numbers
from bot.logbook import HEAD, Book

SECRET = 16  # letters of a secret that cannot be guessed


def faults(settings):
    """Return everything that is not in order, one sentence each; empty where all is."""
    return [*_wire_faults(settings), *_book_faults(settings)]


def _book_faults(settings):
    book = Book(settings.database_url)
    try:
        step = book.version()
    except Exception as fault:  # whatever the database says is what has to be told
        return [f"database {book.url}: {fault}"]
    if step != HEAD:
        return [f"database {book.url}: tables at step {step}, wanted {HEAD}; any other command brings them up"]
    with book.page() as page:
        loaded, codes = page.digest(), page.codes()
        unled = [code for code in codes if not page.team(code, "supervisor")]
    found = [] if loaded else ["no programme loaded: pegline load FILE"]
    found += [f"site {code} has no supervisor" for code in unled]
    return found + _programme_faults(settings.programme, loaded)


def _programme_faults(path, loaded):
    if not path:
        return []
    try:
        _, digest = programme.read(path)
    except programme.Refused as refused:
        return list(refused.faults)
    return [f"{path} has changed since it was loaded: load it again"] if loaded and digest != loaded else []


def _wire_faults(settings):
    """What is wrong with the settings of the wires that are switched on."""
    found = []
    if settings.sms_url:
        found += _address("PEGLINE_SMS_URL", settings.sms_url, ("http", "https"))
        found += _address("PEGLINE_OWN_URL", settings.own_url, ("http", "https"))
        found += _secret("PEGLINE_SMS_KEY", settings.sms_key)
        found += [] if settings.sms_user and settings.sms_password else ["PEGLINE_SMS_USER, PEGLINE_SMS_PASSWORD: the gateway wants both"]
    if settings.telegram_token:
        found += _address("PEGLINE_TELEGRAM_API", settings.telegram_api, ("http", "https"))
        if not re.fullmatch(r"[0-9]+:[A-Za-z0-9_-]+", settings.telegram_token):
            found.append("PEGLINE_TELEGRAM_TOKEN: a token is digits, a colon, letters")
        if settings.telegram_webhook:
            found += _address("PEGLINE_TELEGRAM_WEBHOOK", settings.telegram_webhook, ("https",))
            found += _secret("PEGLINE_TELEGRAM_SECRET", settings.telegram_secret)
    if settings.region and not numbers.is_region(settings.region):
        found.append(f"PEGLINE_REGION: no country {settings.region}")
    return found + (_few_descriptors() if settings.sms_url or settings.telegram_token else [])


def _address(name, url, schemes):
    parts = urlsplit(url)
    if "@" in parts.netloc:
        return [f"{name}: no name and password in an address"]
    return [] if parts.scheme in schemes and parts.hostname else [f"{name}: no address of {' or '.join(schemes)}"]


def _secret(name, secret):
    return [] if len(secret) >= SECRET else [f"{name}: {SECRET} letters or more, so that nobody guesses it"]


def _few_descriptors():
    from bot.web import LEAST_DESCRIPTORS, descriptors

    few = descriptors()
    return [f"only {few} files may be open: raise the limit to {LEAST_DESCRIPTORS} (ulimit -n)"] if few < LEAST_DESCRIPTORS else []
