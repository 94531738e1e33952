"""Every query on roles that a programme file gives, and on roles that end."""

import sqlalchemy as sa

from bot.tables import role

ENDED = "ended"  # state of a role that somebody took off: the file that named it does not give it back


class Roles:
    """The part of a page that holds who is given what by a file, and what ends; `_run` executes."""

    def file_role(self, person_id, code, name, back=False):
        """Give somebody a role that a file names: one given by message stays that; one taken off since stays off but with `back`."""
        here = (role.c.person_id == person_id) & (role.c.site == code) & (role.c.role == name)
        had = self._run(sa.select(role.c.state, role.c.origin).where(here)).first()
        self._at = {}
        if had is None:
            self._run(sa.insert(role).values(person_id=person_id, site=code, role=name, state="active", origin="file"))
        elif had.state == "pending" or (had.state == ENDED and back) or (had.state == "active" and had.origin is None):
            self._run(sa.update(role).where(here).values(state="active", origin="file"))

    def end_filed(self, named):
        """End the roles a file gave that are not among (person id, site, role) any more; return them."""
        given = self._run(sa.select(role.c.person_id, role.c.site, role.c.role).where(role.c.origin == "file")).all()
        gone = [tuple(each) for each in given if tuple(each) not in named]
        self._at = {}
        for person_id, code, name in gone:
            self._run(sa.delete(role).where((role.c.person_id == person_id) & (role.c.site == code) & (role.c.role == name)))
        return gone

    def end_role(self, person_id, code, name):
        """Take a role off somebody."""
        self._at = {}
        here = (role.c.person_id == person_id) & (role.c.site == code) & (role.c.role == name)
        self._run(sa.update(role).where(here).values(state=ENDED))
