"""A finished drawing: primitives in millimetres of paper, x to the right, y down, rounded to 0.01 mm.

Line, Circle, Fill, Text   the primitives, each with the name of the part it belongs to
Box                        an upright rectangle, for room and for collisions
Drawing                    all of it, with its scale, caption and list of items
drawing_id                 its id on the page
Canvas                     collects primitives while a view is drawn, then rounds and shifts them
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Final, Literal

from generator.language.say import say
from generator.render.lines import LineKind, Point, edges

LETTER: Final = 2.5  # mm, height of a capital: ISO 3098-1 sizes 2.5 and 3.5
LARGE_LETTER: Final = 3.5
BODY_PER_CAPITAL: Final = 1.4  # font size over height of a capital, about 1/0.72 in plain sans-serif faces
WIDTH: Final = 186.0  # mm: A4 and Letter between their margins
MARGIN: Final = 1.5  # mm kept free around a drawing
_WIDTHS: Final = {
    " ": 0.28,
    ".": 0.28,
    ",": 0.28,
    ":": 0.28,
    "[": 0.28,
    "]": 0.28,
    "(": 0.33,
    ")": 0.33,
    "-": 0.33,
    "/": 0.3,
    "i": 0.24,
    "l": 0.24,
    "j": 0.24,
    "t": 0.3,
    "f": 0.3,
    "r": 0.34,
    "I": 0.28,
    "m": 0.84,
    "w": 0.73,
    "M": 0.84,
    "Ø": 0.79,
    "·": 0.3,
    "′": 0.2,
    "×": 0.6,
}
_CAPITAL: Final = 0.7
_OTHER: Final = 0.56


@lru_cache(maxsize=4096)  # a name is tried at many places
def text_width(text: str, height: float = LETTER) -> float:
    """Width in mm of one line of lettering; the drawing then sets the line to this very width."""
    widths = (_WIDTHS.get(c, _CAPITAL if c.isupper() else _OTHER) for c in str(text))
    return sum(widths) * height * BODY_PER_CAPITAL


@dataclass(frozen=True)
class Box:
    """An upright rectangle, mm."""

    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def around(cls, points: Iterable[Point]) -> Box:
        """The smallest box that holds all points."""
        xs, ys = zip(*points, strict=True)
        return cls(min(xs), min(ys), max(xs), max(ys))

    def grown(self, by: float) -> Box:
        """The box with a margin all round."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def overlaps(self, other: Box) -> bool:
        """True when the two boxes share an area."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: Box) -> bool:
        """True when `other` lies inside."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.top <= other.top
            and other.bottom <= self.bottom
        )

    def crossed_by(self, a: Point, b: Point) -> bool:
        """True when the line from a to b passes through the inside of the box."""
        if (
            (a[0] <= self.left and b[0] <= self.left)
            or (a[0] >= self.right and b[0] >= self.right)
            or (a[1] <= self.top and b[1] <= self.top)
            or (a[1] >= self.bottom and b[1] >= self.bottom)
        ):
            return False
        return clipped(self.left, self.top, self.right, self.bottom, a, b)


def clipped(left: float, top: float, right: float, bottom: float, a: Point, b: Point) -> bool:
    """True when the line from a to b, which is not all to one side of it, passes through the rectangle.

    Source: Liang and Barsky, A new concept and method for line clipping (1984).
    """
    enter, leave = 0.0, 1.0
    (x, y), dx, dy = a, b[0] - a[0], b[1] - a[1]
    if abs(dx) < 1e-12:
        if x <= left or right <= x:
            return False
    else:
        first, last = ((left - x) / dx, (right - x) / dx) if dx > 0 else ((right - x) / dx, (left - x) / dx)
        enter, leave = max(enter, first), min(leave, last)
    if abs(dy) < 1e-12:
        if y <= top or bottom <= y:
            return False
    else:
        first, last = ((top - y) / dy, (bottom - y) / dy) if dy > 0 else ((bottom - y) / dy, (top - y) / dy)
        enter, leave = max(enter, first), min(leave, last)
    return enter < leave


@dataclass(frozen=True)
class Line:
    """A run of straight lines."""

    kind: LineKind
    points: tuple[Point, ...]
    part: str


@dataclass(frozen=True)
class Circle:
    """A circle; `filled` makes it a dot."""

    kind: LineKind
    center: Point
    radius: float
    part: str
    filled: bool = False

    @property
    def box(self) -> Box:
        """The square around it."""
        (x, y), r = self.center, self.radius
        return Box(x - r, y - r, x + r, y + r)


@dataclass(frozen=True)
class Fill:
    """A filled outline: an arrowhead."""

    points: tuple[Point, ...]
    part: str


@dataclass(frozen=True)
class Text:
    """One line of lettering that starts at `at` on its base line; `upright` reads from the right."""

    text: str
    at: Point
    height: float
    part: str
    upright: bool = False

    @property
    def width(self) -> float:
        """Length along the base line, mm."""
        return round(text_width(self.text, self.height), 2)

    @property
    def size(self) -> float:
        """Font size, mm."""
        return round(self.height * BODY_PER_CAPITAL, 2)

    @property
    def box(self) -> Box:
        """The room it takes, tails of letters included."""
        (x, y), tail = self.at, 0.25 * self.height
        if self.upright:
            return Box(x - self.height, y - self.width, x + tail, y)
        return Box(x, y - self.height, x + self.width, y + tail)


View = Literal["setup", "bed", "thread", "dial", "plot"]


def drawing_id(job: str, name: str) -> str:
    """A drawing's id on the page: job number and name in letters, digits and hyphens.

    >>> drawing_id("SW 113/2", "setup")
    'job-SW-113-2-setup'
    """
    return f"job-{''.join(c if c.isascii() and c.isalnum() else '-' for c in job)}-{name}"


@dataclass(frozen=True)
class Drawing:
    """A finished drawing. `items` are the numbers on leaders with their trade words."""

    id: str
    view: View
    width: float
    height: float
    lines: tuple[Line, ...]
    circles: tuple[Circle, ...]
    fills: tuple[Fill, ...]
    texts: tuple[Text, ...]
    title: str
    desc: str
    scale: str
    caption: str
    items: tuple[tuple[int, str], ...] = ()

    def part(self, name: str) -> tuple[Line, ...]:
        """All lines of one part."""
        return tuple(line for line in self.lines if line.part == name)


@dataclass
class Canvas:
    """Primitives of a drawing in the making."""

    lines: list[Line] = field(default_factory=list)
    circles: list[Circle] = field(default_factory=list)
    fills: list[Fill] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)

    def drawing(
        self, view: View, job: str, *, title: str, desc: str, scale: str, caption: str,
        left: float = 0.0, width: float = WIDTH, items: Sequence[tuple[int, str]] = (), name: str = "",
    ) -> Drawing:
        """The finished drawing: shifted to the upper edge of its paper, and `left` mm to the right.

        `name` is its own among several drawings of one view.
        """
        extent = self.extent()
        done = self.finished(left, MARGIN - extent.top)
        return Drawing(
            id=drawing_id(job, name or view),
            view=view,
            width=round(width, 2),
            height=round(extent.bottom - extent.top + 2 * MARGIN, 2),
            lines=tuple(done.lines),
            circles=tuple(done.circles),
            fills=tuple(done.fills),
            texts=tuple(done.texts),
            title=say("{title}, job {job}", title=title, job=job),
            desc=desc,
            scale=scale,
            caption=caption,
            items=tuple(items),
        )

    def line(self, kind: LineKind, part: str, *points: Point) -> None:
        """Add a run of straight lines."""
        self.lines.append(Line(kind, points, part))

    def circle(
        self, kind: LineKind, part: str, center: Point, radius: float, filled: bool = False
    ) -> None:
        """Add a circle, or a dot."""
        self.circles.append(Circle(kind, center, radius, part, filled))

    def fill(self, part: str, *points: Point) -> None:
        """Add a filled outline."""
        self.fills.append(Fill(points, part))

    def outline(self, part: str, corners: Sequence[Point], closed: bool = True) -> None:
        """Add an adjacent part, edge by edge."""
        self.lines.extend(Line(kind, ends, part) for kind, ends in edges(corners, closed))

    def text(self, part: str, text: str, x: float, y: float, height: float = LETTER) -> Text:
        """Add a line of lettering that starts at x, on base line y."""
        made = Text(str(text), (x, y), height, part)
        self.texts.append(made)
        return made

    def paragraph(
        self, part: str, phrases: Sequence[str], x: float, y: float, width: float, between: str = "   "
    ) -> float:
        """Add phrases line by line, never broken inside a phrase; return the last base line."""
        line = ""
        for phrase in phrases:
            longer = f"{line}{between}{phrase}" if line else phrase
            if line and text_width(longer) > width:
                self.text(part, line, x, y)
                y += LINE_STEP
                longer = phrase
            line = longer
        self.text(part, line, x, y)
        return y

    def extent(self) -> Box:
        """The box around everything."""
        points = [p for line in self.lines for p in line.points] + [
            p for fill in self.fills for p in fill.points
        ]
        for box in [text.box for text in self.texts] + [circle.box for circle in self.circles]:
            points += [(box.left, box.top), (box.right, box.bottom)]
        return Box.around(points)

    def upside_down(self, above: float) -> Canvas:
        """The same, mirrored about y = 0; lettering stays readable, and `above` its dimension line (mm)."""

        def flipped(point: Point) -> Point:
            return (point[0], -point[1])

        def stood(text: Text) -> Text:
            x, y = text.at
            if text.upright:
                return replace(text, at=(x, text.width - y))
            on_line = text.part == "dimension"
            return replace(text, at=(x, -y - 2 * above if on_line else text.height - y))

        return Canvas(
            [replace(line, points=tuple(map(flipped, line.points))) for line in self.lines],
            [replace(circle, center=flipped(circle.center)) for circle in self.circles],
            [replace(fill, points=tuple(map(flipped, fill.points))) for fill in self.fills],
            [stood(text) for text in self.texts],
        )

    def finished(self, dx: float, dy: float) -> Canvas:
        """The same, shifted and rounded to 0.01 mm."""

        def at(point: Point) -> Point:
            return (round(point[0] + dx, 2) + 0.0, round(point[1] + dy, 2) + 0.0)

        return Canvas(
            [Line(line.kind, tuple(map(at, line.points)), line.part) for line in self.lines],
            [replace(c, center=at(c.center), radius=round(c.radius, 2)) for c in self.circles],
            [Fill(tuple(map(at, fill.points)), fill.part) for fill in self.fills],
            [replace(text, at=at(text.at)) for text in self.texts],
        )


LINE_STEP: Final = 4.2  # mm from one line of lettering to the next
