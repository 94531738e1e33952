"""Every query on one-time codes. The book keeps their hash, never the code."""

import hashlib
import hmac
import secrets

import sqlalchemy as sa

from bot.tables import one_time

TRIES = {"confirm": 5}  # wrong codes after which a code of this purpose is dead: only its owner's own count against it
OF_ALL = 50  # of the other purposes, where the tries of everybody count against every open code: one in 18,000 at the most
KEPT_OPEN = 20  # codes of one purpose and person; older ones give way
_COST = {"n": 4096, "r": 8, "p": 1}  # a hundredth of a second a try


class Spent(Exception):
    """A code was used by somebody else at the same moment: read again, the message brings a code that is no good."""


class Codes:
    """The part of a page that holds one-time codes; `_run` executes."""

    def new_code(self, purpose, person_id, digits, now, lasts, site=None, role=None, text=None, alone=True):
        """Keep a new code; with `alone` it takes the place of those before it of the same purpose and person."""
        mine = sa.select(one_time.c.id).where(_open(purpose, now) & (one_time.c.person_id == person_id)).order_by(one_time.c.id.desc())
        before = self._run(mine.offset(0 if alone else KEPT_OPEN - 1).limit(1000)).scalars().all()
        self._run(sa.update(one_time).where(one_time.c.id.in_(before)).values(state="replaced"))
        values = {"purpose": purpose, "person_id": person_id, "site": site, "role": role, "text": text}
        row = {"digest": _digest(digits, secrets.token_hex(8)), "made_at": now, "until": now + lasts, "tries": 0, "state": "open"}
        self._run(sa.insert(one_time).values(values | row))

    def close_codes(self, person_id):
        """Codes that somebody has drawn count no more, whatever for: his phone may be in other hands."""
        here = (one_time.c.person_id == person_id) & (one_time.c.state == "open")
        self._run(sa.update(one_time).where(here).values(state="replaced"))

    def try_code(self, purpose, digits, now, **by):
        """Return the open code that this is, as a mapping, or None; a wrong one counts against all it was tried on."""
        here = _open(purpose, now)
        for column, value in by.items():
            here &= one_time.c[column] == value
        rows = self._run(sa.select(one_time).where(here).order_by(one_time.c.id)).mappings().all()
        for row in rows:
            if hmac.compare_digest(row["digest"], _digest(digits, row["digest"].partition("$")[0])):
                return row
        tried = one_time.c.id.in_([row["id"] for row in rows])
        self._run(sa.update(one_time).where(tried).values(tries=one_time.c.tries + 1))
        self._run(sa.update(one_time).where(tried & (one_time.c.tries >= TRIES.get(purpose, OF_ALL))).values(state="dead"))
        return None

    def use_code(self, code_id):
        """A code is used once: Spent where somebody else was first, since it was looked up."""
        mine = (one_time.c.id == code_id) & (one_time.c.state == "open")
        if self._run(sa.update(one_time).where(mine).values(state="used").returning(one_time.c.id)).first() is None:
            raise Spent(code_id)


def _open(purpose, now):
    return (one_time.c.purpose == purpose) & (one_time.c.state == "open") & (one_time.c.until > now)


def _digest(digits, salt):
    return f"{salt}${hashlib.scrypt(digits.encode(), salt=salt.encode(), dklen=24, **_COST).hex()}"
