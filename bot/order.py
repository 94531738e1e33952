"""Whether settings, database and programme are in order, or what is not."""

from bot import programme
from bot.logbook import HEAD, Book


def faults(settings):
    """Return everything that is not in order, one sentence each; empty where all is."""
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
