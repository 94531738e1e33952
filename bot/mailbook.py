"""Every query on what comes in and what goes out: raw messages, pieces of long texts, outgoing texts, receipts."""

from datetime import timedelta

import sqlalchemy as sa

from bot.tables import Utc, inbound, offset, outgoing, part, person

WHOLE, BETWEEN = 0, "\x1f"  # the place of a long text that was put together, among its pieces, and what stands between them there
AGAIN = timedelta(minutes=10)  # how long a network may take to bring a text once more
OPEN = ("queued", "trying", "unknown")  # states of a text that is not over yet
RECEIPTS = ("buffered", "accepted", "rejected", "failed", "delivered")  # a later one in this row outweighs those before it
OVER = {"delivered": "delivered", "failed": "failed", "rejected": "refused"}  # receipt -> state of the text

_GIVEN = sa.bindparam("given")
_CAME = (inbound.c.sender == _GIVEN) & (inbound.c.received_at >= sa.bindparam("since"))
_COUNT = sa.select(sa.func.count()).select_from(inbound).where(_CAME)
_COUNT_STATE = _COUNT.where(inbound.c.state == sa.bindparam("named"))
_NEXT = sa.update(person).where(person.c.id == _GIVEN).values(out_seq=person.c.out_seq + 1).returning(person.c.out_seq)
# as a text, for each database has an insert of its own with a conflict clause
_LAND = (
    sa.text(
        "INSERT INTO inbound (channel, wire_id, sender, text, sent_at, received_at, state)"
        " VALUES (:channel, :wire_id, :sender, :text, :sent_at, :received_at, :state) ON CONFLICT DO NOTHING RETURNING wire_id"
    )
    .bindparams(sa.bindparam("sent_at", type_=Utc), sa.bindparam("received_at", type_=Utc))
    .columns(inbound.c.wire_id)
)
_SAY = sa.insert(outgoing).returning(outgoing.c.id)
_OPEN = sa.or_(*(outgoing.c.state == state for state in OPEN))
_NOTE = sa.update(outgoing).where((outgoing.c.id == _GIVEN) & _OPEN).returning(outgoing.c.id)
_OUT = sa.select(outgoing).where(outgoing.c.id == _GIVEN)


class Mail:
    """The part of a page that holds messages; `_run` executes, `_insert` is the dialect's insert."""

    # ---- what came in
    def land(self, message, now):
        """Write the raw message down; False where this wire id has come before."""
        row = {
            "channel": message.channel,
            "wire_id": message.wire_id,
            "sender": message.sender,
            "text": message.text,
            "sent_at": message.sent_at,
            "received_at": now,
            "state": "answered",
        }
        return self._ask(_LAND, **row).first() is not None

    def brought_again(self, message, now):
        """True, and marked so, where the network brings a text once more as a new one: of that sender, with that stamp, not long ago."""
        if not message.stamped or message.sent_at is None or message.part is not None:
            return False
        same = (inbound.c.channel == message.channel) & (inbound.c.sender == message.sender) & (inbound.c.text == message.text)
        here = same & (inbound.c.sent_at == message.sent_at) & (inbound.c.received_at >= now - AGAIN)
        before = sa.select(inbound.c.wire_id).where(here & (inbound.c.wire_id != message.wire_id) & (inbound.c.state != "failed"))
        if self._run(before.limit(1)).first() is None:
            return False
        self.mark_inbound(message, "repeat")
        return True

    def mark_inbound(self, message, state):
        """Say of a message what became of it where it was not answered as others are."""
        here = (inbound.c.channel == message.channel) & (inbound.c.wire_id == message.wire_id)
        self._run(sa.update(inbound).where(here).values(state=state))

    def count_from(self, sender, since, state=None):
        """How many messages a number has sent since a moment, all or those with this state."""
        if state:
            return self._ask(_COUNT_STATE, given=sender, since=since, named=state).scalar_one()
        return self._ask(_COUNT, given=sender, since=since).scalar_one()

    def keep_part(self, message, now):
        """Keep a piece of a long text; return the texts of all its pieces in order once the last is there, else None.

        Another text in the same place is the start of a newer one under a mark used again: the older can no longer be whole.
        The whole stays for a while, so that a piece brought once more is known for what it is.
        """
        self.turn(f"parts {message.sender}")  # of two processes that get one piece each, the later one must see the other's
        piece, here = message.part, _parts(message)
        kept = self._pieces(here)
        if WHOLE in kept and kept[WHOLE].split(BETWEEN)[piece.place - 1] == message.text:
            return None
        if WHOLE in kept or kept.get(piece.place, message.text) != message.text:
            self._run(sa.delete(part).where(here))
        self._keep_piece(message, piece.place, message.text, now)
        kept = self._pieces(here)
        if len(kept) < piece.total:
            return None
        self._run(sa.delete(part).where(here))
        texts = tuple(text for _, text in sorted(kept.items()))
        self._keep_piece(message, WHOLE, BETWEEN.join(texts), now)
        return texts

    def _pieces(self, here):
        return dict(self._run(sa.select(part.c.place, part.c.text).where(here)).all())

    def _keep_piece(self, message, place, text, now):
        piece = message.part
        row = self._insert(part).values(
            channel=message.channel,
            sender=message.sender,
            receiver=piece.receiver,
            ref=piece.ref,
            total=piece.total,
            place=place,
            text=text,
            received_at=now,
            wire_id=message.wire_id,
        )
        self._run(row.on_conflict_do_nothing())

    def drop_parts(self, message):
        """Forget the pieces of the long text a message belongs to."""
        if message.part is not None:
            self._run(sa.delete(part).where(_parts(message)))

    def lone_parts(self, before):
        """The texts of which no piece has come since a moment, as mappings: whose, what came of it in order, when the last."""
        last, wire_id = sa.func.max(part.c.received_at).label("last"), sa.func.min(part.c.wire_id).label("wire_id")
        late = sa.select(*_TEXT, last, wire_id).group_by(*_TEXT).having(last < before, sa.func.min(part.c.place) != WHOLE)
        return [{**row, "pieces": sorted(self._pieces(_text(row)).items())} for row in self._run(late).mappings().all()]

    def drop_lone(self, row):
        """Forget the pieces of one text."""
        self._run(sa.delete(part).where(_text(row)))

    def drop_whole(self, before):
        """Forget the texts that were put together before a moment."""
        self._run(sa.delete(part).where((part.c.place == WHOLE) & (part.c.received_at < before)))

    def offset(self, account, since):
        """How far the updates of an account were taken, or None where nothing has come since a moment."""
        return self._run(sa.select(offset.c.value).where((offset.c.account == account) & (offset.c.at >= since))).scalar()

    def set_offset(self, account, value, now):
        """Write down how far the updates of an account were taken."""
        row = self._insert(offset).values(account=account, value=value, at=now)
        changed = {"value": value, "at": now}
        self._run(row.on_conflict_do_update(index_elements=["account"], set_=changed))

    # ---- what goes out
    def say(self, **values):
        """Queue a text for somebody and return its id; the ids of one person grow in the order of commits."""
        seq = 0
        if values.get("person_id"):
            seq = self._ask(_NEXT, given=values["person_id"]).scalar_one()
        return self._ask(_SAY, seq=seq, state="queued", tries=0, **values).scalar_one()

    def queued(self, channel, wire_id):
        """The texts still to go out for one message, in order."""
        here = (outgoing.c.channel == channel) & (outgoing.c.wire_id == wire_id) & (outgoing.c.state == "queued")
        return self._run(sa.select(outgoing).where(here).order_by(outgoing.c.id)).mappings().all()

    def mark(self, ids, state, only=None, **values):
        """Say of outgoing texts how far they are; with `only`, of those that stand at one of these states."""
        here = outgoing.c.id.in_(ids)
        here = here & outgoing.c.state.in_(only) if only else here
        self._run(sa.update(outgoing).where(here).values(state=state, **values))

    def withdraw(self, person_id, number, but):
        """Take back the texts to a person that still wait for a number, save those for one wire id; return them, oldest first."""
        here = (outgoing.c.person_id == person_id) & (outgoing.c.number == number) & outgoing.c.state.in_(OPEN)
        here &= sa.func.coalesce(outgoing.c.wire_id, "") != but
        rows = self._run(sa.update(outgoing).where(here).values(state="withdrawn").returning(outgoing)).mappings().all()
        return sorted(rows, key=lambda row: row["id"])

    def overdue(self, row, word, before):
        """The texts with a word in them that wait for the same number since a moment, this one and all behind it, whosever they are."""
        here = (outgoing.c.channel == row["channel"]) & (outgoing.c.number == row["number"]) & outgoing.c.state.in_(OPEN)
        late = self._run(sa.select(outgoing).where(here & (outgoing.c.due <= before)).order_by(outgoing.c.id)).mappings().all()
        return [each for each in late if word in each["text"]]  # the databases disagree whether small letters are others

    def sent_too(self, row, number):
        """True where the same text was queued for another number of the same person, perhaps with his name in front."""
        same = (outgoing.c.person_id == row["person_id"]) & (outgoing.c.wire_id == row["wire_id"]) & (outgoing.c.id > row["id"])
        there = self._run(sa.select(outgoing.c.text).where(same & (outgoing.c.number == number))).scalars()
        return any(text.endswith(row["text"]) for text in there)

    def note(self, text_id, state, **values):
        """Say of an outgoing text that is not over yet how far it is; False where it is over."""
        return self._ask(_NOTE, given=text_id, state=state, **values).first() is not None

    def queued_ever(self, channel, wire_id):
        """True where a text was ever queued for this message."""
        here = (outgoing.c.channel == channel) & (outgoing.c.wire_id == wire_id)
        return self._run(sa.select(outgoing.c.id).where(here).limit(1)).first() is not None

    def out(self, text_id):
        """One outgoing text as a mapping, or None."""
        return self._ask(_OUT, given=text_id).mappings().first()

    def unsent(self):
        """The texts that wait, and those that were never taken, oldest first; none of the terminal."""
        here = outgoing.c.state.in_((*OPEN, "refused", "gave_up")) & (outgoing.c.channel != "terminal")
        return self._run(sa.select(outgoing).where(here).order_by(outgoing.c.id)).mappings().all()

    def waiting(self, channels):
        """(how many texts are not over yet, when the oldest of them was due or None)."""
        here = outgoing.c.state.in_(OPEN) & outgoing.c.channel.in_(channels)
        return tuple(self._run(sa.select(sa.func.count(), sa.func.min(outgoing.c.due)).where(here)).one())

    def receipt(self, text_id, word, gateway_id, now):
        """Keep a delivery receipt; False where the text is not known. One that says less than what is known changes nothing."""
        row = self.out(text_id)
        if row is None:
            return False
        known = RECEIPTS.index(row["receipt"]) if row["receipt"] else -1
        if RECEIPTS.index(word) <= known:
            return True
        values = {"receipt": word, "receipt_at": now, "state": _after(row["state"], word)} | (
            {"gateway_id": gateway_id} if gateway_id else {}
        )
        if row["sent_at"] is None and word != "rejected":  # the report was quicker than our own note
            values["sent_at"] = now
        self._run(sa.update(outgoing).where(outgoing.c.id == text_id).values(values))
        return True


def _after(state, word):
    """How far a text is by a report; one that was taken back stays so."""
    return state if state == "withdrawn" else OVER.get(word, "sent")


_TEXT = (part.c.channel, part.c.sender, part.c.receiver, part.c.ref, part.c.total)


def _text(row):
    return sa.and_(*(column == row[column.name] for column in _TEXT))


def _parts(message):
    """Where the pieces of the same long text lie."""
    piece = message.part
    here = (part.c.channel == message.channel) & (part.c.sender == message.sender) & (part.c.receiver == piece.receiver)
    return here & (part.c.ref == piece.ref) & (part.c.total == piece.total)
