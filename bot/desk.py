"""What an operator does with a book: read its log, run the bot on its wires, see what waits and why, send once more."""

import asyncio
import contextlib
import ctypes
import gc
import json
from datetime import datetime
from zoneinfo import ZoneInfo

M_ARENA_MAX = -8  # as malloc.h of the GNU C library numbers it


class Stopped(Exception):
    """A command that cannot be done, and why."""


def number(page, sender):
    """The number of a sender: a number as it is kept, the number of a person by his short name, or nobody's."""
    if sender == "stranger":
        return "+000000000"
    if sender.lstrip("+").isdigit():
        return whole(sender, page.rules().get("region"))
    person = page.person(short=sender)
    if person is None:
        raise Stopped(f"nobody is called {sender}; known: {', '.join(p.short for p in page.people())}, stranger")
    return person.number


def whole(written, region):
    """A number of a phone in E.164."""
    from bot.channels.numbers import e164

    found = e164(written, region)
    if found is None:
        raise Stopped(f"{written} is no number of a phone")
    return found


WRITTEN = {"sms": whole, "telegram": lambda written, region: f"tg:{written.removeprefix('tg:')}"}


def moment(page, text, now):
    """The moment that is written, in the programme's time where it names no zone; now where none is."""
    if text is None:
        return now
    try:
        told = datetime.fromisoformat(text)
    except ValueError:
        raise Stopped(f"--at {text} is no ISO 8601 moment") from None
    return told if told.tzinfo else told.replace(tzinfo=ZoneInfo(page.rules().get("zone", "UTC")))


def run(book, settings, args, clock):
    """Serve until told to stop."""
    from bot import journal
    from bot.engine import Taken
    from bot.serve import serve

    with book.page() as page:
        if page.digest() is None:
            raise Stopped("no programme loaded: pegline load FILE")
    if not (settings.sms_url or settings.telegram_token):
        raise Stopped("no wire: set PEGLINE_SMS_URL or PEGLINE_TELEGRAM_TOKEN")
    gc.enable()
    _few_heaps()
    journal.begin(settings)
    try:
        asyncio.run(serve(book, settings, clock))
    except Taken as taken:
        raise Stopped(taken) from None


def unreached(settings):
    """What keeps the wires from their gateways now, one sentence each."""
    if not (settings.sms_url or settings.telegram_token):
        return []
    from bot.serve import wires

    async def looked():
        made = wires(settings)
        found = await asyncio.gather(*(wire.fault() for wire in made))
        await asyncio.gather(*(wire.close() for wire in made))
        return [fault for fault in found if fault]

    return asyncio.run(looked())


def _few_heaps():
    """Keep the threads in two heaps where the C library can: each would else take one of its own and never give it back."""
    with contextlib.suppress(AttributeError, OSError):
        ctypes.CDLL(None).mallopt(M_ARENA_MAX, 2)


def queue(book, settings, args, clock):
    """Print the texts that wait or were not taken, one a line."""
    with book.page() as page:
        rows = page.unsent()
        zone = ZoneInfo(page.rules().get("zone", "UTC"))
    for row in rows:
        due = row["due"].astimezone(zone).strftime("%Y-%m-%d %H:%M")
        print(f"{row['id']} {due} {row['channel']} {row['number']} {row['state']}, {row['tries']} tries", row["fault"] or "")
    print(f"{len(rows)} texts wait or were not taken")


def resend(book, settings, args, clock):
    """Queue a text once more that was refused or given up."""
    from bot.office import again, reached

    with book.page() as page:
        row = page.out(args.id)
        if row is not None and not reached(page, row):
            raise Stopped(f"text {args.id} was for {row['number']}, which was taken off {page.person(id=row['person_id']).short}")
    if not again(book, args.id, clock()):
        raise Stopped(f"no text {args.id} that was refused or given up")
    print(f"text {args.id} is queued once more")


def send_test(book, settings, args, clock):
    """Queue one text for a number or chat."""
    from bot.office import single

    with book.page() as page:
        to = WRITTEN[args.channel](args.to, settings.region or page.rules().get("region"))
    text_id = single(book, args.channel, to, args.text, clock(), args.file and str(args.file.resolve()))
    print(f"text {text_id} is queued; pegline queue tells how far it is")


def log(book, settings, args, clock):
    """Print the log of a site."""
    with book.page() as page:
        site = page.site(args.site.upper())
        if site is None:
            raise Stopped(f"no site {args.site}; known: {', '.join(page.codes())}")
    for entry in site.log:
        at = entry.at.astimezone(ZoneInfo(site.rules.zone)).strftime("%Y-%m-%d %H:%M")
        refers = f"of #{entry.refers}" if entry.refers else ""
        said = f"said {','.join(entry.cautions)}" if entry.cautions else ""
        told = (entry.kind, refers, json.dumps(entry.fields), entry.verdict or "", said)
        print(f"{site.code} #{entry.number} {at} {entry.name}:", *filter(None, told))


def people(book, settings, args, clock):
    """Print who is known, with roles."""
    with book.page() as page:
        for person in page.people():
            roles = ", ".join(f"{role} {site}" for site, role in person.roles)
            print(f"{person.short:12} {person.name:12} {person.number:16} {person.language} {person.units:7} {roles}")


def unlink(book, settings, args, clock):
    """Take a number or chat off a person: whoever writes from there is a stranger from then on."""
    from bot.office import unlinked

    with book.page() as page:
        person = page.person(short=args.person)
        if person is None:
            raise Stopped(f"nobody is called {args.person}; known: {', '.join(p.short for p in page.people())}")
        ways, lone = [number for _, number in page.ways(person)], page.lone(person)
    if args.number not in ways:
        raise Stopped(f"{args.number} is no number of {person.short}: {', '.join(ways) or 'none'}")
    count = unlinked(book, person, args.number, clock())
    print(f"{args.number} is nobody's now" if len(ways) == 1 else f"{args.number} is not {person.short} any more")
    print(
        f"{count} texts waited for it"
        + (": nothing reaches him before a new number is loaded" if len(ways) == 1 else ", they go another way")
    )
    if len(ways) == 1 and lone:
        print(f"WARNING: no supervisor of {', '.join(lone)} is reached now, not even by a STOP. Load a number for one at once.")


def audit(book, settings, args, clock):
    """Draw the finished sites that are visited this month, of all sites, and write that into their logs."""
    from bot.visits import drawn

    for line in drawn(book, clock()):
        print(line)


def scored(path, told):
    """Print how well labelled messages are read; 1 where one is read wrongly."""
    from bot.reading import score

    try:
        read = [(row, told(row.text)) for row in score.rows(path)]
    except (score.Malformed, OSError, UnicodeDecodeError) as fault:
        raise Stopped(str(fault)) from None
    print("\n".join(score.report(read)))
    return 1 if any(score.judge(row, reading) in score.WRONG for row, reading in read) else 0


COMMANDS = {
    "audit": audit,
    "log": log,
    "people": people,
    "serve": run,
    "queue": queue,
    "resend": resend,
    "unlink": unlink,
    "send-test": send_test,
}
