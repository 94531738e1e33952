"""Pages of a PDF, black on white: headings, rows in columns, paragraphs. The one importer of reportlab.

Its built-in letters are those of Western Europe: what is in other letters must come romanised.
"""

from reportlab.lib.pagesizes import A4, A6
from reportlab.lib.utils import ImageReader, simpleSplit
from reportlab.pdfgen.canvas import Canvas

FONT, BOLD = "Helvetica", "Helvetica-Bold"
SIZES = {"record": A4, "card": A6}


def western(text):
    """A text in the letters there are; a mark stands for each of the others."""
    return text.encode("cp1252", "replace").decode("cp1252")


class Pages:
    """A PDF that grows downwards; `foot` stands under every page, with its number where there are several."""

    def __init__(self, path, size, title, foot="", letter=9.5, margin=42, single=False):
        self._canvas = Canvas(str(path), pagesize=SIZES[size], invariant=1)
        self._canvas.setTitle(western(title))
        self.wide, self._high = SIZES[size][0] - 2 * margin, SIZES[size][1]
        self._margin, self._letter, self._foot, self._single = margin, letter, western(foot), single
        self.y = self._high - margin
        self.count = 1

    def title(self, text):
        """The head of the first page, with a line under it."""
        self._written(text, BOLD, self._letter * 1.6)
        self.y -= 3
        self._rule(1.4)
        self.y -= 4

    def heading(self, text):
        """What comes now."""
        self._room(5 * self._letter)
        self.y -= 0.8 * self._letter
        self._written(text, BOLD, self._letter * 1.1)
        self.y -= 2

    def text(self, text, bold=False, size=1.0):
        """A paragraph over the whole breadth."""
        self._written(text, BOLD if bold else FONT, self._letter * size)

    def row(self, shares, texts, bold=False):
        """Texts side by side, each in its share of the breadth, with a thin line under them."""
        font = BOLD if bold else FONT
        widths = [share * self.wide for share in shares]
        cells = [simpleSplit(western(text), font, self._letter, width - 6) for text, width in zip(texts, widths, strict=True)]
        high = max(map(len, cells)) * self._letter * 1.25 + 3
        self._room(high)
        x = self._margin
        for cell, width in zip(cells, widths, strict=True):
            for at, line in enumerate(cell):
                self._canvas.setFont(font, self._letter)
                self._canvas.drawString(x, self.y - self._letter * (1 + 1.25 * at), line)
            x += width
        self.y -= high
        self._rule(0.3)

    def picture(self, image, wide):
        """A picture in a breadth."""
        high = wide * image.height / image.width
        self._room(high)
        self._canvas.drawImage(ImageReader(image), self._margin, self.y - high, wide, high)
        self.y -= high + 4

    def save(self):
        """Write the last page and the file."""
        self._end()
        self._canvas.save()

    def _written(self, text, font, size):
        for line in simpleSplit(western(text), font, size, self.wide):
            self._room(size * 1.3)
            self._canvas.setFont(font, size)
            self._canvas.drawString(self._margin, self.y - size, line)
            self.y -= size * 1.3

    def _rule(self, width):
        self._canvas.setLineWidth(width)
        self._canvas.line(self._margin, self.y, self._margin + self.wide, self.y)

    def _room(self, high):
        """A new page where so much has no room on this one."""
        if self.y - high < self._margin:
            self._end()
            self.count += 1
            self.y = self._high - self._margin

    def _end(self):
        self._canvas.setFont(FONT, self._letter * 0.8)
        number = "" if self._single else f" - {self.count}"
        self._canvas.drawString(self._margin, self._margin * 0.55, self._foot + number)
        self._canvas.showPage()
