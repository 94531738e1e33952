"""Every query on what comes in and what goes out: raw messages, pieces of long texts, outgoing texts, receipts."""

import sqlalchemy as sa

from bot.tables import inbound, offset, outgoing, part, person

WHOLE, BETWEEN = 0, "\x1f"  # the place of a long text that was put together, among its pieces, and what stands between them there
OPEN = ("queued", "trying", "unknown")  # states of a text that is not over yet
RECEIPTS = ("buffered", "accepted", "rejected", "failed", "delivered")  # a later one in this row outweighs those before it
OVER = {"delivered": "delivered", "failed": "failed", "rejected": "refused"}  # receipt -> state of the text

_NEXT = sa.update(person).where(person.c.id == sa.bindparam("given")).values(out_seq=person.c.out_seq + 1).returning(person.c.out_seq)
_SAY = sa.insert(outgoing).returning(outgoing.c.id)
_OUT = sa.select(outgoing).where(outgoing.c.id == sa.bindparam("given"))


class Mail:
    """The part of a page that holds messages; `_run` executes, `_insert` is the dialect's insert."""

    # ---- what came in
    def land(self, message, now):
        """Write the raw message down; False where this wire id has come before."""
        row = self._insert(inbound).values(
            channel=message.channel,
            wire_id=message.wire_id,
            sender=message.sender,
            text=message.text,
            sent_at=message.sent_at,
            received_at=now,
            state="answered",
        )
        return self._run(row.on_conflict_do_nothing().returning(inbound.c.wire_id)).first() is not None

    def mark_inbound(self, message, state):
        """Say of a message that it is a piece of a longer one, or that answering it failed."""
        here = (inbound.c.channel == message.channel) & (inbound.c.wire_id == message.wire_id)
        self._run(sa.update(inbound).where(here).values(state=state))

    def count_from(self, sender, since, state=None):
        """How many messages a number has sent since a moment, all or those with this state."""
        here = (inbound.c.sender == sender) & (inbound.c.received_at >= since)
        here = here & (inbound.c.state == state) if state else here
        return self._run(sa.select(sa.func.count()).select_from(inbound).where(here)).scalar_one()

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
        """Forget the pieces of the long text a message belongs to; True where there were any."""
        if message.part is None:
            return False
        return self._run(sa.delete(part).where(_parts(message)).returning(part.c.place)).first() is not None

    def lone_parts(self, before):
        """Take out the texts of which no piece has come since a moment: (channel, sender, wire id of one piece) of each."""
        text = (part.c.channel, part.c.sender, part.c.receiver, part.c.ref, part.c.total)
        first = (sa.func.min(part.c.wire_id).label("wire_id"), sa.func.min(part.c.place).label("place"))
        late = sa.select(*text, *first).group_by(*text).having(sa.func.max(part.c.received_at) < before)
        found = self._run(late).mappings().all()
        for row in found:
            self._run(sa.delete(part).where(*(column == row[column.name] for column in text)))
        return tuple((row["channel"], row["sender"], row["wire_id"]) for row in found if row["place"] != WHOLE)

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
            seq = self._run(_NEXT, {"given": values["person_id"]}).scalar_one()
        return self._run(_SAY, {"seq": seq, "state": "queued", "tries": 0, **values}).scalar_one()

    def queued(self, channel, wire_id):
        """The texts still to go out for one message, in order."""
        here = (outgoing.c.channel == channel) & (outgoing.c.wire_id == wire_id) & (outgoing.c.state == "queued")
        return self._run(sa.select(outgoing).where(here).order_by(outgoing.c.id)).mappings().all()

    def mark(self, ids, state, only=None, **values):
        """Say of outgoing texts how far they are; with `only`, of those that stand at one of these states."""
        here = outgoing.c.id.in_(ids)
        here = here & outgoing.c.state.in_(only) if only else here
        self._run(sa.update(outgoing).where(here).values(state=state, **values))

    def queued_ever(self, channel, wire_id):
        """True where a text was ever queued for this message."""
        here = (outgoing.c.channel == channel) & (outgoing.c.wire_id == wire_id)
        return self._run(sa.select(outgoing.c.id).where(here).limit(1)).first() is not None

    def out(self, text_id):
        """One outgoing text as a mapping, or None."""
        return self._run(_OUT, {"given": text_id}).mappings().first()

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
        values = {"receipt": word, "receipt_at": now, "state": OVER.get(word, "sent")} | ({"gateway_id": gateway_id} if gateway_id else {})
        if row["sent_at"] is None and word != "rejected":  # the report was quicker than our own note
            values["sent_at"] = now
        self._run(sa.update(outgoing).where(outgoing.c.id == text_id).values(values))
        return True


def _parts(message):
    """Where the pieces of the same long text lie."""
    piece = message.part
    here = (part.c.channel == message.channel) & (part.c.sender == message.sender) & (part.c.receiver == piece.receiver)
    return here & (part.c.ref == piece.ref) & (part.c.total == piece.total)
