"""A programme file goes into the book: what that changes is said before it counts."""

import sys

from bot import compare, programme
from bot.desk import Stopped
from bot.logbook import Book


class _Unwanted(Exception):
    """What would change was looked at, and is not to be."""


def store(book, path, now, back=(), wanted=lambda changes: True):
    """Load a file; return (the Programme of it, whose number in it was taken off). `wanted` hears what it changes, and may say no."""
    try:
        made, digest = programme.read(path)
        unknown = set(back) - {row.short for row in made.person}
        if unknown:
            raise Stopped(f"nobody in {path} is called {', '.join(sorted(unknown))}")
        with book.page() as page:
            before = compare.stands(page) if page.digest() else None
            off = programme.store(page, made, digest, now, back)
            if before is not None and not wanted(list(compare.differences(before, compare.stands(page)))):
                raise _Unwanted
            return made, off
    except programme.Refused as refused:
        raise Stopped("programme refused:\n  " + "\n  ".join(refused.faults)) from None


def load(args, settings, now):
    """The command: in a terminal it asks before anything changes; with --look nothing does."""
    book = Book(settings.database_url)
    book.upgrade()

    def wanted(changes):
        print("\n".join(changes) if changes else "nothing changes")
        if args.look or not (changes and sys.stdin.isatty()):
            return not args.look
        return input("Load it? yes or no: ").strip().casefold() in ("y", "yes")

    try:
        made, off = store(book, args.file, now, args.give_back, wanted)
    except _Unwanted:
        print("the book is as before")
        return
    print(f"{made.programme.name}: {len(made.site)} sites, {len(made.person)} people loaded")
    for row, ways in off:
        print(f"{row.short}: {row.number} was taken off and stays off; reached by {', '.join(ways) or 'nothing'}.")
        print(f"  Write a new number into the file, or give this one back: pegline load {args.file} --give-back {row.short}")
