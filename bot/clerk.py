"""What the office takes out of a book as files: pictures, records, pocket cards, tables. Loaded where one is asked for."""

from dataclasses import replace
from pathlib import Path

from bot.desk import Stopped, moment
from bot.phrases import Reader, word
from bot.site import Site
from bot.tongue import NEXT  # pictures and pages have Western letters only


def _found(page, args) -> Site:
    """The site that is asked for, with its log as far as that is asked for."""
    site = page.site(args.site.upper())
    if site is None:
        raise Stopped(f"no site {args.site}; known: {', '.join(page.codes())}")
    until = getattr(args, "until", None)
    return site if until is None else replace(site, log=tuple(entry for entry in site.log if entry.number <= until))


def _reader(args, site):
    return Reader(NEXT.get(args.lang, args.lang), args.units, site.rules.zone)


def draw(book, settings, args, clock):
    """Write one picture of a site."""
    from bot import drawing
    from bot.kinds.draw import lacking

    with book.page(write=False) as page:
        site, now = _found(page, args), moment(page, args.at, clock())
    reader = _reader(args, site)
    refused = lacking(args.what, site, now)
    if refused:
        raise Stopped(word(refused, reader))
    drawing.draw(args.what, site, reader, now, args.to)


def record(book, settings, args, clock):
    """Write the record of a site as a document, as a table, or both."""
    from bot import record

    if not (args.pdf or args.csv):
        raise Stopped("nothing to write: --pdf FILE or --csv FILE")
    with book.page(write=False) as page:
        site, now = _found(page, args), moment(page, args.at, clock())
        team = _team(page, site)
    if args.pdf:
        record.document(args.pdf, site, team, _reader(args, site), now)
    if args.csv:
        record.write(args.csv, record.LOG, record.log_rows(site))


def _team(page, site):
    """(role, name) of everybody at a site."""
    return [(role, person.name) for role in ("supervisor", "mason", "farmer") for person in page.team(site.code, role)]


def sites(book, settings, args, clock):
    """Write all sites as a table, one a line."""
    from bot import record

    now, rows = clock(), []
    with book.page(write=False) as page:
        for code in page.codes():
            site = page.site(code)
            rows.append(record.site_row(site, _team(page, site), now))
    record.write(args.csv, record.SITES, rows)
    print(f"{len(rows)} sites")


def card(book, settings, args, clock):
    """Write the pocket card of a site."""
    from bot import card

    with book.page(write=False) as page:
        site = _found(page, args)
        team = [(person.name, person.number) for person in page.team(site.code, "supervisor")]
        units = args.units or next((person.units for person in page.team(site.code, "mason")), "metric")
    path = args.pdf or Path(f"{site.code}-card-{args.lang}.pdf")
    card.document(path, site, team, Reader(NEXT.get(args.lang, args.lang), units, site.rules.zone))
    print(path)


COMMANDS = {"draw": draw, "record": record, "sites": sites, "card": card}
