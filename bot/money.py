"""Prices at a site: the programme's list as it stands today, in its currency, with the days it was seen."""

from datetime import date
from decimal import Decimal

from bot.days import date_at
from bot.phrases import T_, Dated, Money, Series, Text
from bot.titles import MATERIALS
from calc import sources as s
from calc.cost import Price, old, price_list

NAMES = MATERIALS | {"mason_d": T_("mason days"), "labourer_d": T_("labourer days")}
SEVERAL = 3  # old prices that are named one by one


def prices(site, now):
    """Item -> Price, of the programme's list."""
    rows = (
        Price(row["item"], Decimal(row["price"]), row["holds"], row["currency"], date.fromisoformat(row["seen_on"]), row["supplier"])
        for row in site.rules.prices
    )
    return price_list(rows, date_at(now, site))


def pack_of(site, item):
    """How the pack is called that a price is for."""
    return next(row["pack"] for row in reversed(site.rules.prices) if row["item"] == item)


def said(site, value):
    """A sum in the words of the programme."""
    code = site.rules.prices[0]["currency"] if site.rules.prices else ""
    return Money(value, site.rules.currency_word or code)


def named(items):
    """Items by their names, one after the other."""
    return Series(tuple(NAMES[item] for item in items))


def seen(site, book, items, now):
    """The days on which the prices of these items were seen, and which of them are old."""
    used = {item: book[item] for item in items if item in book}
    if not used:
        return Text()
    days, aged = sorted(price.seen_on for price in used.values()), _old(used, site, now)
    if len(aged) > SEVERAL:
        return T_("Prices from %(first)s on are old: ask again.", first=Dated(days[0]))
    told = T_("Prices of %(first)s to %(last)s.", first=Dated(days[0]), last=Dated(days[-1]))
    if days[0] == days[-1]:
        told = T_("Price of %(first)s.", first=Dated(days[0]))
    return told + (T_("Old, ask again: %(list)s.", list=named(aged)) if aged else Text())


def oldest(site, book, items, now):
    """The day of the oldest price of these items, in the shortest way."""
    used = {item: book[item] for item in items if item in book}
    if not used:
        return Text()
    day = Dated(min(price.seen_on for price in used.values()))
    return T_("Oldest price %(day)s: ask again.", day=day) if _old(used, site, now) else T_("Oldest price %(day)s.", day=day)


def _old(used, site, now):
    return old(used, date_at(now, site), site.rules.price_old_d or s.PRICE_OLD_D)
