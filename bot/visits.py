"""The office draws the finished sites that are visited, of the whole programme."""

from bot.channels import Inbound
from bot.desk import Stopped
from bot.forms import Entry
from bot.kinds.odd import drawn as lot
from bot.kinds.odd import new_rows
from calc.sources import EDITION


def drawn(book, now):
    """Yield what is printed of the draw of this month; what it is the first to draw goes into the logs."""
    with book.page() as page:
        sites = [page.site(code, lock=True) for code in page.codes()]
        if not sites or sites[0].rules.draw_seed is None:
            raise Stopped("no draw_seed in the programme file: set one, known to the office alone, and load it")
        seed, rows, of = lot(sites, now)
        by_code = {site.code: site for site in sites}
        for code, fields in new_rows(sites, seed, rows, of):
            page.write(code, by_code[code].next_number, Entry("audit", fields), now, None, EDITION, Inbound("office", None, "", ""))
    for code, count in rows:
        yield f"{code} {by_code[code].name}: {count} things to look at"
    yield f"{len(rows)} of {of} finished sites, seed {seed}"
