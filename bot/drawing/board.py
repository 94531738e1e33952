"""What a picture is drawn on: black on white, for a phone 360 points wide; each text keeps its box, so that none hides another.

Lengths here are points of that phone. The one importer of Pillow.
"""

from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from math import atan2, cos, hypot, pi, sin
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

WIDTH, DOTS = 360, 3  # points across, and dots of the picture to a point
SMALL, USUAL, LARGE = 10, 11, 14  # of wide letters with high small ones; under 10 nobody reads them at arm's length
THIN, LINE, THICK = 0.7, 1.2, 2.4
BLACK, GREY, PALE, WHITE = 0, 120, 205, 255
MARGIN = 5
LETTERS = Path(next(iter(find_spec("reportlab").submodule_search_locations))) / "fonts" / "Vera.ttf"  # Pillow's own has no accents
ROW = 17  # height of a line of a list
NEAR = (  # where a letter goes that has no room at its place, nearest first
    (0, 0), (8, 0), (-8, 0), (0, 8), (0, -8), (14, 0), (-14, 0), (10, 10), (-10, 10), (10, -10), (-10, -10), (20, 0), (-20, 0), (28, 0),
)  # fmt: skip


@dataclass(frozen=True)
class Box:
    """Where a text stands, and what it says."""

    left: float
    top: float
    right: float
    bottom: float
    text: str = ""

    def meets(self, other):
        """True where the two lie over each other."""
        return self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom


class Crowded(Exception):
    """There is no room for a text."""


@cache
def _font(size):
    return ImageFont.truetype(LETTERS, size * DOTS)


def width_of(text, size=USUAL):
    """How wide a text is."""
    return _font(size).getlength(text) / DOTS


def wrapped(text, size=SMALL):
    """A text in lines that fit across."""
    lines = [""]
    for part in text.split():
        longer = f"{lines[-1]} {part}".strip()
        if lines[-1] and width_of(longer, size) > WIDTH - 2 * MARGIN:
            lines.append(part)
        else:
            lines[-1] = longer
    return lines


def flowing(texts, sign=20):
    """[(x, line)] of texts side by side, each behind a sign, in as many lines as they need."""
    x, line, places = float(MARGIN), 0, []
    for text in texts:
        wide = sign + width_of(text, SMALL)
        if places and x + wide > WIDTH - MARGIN:
            x, line = float(MARGIN), line + 1
        places.append((x, line))
        x += wide + 10
    return places


class Board:
    """An empty picture of a height, with a title."""

    def __init__(self, height, title=""):
        self.height, self.boxes, self.numbers = height, [], {}
        self.image = Image.new("L", (WIDTH * DOTS, round(height) * DOTS), WHITE)
        self._draw = ImageDraw.Draw(self.image)
        if title:
            self.text(MARGIN, 14, title, LARGE)
            self.line([(MARGIN, 25), (WIDTH - MARGIN, 25)], THICK)

    def save(self, path):
        """Write it down as PNG; 16 greys are enough, and a third of the bytes."""
        self.image.quantize(16).save(path, "PNG", optimize=True)

    # ---- lines
    def line(self, points, width=LINE, grey=BLACK):
        """Lines from point to point."""
        self._draw.line(_dots(points), grey, max(round(width * DOTS), 1), "curve")

    def dashed(self, start, end, width=THIN, dash=4.0, gap=3.0, grey=BLACK):
        """One line in dashes."""
        far = hypot(end[0] - start[0], end[1] - start[1])
        at, step = 0.0, ((end[0] - start[0]) / far, (end[1] - start[1]) / far) if far else (0.0, 0.0)
        while at < far:
            to = min(at + dash, far)
            self.line([(start[0] + step[0] * each, start[1] + step[1] * each) for each in (at, to)], width, grey)
            at += dash + gap

    def area(self, points, fill=PALE, width=LINE):
        """A closed figure, with its outline."""
        self._draw.polygon(_dots(points), fill)
        if width:
            self.line([*points, points[0]], width)

    def circle(self, x, y, radius, width=LINE, fill=None, dashed=False):
        """A circle round a point."""
        if dashed:
            pieces = max(round(2 * pi * radius / 7), 8)
            for piece in range(pieces):
                ends = (2 * pi * (piece + part) / pieces for part in (0.0, 0.3, 0.6))
                self.line([(x + radius * cos(angle), y + radius * sin(angle)) for angle in ends], width)
            return
        box = [value * DOTS for value in (x - radius, y - radius, x + radius, y + radius)]
        self._draw.ellipse(box, fill, BLACK, max(round(width * DOTS), 1))

    def hatch(self, left, top, right, bottom, step=5.0):
        """Slanted lines, for ground and for bars."""
        at = left - (bottom - top)
        while at < right:
            start, end = max(at, left), min(at + bottom - top, right)
            if end > start:
                self.line([(start, bottom - (start - at)), (end, bottom - (end - at))], THIN)
            at += step

    def arrow(self, start, end, width=THIN):
        """A line with a head at its end."""
        self.line([start, end], width)
        back = atan2(start[1] - end[1], start[0] - end[0])
        sides = [(end[0] + 6 * cos(back + turn), end[1] + 6 * sin(back + turn)) for turn in (0.3, -0.3)]
        self.area([end, *sides], BLACK, 0)

    def between(self, start, end):
        """A dimension line: thin, with a slash over each end."""
        self.line([start, end], THIN)
        for x, y in (start, end):
            self.line([(x - 2.6, y + 2.6), (x + 2.6, y - 2.6)], LINE)

    # ---- texts
    def text(self, x, y, text, size=USUAL, anchor="l", clear=False):
        """A text at a point, which is the middle of its left, right ("r") or both ends ("m"); `clear` wipes what lies under it."""
        box = self._box(x, y, text, size, anchor)
        if clear:
            self._draw.rectangle(_flat([(box.left, box.top), (box.right, box.bottom)]), WHITE)
        self._draw.text((x * DOTS, y * DOTS), text, BLACK, _font(size), f"{anchor}m")
        self.boxes.append(box)

    def label(self, places, texts, size=SMALL):
        """The longest of some texts that fits at one of some places (x, y, anchor), tried in order; under it all is wiped."""
        for text in texts:
            for x, y, anchor in places:
                box = self._box(x, y, text, size, anchor)
                if self._free(box):
                    return self.text(x, y, text, size, anchor, clear=True)
        raise Crowded(texts[-1])

    def measure(self, letter, start, end, number=None):
        """A dimension line with its letter on it, and its number where the line is level and long enough; else beside it."""
        self.between(start, end)
        (x, y), (to_x, to_y) = start, end
        spots = [(x + (to_x - x) * share, y + (to_y - y) * share, "m") for share in (0.5, 0.35, 0.65, 0.2, 0.8)]
        beside = [(each + off, level, "m") for off in (9, -9, 0) for each, level, _ in spots]
        both = f"{letter} {number}"
        fits = number is not None and y == to_y and width_of(both, SMALL) < abs(to_x - x) - 16
        self.label(spots + beside, [both, letter] if fits else [letter])

    def point(self, letter, spot, off):
        """A letter with a line to what is too thin for a dimension line."""
        x, y = spot
        to = (x + off[0], y + off[1])
        self.line([to, spot], THIN)
        self.circle(x, y, 1.2, THIN, BLACK)
        self.mark(letter, to)

    def mark(self, letter, spot):
        """A letter or figure at a place, or as near to it as there is room."""
        self.label([(spot[0] + dx, spot[1] + dy, "m") for dx, dy in NEAR], [letter])

    def _free(self, box):
        inside = box.left >= 1 and box.right <= WIDTH - 1 and box.top >= 1 and box.bottom <= self.height - 1
        return inside and not any(box.meets(other) for other in self.boxes)

    def _box(self, x, y, text, size, anchor):
        left, top, right, bottom = (value / DOTS for value in _font(size).getbbox(text, anchor=f"{anchor}m"))
        return Box(x + left - 1, y + top - 1, x + right + 1, y + bottom + 1, text)

    def notes(self, top, lines, size=SMALL):
        """Lines of text under each other; return where they end."""
        for at, line in enumerate(lines):
            self.text(MARGIN, top + ROW * (at + 0.5), line, size)
        return top + ROW * len(lines)

    def legend(self, top, signs):
        """What marks mean: (how one is drawn at a place, its text), side by side."""
        for (draw, text), (x, line) in zip(signs, flowing([text for _, text in signs]), strict=True):
            y = top + ROW * (line + 0.5)
            draw(x, y)
            self.text(x + 20, y, text, SMALL)

    def key(self, top, rows, columns=1):
        """A list of (letter, what it is, number as it is printed) below a drawing, in columns; return where it ends."""
        each = -(-len(rows) // columns)
        wide = WIDTH / columns
        for at, (letter, title, value) in enumerate(rows):
            x, y = MARGIN + wide * (at // each), top + ROW * (at % each) + ROW / 2
            if letter:
                self.text(x, y, letter)
            self.text(x + 16, y, title)
            self.text(x + wide - 2 * MARGIN, y, value, anchor="r")
            self.line([(x, y + ROW / 2), (x + wide - 2 * MARGIN, y + ROW / 2)], THIN, PALE)
        return top + ROW * each


def _dots(points):
    return [(x * DOTS, y * DOTS) for x, y in points]


def _flat(points):
    return [value for point in _dots(points) for value in point]
