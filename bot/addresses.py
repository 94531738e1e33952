"""Every query on who is reached where: numbers that are shared, numbers and chats that are linked, and who writes from one."""

import sqlalchemy as sa

from bot.people import OFF, called, channel_of
from bot.tables import address, person, speaker

_GIVEN = sa.bindparam("given")
_LINKED = sa.select(address.c.person_id).where(address.c.number == _GIVEN)
_HERE = sa.select(person).where((person.c.number == _GIVEN) | person.c.id.in_(_LINKED)).order_by(person.c.id)


class Addresses:
    """The part of a page that holds numbers and chats; `_run` and `_ask` execute, `_person` makes a Person of a row."""

    def people_at(self, number):
        """Everybody who writes from a number or chat; who only waits to be admitted does not count where others are there."""
        if number not in self._at:
            here = tuple(self._person(row) for row in self._ask(_HERE, given=number).mappings().all())
            self._at[number] = tuple(each for each in here if each.roles) or here if len(here) > 1 else here
        return self._at[number]

    def save_person(self, name, short, number, **values):
        """Write a person down, new or changed, and return the id; he is known by his short name, else by his name at the number."""
        return self._saved(self._known(name, short, number), name=name, short=short, number=number, **values)

    def save_filed(self, name, short, number, now, alone=False, back=False, **values):
        """Write down a person of a programme file; return (id, whether the number in the file was taken off him and stays so).

        Where `alone` on the number he is known by that too. A number that the file names as before is not given back: it
        counts where the file has changed it, or with `back`. Who has another in its place by then keeps that as well.
        """
        known = self._known(name, short, number, alone)
        values |= {"name": name, "short": short, "filed": number}
        if known is None:
            return self._saved(None, number=number, **values), False
        had = self._run(sa.select(person.c.number, person.c.filed).where(person.c.id == known)).one()
        phone = had.number.startswith("+")
        if not back and had.number != number and (had.filed == number or (had.filed is None and not phone)):
            return self._saved(known, **values), number not in [other for _, other in self.links(known)]
        self._run(sa.delete(address).where((address.c.person_id == known) & (address.c.number == number)))
        if had.number not in (number, had.filed) and not had.number.startswith(OFF) and not (phone and had.filed is None):
            self.link(known, channel_of(had.number), had.number, now)
        return self._saved(known, number=number, **values), False

    def _saved(self, known, **values):
        self._at, self._wrote = {}, True
        if known is None:
            return self._run(
                sa.insert(person).values({"language": "en", "units": "metric", "out_seq": 0, **values}).returning(person.c.id)
            ).scalar_one()
        self._run(sa.update(person).where(person.c.id == known).values(values))
        return known

    def _known(self, name, short, number, alone=False):
        own = self._run(sa.select(person.c.id).where(person.c.short == short)).scalar()
        if own is not None:
            return own
        there = (person.c.number == number) | (person.c.filed == number)
        rows = self._run(sa.select(person.c.id, person.c.name, person.c.number).where(there).order_by(person.c.id)).all()
        here = [row for row in rows if row.number == number]
        if alone and len(here) == 1:
            return here[0].id
        return next((row.id for row in (*here, *(rows if alone else ())) if called(row.name) == called(name)), None)

    # ---- linked numbers and chats
    def link(self, person_id, channel, number, now):
        """Write down that a person is also reached under this number or chat."""
        self._at = {}
        row = self._insert(address).values(number=number, person_id=person_id, channel=channel, linked_at=now)
        self._run(row.on_conflict_do_update(index_elements=["number"], set_={"person_id": person_id, "linked_at": now}))

    def links(self, person_id):
        """(channel, number) of everything a person is reached by besides his own number, the newest first."""
        query = sa.select(address.c.channel, address.c.number).where(address.c.person_id == person_id)
        return tuple(self._run(query.order_by(address.c.linked_at.desc())).all())

    def ways(self, person):
        """(channel, number) of everything by which a person is reached, the newest first, the one known first last."""
        own = () if person.number.startswith(OFF) else ((channel_of(person.number), person.number),)
        return (*self.links(person.id), *own)

    def lone(self, person):
        """The sites where a person is the only supervisor who is reached."""
        held = [code for code in person.sites if "supervisor" in person.at(code)]
        return tuple(code for code in held if not any(self.ways(each) for each in self.team(code, "supervisor") if each.id != person.id))

    def unlink(self, person_id, number):
        """Take a number or chat off a person, and the codes drawn so far; in place of his own comes the newest of the others, or none."""
        self._at = {}
        self.close_codes(person_id)
        here = (address.c.person_id == person_id) & (address.c.number == number)
        if self._run(sa.delete(address).where(here).returning(address.c.number)).first() is None:
            new = next((other for _, other in self.links(person_id)), f"{OFF}{person_id}")
            own = (person.c.id == person_id) & (person.c.number == number)
            self._run(sa.update(person).where(own).values(number=new))
            self._run(sa.delete(address).where((address.c.person_id == person_id) & (address.c.number == new)))

    # ---- a number that several share
    def speaker(self, number):
        """(person id or None, until when or None, what is asked about) of a shared number."""
        row = self._run(sa.select(speaker).where(speaker.c.number == number)).first()
        return (row.person_id, row.until, tuple(row.asked)) if row else (None, None, ())

    def set_speaker(self, number, person_id, until, asked=()):
        """Write down who writes from a shared number until when, and the texts of which that is asked."""
        changed = {"person_id": person_id, "until": until, "asked": list(asked)}
        row = self._insert(speaker).values(number=number, **changed)
        self._run(row.on_conflict_do_update(index_elements=["number"], set_=changed))
