"""What a calculation says when it has no number to give.

CalcError
  OutOfRange   a value lies outside what a formula, table or rule covers
  Missing      a value that is needed was not given
  Unknown      a name that no table here has
"""


class CalcError(ValueError):
    """The figures do not cover what was asked; there is no answer, not a guessed one."""


class OutOfRange(CalcError):
    """A value outside the range that its source covers (SI units, bounds may be None).

    `source` is a text, or the figure whose source it is.
    """

    def __init__(self, name, value, low=None, high=None, unit="", source=""):
        source = getattr(source, "source", source)
        self.name, self.value, self.low, self.high, self.unit, self.source = name, value, low, high, unit, source
        bounds = f"{'' if low is None else low} to {'' if high is None else high}".strip()
        text = f"{name} {value} {unit} is outside {bounds} {unit}".replace("  ", " ")
        super().__init__(f"{text} ({source})" if source else text)


class Missing(CalcError):
    """A value without which there is no answer; unknown is not zero."""

    def __init__(self, name):
        self.name = name
        super().__init__(f"{name} is not given")


class Unknown(CalcError):
    """A name that stands in no table here; `known` lists those that do."""

    def __init__(self, name, known=()):
        self.name, self.known = name, tuple(known)
        super().__init__(f"{name} is not known; known: {', '.join(map(str, self.known))}")


def require(name, value, low=None, high=None, unit="", source=""):
    """Return `value`, or raise where it is missing, not a number, without end, or outside `low` to `high`.

    The test is written so that a value that is not a number fails it: taken from itself it leaves no zero, nor does one
    without end.
    """
    if value is None:
        raise Missing(name)
    if (low is None or value >= low) and (high is None or value <= high) and value - value == 0:
        return value
    raise OutOfRange(name, value, low, high, unit, source)
