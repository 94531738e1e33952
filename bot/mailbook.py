"""Every query on what comes in and what goes out: raw messages, pieces of long texts, outgoing texts, receipts."""

import sqlalchemy as sa

from bot.tables import inbound, offset, outgoing, part, person

OPEN = ("queued", "trying", "unknown")  # states of a text that is not over yet
RECEIPTS = ("buffered", "accepted", "rejected", "failed", "delivered")  # a later one in this row outweighs those before it
OVER = {"delivered": "delivered", "failed": "failed", "rejected": "refused"}  # receipt -> state of the text


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

    def count_from(self, sender, since):
        """How many messages a number has sent since a moment."""
        here = (inbound.c.sender == sender) & (inbound.c.received_at >= since)
        return self._run(sa.select(sa.func.count()).select_from(inbound).where(here)).scalar_one()

    def keep_part(self, message, now):
        """Keep a piece of a long text; return the texts of all its pieces in order once the last is there, else None."""
        piece, here = message.part, _parts(message)
        row = self._insert(part).values(
            channel=message.channel,
            sender=message.sender,
            receiver=piece.receiver,
            ref=piece.ref,
            total=piece.total,
            place=piece.place,
            text=message.text,
            received_at=now,
            wire_id=message.wire_id,
        )
        self._run(row.on_conflict_do_nothing())
        texts = self._run(sa.select(part.c.text).where(here).order_by(part.c.place)).scalars().all()
        if len(texts) < piece.total:
            return None
        self._run(sa.delete(part).where(here))
        return tuple(texts)

    def drop_parts(self, message):
        """Forget the pieces of the long text a message belongs to; True where there were any."""
        if message.part is None:
            return False
        return self._run(sa.delete(part).where(_parts(message)).returning(part.c.place)).first() is not None

    def newest_part(self, message):
        """When the newest piece of the long text a message belongs to came, or None where there is none."""
        return self._run(sa.select(sa.func.max(part.c.received_at)).where(_parts(message))).scalar()

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
            count = sa.update(person).where(person.c.id == values["person_id"]).values(out_seq=person.c.out_seq + 1)
            seq = self._run(count.returning(person.c.out_seq)).scalar_one()
        row = sa.insert(outgoing).values(seq=seq, state="queued", tries=0, **values)
        return self._run(row.returning(outgoing.c.id)).scalar_one()

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
        return self._run(sa.select(outgoing).where(outgoing.c.id == text_id)).mappings().first()

    def unsent(self):
        """The texts that wait, and those that were never taken, oldest first; none of the terminal."""
        here = outgoing.c.state.in_((*OPEN, "refused", "gave_up")) & (outgoing.c.channel != "terminal")
        return self._run(sa.select(outgoing).where(here).order_by(outgoing.c.id)).mappings().all()

    def oldest_waiting(self, channels):
        """When the oldest text that is not over yet was due, or None."""
        here = outgoing.c.state.in_(OPEN) & outgoing.c.channel.in_(channels)
        return self._run(sa.select(sa.func.min(outgoing.c.due)).where(here)).scalar()

    def receipt(self, text_id, word, gateway_id, now):
        """Keep a delivery receipt; False where the text is not known. One that says less than what is known changes nothing."""
        row = self.out(text_id)
        if row is None:
            return False
        known = RECEIPTS.index(row["receipt"]) if row["receipt"] else -1
        if RECEIPTS.index(word) <= known:
            return True
        values = {"receipt": word, "receipt_at": now} | ({"gateway_id": gateway_id} if gateway_id else {})
        state = OVER.get(word, "sent")
        if row["state"] in (*OPEN, "sent"):
            values["state"] = state
        self._run(sa.update(outgoing).where(outgoing.c.id == text_id).values(values))
        return True


def _parts(message):
    """Where the pieces of the same long text lie."""
    piece = message.part
    here = (part.c.channel == message.channel) & (part.c.sender == message.sender) & (part.c.receiver == piece.receiver)
    return here & (part.c.ref == piece.ref) & (part.c.total == piece.total)
