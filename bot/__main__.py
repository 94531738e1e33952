"""The command line: joins settings, book, programme and the terminal to the road."""

import gc

gc.disable()  # nothing made while the libraries load is garbage; on again where a command goes on

import argparse
import json
import logging
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path

from bot import config, desk
from bot.desk import Stopped

LOCAL = "the programme's own time where no zone is given"


def main(argv=None):
    """Run one command and return its exit status."""
    args = _parser().parse_args(argv)
    try:
        settings = config.read()
        logging.basicConfig(level=settings.log_level, stream=sys.stderr, format="%(levelname)s %(name)s %(message)s")  # serve has its own
        for name in ("httpx", "httpcore", "telegram", "dbos", "alembic"):
            logging.getLogger(name).setLevel(logging.WARNING)  # below that they write texts, numbers and secrets
        return args.run(args, settings) or 0
    except (Stopped, config.Wrong) as stopped:
        print(stopped, file=sys.stderr)
        return 2
    finally:
        gc.freeze()  # the process ends: looking through all the libraries once more would only delay it


def _parser():
    parser = argparse.ArgumentParser(prog="pegline", description="Messages for people who build household biogas plants.")
    commands = parser.add_subparsers(required=True, metavar="command")

    def command(name, run, about, *arguments):
        sub = commands.add_parser(name, help=about, description=about)
        for flags, more in arguments:
            sub.add_argument(*flags, **more)
        sub.set_defaults(run=run, command=name)

    command("chat", _chat, "a conversation in the terminal, as any person of the programme")
    command(
        "say", _say, "one message through the whole road; prints what goes out",
        (["--from"], {"dest": "sender", "required": True, "help": "a number, or the short name of a person; stranger is nobody"}),
        (["--at"], {"help": f"when it is sent, ISO 8601; {LOCAL}"}),
        (["--id"], {"help": "the message's own id: sent twice, it is answered once"}),
        (["--json"], {"action": "store_true", "help": "one JSON object a line"}),
        (["text"], {}),
    )  # fmt: skip
    command("talk", _talk, "run a conversation script on a fresh book", (["file"], {"type": Path}))
    command(
        "read", _read, "texts on standard input, one a line -> what is understood; stores nothing",
        (["--jsonl"], {"action": "store_true", "help": "JSON also where the output is a terminal"}),
        (["--site"], {"help": "read as at this site, with its plan"}),
        (["--score"], {"type": Path, "metavar": "FILE", "help": "how well labelled messages are read, per family and language"}),
    )  # fmt: skip
    command(
        "design", _design, "dimensions, levels, pressure and bill of a plant",
        (["--gas-m3-per-day"], {"type": float}), (["--volume-m3"], {"type": float}), (["--dung-kg-per-day"], {"type": float}),
        (["--drawing"], {"type": Path, "metavar": "FILE", "help": "the [[drawing]] tables of a programme file or of a file of their own"}),
        (["--temp-c"], {"type": float, "help": "mean yearly air temperature; without it the nominal 40 l/kg and 40 days"}),
        (["--shape"], {"help": "cap-on-bowl (the usual; a hemisphere unless --rise says else) or cylinder-with-cap"}),
        (["--bottom"], {"help": "bowl, flat or cone, of a cylinder"}),
        (["--rise"], {"type": float, "help": "dome rise over inside radius; 1 is a hemisphere"}),
        (["--dome"], {"help": "brick (the usual), ferrocement or concrete"}),
        (["--store-share"], {"type": float, "help": "gas store as a share of a day's gas"}),
        (["--json"], {"action": "store_true"}),
    )  # fmt: skip
    command(
        "load", _load, "load a programme file into the book; prints what that changes", (["file"], {"type": Path}),
        (["--look"], {"action": "store_true", "help": "print what would change, and change nothing"}),
        (["--give-back"], {"action": "append", "default": [], "metavar": "PERSON", "help": "who has the number again that was taken off"}),
    )  # fmt: skip
    command("log", _desk, "the log of a site", (["site"], {}))
    command("people", _desk, "who is known, with roles")
    command("audit", _desk, "the finished sites to visit this month, drawn by lot; their logs say so")
    command("serve", _desk, "run the bot on the wires that the settings switch on")
    command("queue", _desk, "the texts that wait, and why")
    command("resend", _desk, "give a text that was refused or given up to its gateway once more", (["id"], {"type": int}))
    command(
        "send-test", _desk, "one text to a number or chat, through the whole delivery",
        (["channel"], {"choices": ["sms", "telegram"]}), (["to"], {}), (["text"], {}),
        (["--file"], {"type": Path, "help": "a picture or document that goes along, where the channel carries files"}),
    )  # fmt: skip
    command(
        "unlink", _desk, "a number or chat is a person's no more: a lost phone", (["person"], {"help": "his short name"}), (["number"], {})
    )
    _papers(command)
    command("check", _check, "whether settings, wires and database are in order")
    return parser


def _papers(command):
    """The commands that write files."""
    tongue = (["--lang"], {"choices": ["en", "sw", "hi", "hi-Latn", "fr"], "default": "en"})
    units = (["--units"], {"choices": ["metric", "feet"], "default": "metric"})
    as_of = (
        (["--until"], {"type": int, "help": "with the log up to this entry"}),
        (["--at"], {"help": f"as of a moment, ISO 8601; {LOCAL}"}),
    )
    pdf, table = ((["--" + name], {"type": Path, "metavar": "FILE"}) for name in ("pdf", "csv"))
    what = (["what"], {"choices": ["section", "plan", "pegs", "string", "progress", "gas"]})
    to = (["--to"], {"type": Path, "required": True, "metavar": "FILE.png"})
    command("draw", _clerk, "a picture of a site as PNG", (["site"], {}), what, to, tongue, units, *as_of)
    command("record", _clerk, "the record of a site as PDF, its log as CSV", (["site"], {}), pdf, table, tongue, units, *as_of)
    command("sites", _clerk, "all sites as CSV, one a line", (["--csv"], {"type": Path, "required": True, "metavar": "FILE"}))
    command("card", _clerk, "a mason's pocket card as PDF", (["site"], {}), pdf, tongue, (["--units"], {"choices": ["metric", "feet"]}))


# ---- what the commands share


def open_book(settings):
    """The book of the settings, its tables up to date, the programme loaded where it is empty."""
    from bot.logbook import Book

    book = Book(settings.database_url)
    book.upgrade()
    with book.page() as page:
        empty = page.digest() is None
    if empty and settings.programme:
        from bot import loading

        loading.store(book, settings.programme, datetime.now(UTC))
    return book


def _words(book):
    from bot.reading.own import vocabulary_with

    with book.page() as page:
        return vocabulary_with(page.rules().get("danger_words"))


def _send(book, number, text, now, wire_id=None):
    """One message down the road; the texts that go out for it."""
    from bot.channels import terminal
    from bot.inbox import take

    message = terminal.inbound(number, text, now, wire_id)
    take(message, book, _words(book), now)
    with book.page() as page:
        return terminal.outgoing(page, message.wire_id)


# ---- the commands


def _say(args, settings):
    from bot.channels import terminal

    book = open_book(settings)
    with book.page() as page:
        number, now = desk.number(page, args.sender), desk.moment(page, args.at, datetime.now(UTC))
        names = {person.number: person.short for person in page.people()}
    for sent in _send(book, number, args.text, now, args.id):
        print(terminal.as_json(sent) if args.json else terminal.as_line(sent, names.get(sent.to, sent.to)))


def _chat(args, settings):
    from bot.channels import terminal

    book = open_book(settings)
    with book.page() as page:
        people = page.people()
    names = {person.number: person.short for person in people}
    print("You are:", "; ".join(f"{p.short} ({p.name}, {', '.join(f'{r} {s}' for s, r in p.roles)})" for p in people))
    print("Type as NAME to be somebody else, quit to stop.")
    gc.enable()
    who = people[0].short if people else "stranger"
    while True:
        try:
            text = input(f"{who} > ").strip()
        except EOFError:
            return
        if text in ("quit", "exit"):
            return
        with book.page() as page:
            if text.startswith("as "):
                who = text[3:].strip() if text[3:].strip() == "stranger" or page.person(short=text[3:].strip()) else who
                continue
            number = desk.number(page, who)
        for sent in _send(book, number, text, datetime.now(UTC)) if text else ():
            print(terminal.as_line(sent, names.get(sent.to, sent.to)))


def _talk(args, settings):
    from bot import loading, talk
    from bot.logbook import Book

    if not settings.programme:
        raise Stopped("no programme: set PEGLINE_PROGRAMME to a programme file")
    with tempfile.TemporaryDirectory() as folder:
        book = Book(f"sqlite:///{folder}/talk.sqlite")
        book.upgrade()
        made, _ = loading.store(book, settings.programme, datetime.now(UTC))
        numbers = {row.short: row.number for row in made.person} | {"stranger": "+000000000"}
        faults = []
        try:
            for line, fault in talk.run(args.file.read_text(encoding="utf-8"), book, _words(book), numbers, made.programme.zone):
                print(line + (f"\n!!! {fault}" if fault else ""))
                faults += [fault] if fault else []
        except (talk.Broken, OSError) as broken:
            raise Stopped(f"{args.file}: {broken}") from None
    return 1 if faults else 0


def _read(args, settings):
    from bot.kinds import KINDS
    from bot.reading.label import label
    from bot.reading.read import read
    from bot.reading.things import Hints
    from bot.stages import ranges

    book = open_book(settings)
    with book.page() as page:
        rules, site = page.rules(), page.site(args.site.upper()) if args.site else None
        if args.site and site is None:
            raise Stopped(f"no site {args.site}; known: {', '.join(page.codes())}")
        hints = Hints(frozenset(page.codes()), page.names(), rules.get("bag_kg"), rules.get("litres", {}), ranges(site))
    words = _words(book)
    gc.enable()

    def told(text):
        return label(read(text, KINDS, words, hints))

    if args.score:
        return desk.scored(args.score, told)
    indent = None if args.jsonl or not sys.stdout.isatty() else 2
    for line in sys.stdin:
        print(json.dumps(told(line.rstrip("\r\n")), ensure_ascii=False, indent=indent), flush=True)
    return 0


def _design(args, settings):
    from bot import sheet
    from calc.errors import CalcError

    try:
        for name, made in _plants(args):
            row = ({"name": name} if name else {}) | sheet.sheet(made)
            print(json.dumps(row) if args.json else "\n".join(sheet.lines(row)))
    except CalcError as fault:
        raise Stopped(f"not covered: {fault}") from None


def _plants(args):
    """(name, Design) of what is asked for: one plant by its size, without a name, or every drawing of a file."""
    from bot import programme, sheet
    from bot.site import design_of, plan_key

    if sheet.basis(args) != "drawing":
        return [(None, sheet.wanted(args))]
    try:
        drawn = programme.drawings(args.drawing)
    except programme.Refused as refused:
        raise Stopped("drawings refused:\n  " + "\n  ".join(refused.faults)) from None
    return [(name, design_of(plan_key(plan))) for name, plan in drawn]


def _load(args, settings):
    from bot import loading

    loading.load(args, settings, datetime.now(UTC))


def _desk(args, settings):
    desk.COMMANDS[args.command](open_book(settings), settings, args, lambda: datetime.now(UTC))


def _clerk(args, settings):
    from bot import clerk

    clerk.COMMANDS[args.command](open_book(settings), settings, args, lambda: datetime.now(UTC))


def _check(args, settings):
    from bot.order import faults

    found = faults(settings) or desk.unreached(settings)
    print("\n".join(found) if found else "settings, wires and database in order")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
