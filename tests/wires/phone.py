"""What a phone makes of the texts a gateway is given: the pieces of a long one are shown once all of them are there."""

from urllib.parse import parse_qs, urlsplit


class Phone:
    """Of all recipients; keeps the pieces by recipient and mark."""

    def __init__(self):
        self._kept = {}

    def take(self, path):
        """The query of a sendsms as a mapping, with the whole text where this completes it; None while pieces are missing."""
        query = {name: values[0] for name, values in parse_qs(urlsplit(path).query, keep_blank_values=True).items()}
        header = parse_qs(urlsplit(path).query, encoding="latin-1").get("udh")
        if header is None:
            return query
        size, element, length, ref, total, place = header[0].encode("latin-1")
        assert (size, element, length) == (5, 0, 3), header
        kept = self._kept.setdefault((query["to"], ref, total), {})
        kept[place] = query["text"]
        if len(kept) < total:
            return None
        del self._kept[query["to"], ref, total]
        return query | {"text": "".join(text for _, text in sorted(kept.items()))}
