"""A plot as a drawing: axes with round ticks, curves told apart by their lines, marks, barred stretches.

Lines as in the other drawings: main curve continuous wide, the second long-dashed dotted wide, the third
long-dashed double-dotted narrow, a limit dashed narrow; a mark is a long-dashed dotted narrow line with its
name above it. A barred stretch is hatched and lettered, and a key below says why.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import inf
from typing import Final

from generator.language.say import say
from generator.render.drawing import LETTER, LINE_STEP, MARGIN, Box, Canvas, Drawing, text_width
from generator.render.formats import Unit
from generator.render.lines import LineKind, Point
from generator.render.placing import Board
from generator.render.plot_barred import draw_barred
from generator.render.plot_curves import below, finite, highest, runs_of
from generator.render.plot_marks import (
    Name,
    base_line,
    line_top,
    merged,
    place_names,
    rows_above,
)
from generator.render.plot_scale import Axis, level_axis, shown_unit, upright_axis
from generator.render.spread import spread, wrapped
from generator.sheet.drawn import Curve, PlotScene

WIDTH: Final = 112.0  # mm: leaves room for the table beside it
HEIGHT: Final = 38.0  # mm of the plot proper
TICK: Final = 1.2  # mm
LABEL_WIDTH: Final = 27.0  # mm of a curve's label on one line
LABEL_GAP: Final = 2.0  # mm between the end of the plot and the labels of its curves
LABEL_STEP: Final = 3.6  # mm from line to line of a curve's label
LABELS_BELOW: Final = 1.0  # mm between the upper edge of the plot, where marks have their names, and these
DOT: Final = 0.9  # mm, radius of a curve that is one point
KINDS: Final[dict[str, LineKind]] = {
    "main": "visible", "second": "chain", "third": "phantom", "limit": "hidden",
}


@dataclass(frozen=True)
class _Label:
    """What a curve is called, and the point of the curve that it stands for."""

    lines: tuple[str, ...]
    end: Point


@dataclass(frozen=True)
class _Plot:
    """Everything that is known before anything is drawn: axes with y down the paper, and labels."""

    scene: PlotScene
    across: Axis
    up: Axis
    labels: tuple[_Label, ...]

    @property
    def box(self) -> Box:
        """The plot proper."""
        return Box(self.across.start, self.up.end, self.across.end, self.up.start)

    def at(self, point: tuple[float, float]) -> Point:
        """Paper position of a point (SI)."""
        return (self.across.at(point[0]), self.up.at(point[1]))


def plot_view(scene: PlotScene) -> Drawing:
    """The plot as a finished drawing; its caption and what it says stand beside it on the page."""
    plot = _laid_out(scene)
    canvas = Canvas()
    board = Board(plot.box.grown(-0.3))
    _draw_curves(canvas, plot)
    board.lines += [line.points for line in canvas.lines]
    key, top = _draw_marks(canvas, board, plot)
    key += draw_barred(canvas, board, _barred(plot))
    _draw_axes(canvas, plot)
    _label_curves(canvas, plot)
    _name_axes(canvas, plot, key, top)
    return canvas.drawing(
        "plot", scene.job, name=f"plot-{scene.id}", title=scene.title, desc=_described(scene), scale="",
        caption=scene.caption, width=WIDTH,
    )


def _described(scene: PlotScene) -> str:
    """The plot in words, for those who cannot see it."""
    curves = "; ".join(str(curve.label) for curve in scene.curves if curve.label)
    shows = say(" Curves: {curves}.", curves=curves) if curves else ""
    return say(
        "{y_label} over {x_label}.{shows} {says}",
        y_label=scene.y_label, x_label=scene.x_label, shows=shows, says=scene.says,
    )


# -- lay out --------------------------------------------------------------------------------------------


def _laid_out(scene: PlotScene) -> _Plot:
    points = [point for curve in scene.curves for point in finite(curve)]
    places = [x for x, _ in points] + [mark.x for mark in scene.marks]
    places += [x for stretch in scene.barred for x in (stretch.start, stretch.end)]
    named = _named(scene)
    texts = [wrapped(curve.label, LABEL_WIDTH) for curve in named]
    height = max(HEIGHT, LABELS_BELOW + sum(_tall(lines) for lines in texts))
    most = highest(scene)
    shown = [min(y, most) for _, y in points]
    up = upright_axis(shown_unit(scene, scene.y_quantity), shown, height, 0.0)
    left = MARGIN + max(map(text_width, up.labels)) + 1.0 + TICK
    wide = max((text_width(line) for lines in texts for line in lines), default=0.0)
    right = WIDTH - MARGIN - (LABEL_GAP + wide if wide else 0.0)
    unit = shown_unit(scene, scene.x_quantity)
    across = _clear_of_edge(unit, places, left, right)
    plot = _Plot(scene, across, up, ())
    ends = [(_drawn(plot, curve) or [[(across.end, up.end)]])[-1][-1] for curve in named]
    return _Plot(scene, across, up, tuple(map(_Label, texts, ends)))


def _clear_of_edge(unit: Unit, places: Sequence[float], left: float, right: float) -> Axis:
    """The axis along, a little shorter where the number at its last tick would stand over the edge."""
    axis = level_axis(unit, places, left, right)
    over = axis.at(axis.ticks[-1] * unit.si) + text_width(axis.labels[-1]) / 2 - (WIDTH - MARGIN)
    return level_axis(unit, places, left, right - over) if over > 0 else axis


def _named(scene: PlotScene) -> list[Curve]:
    """Curves that carry their name: none where one curve is all there is, for the axis says what it is."""
    drawn = [curve for curve in scene.curves if any(True for _ in finite(curve))]
    return [curve for curve in drawn if curve.label] if len(drawn) > 1 else []


def _tall(lines: Sequence[str]) -> float:
    return LABEL_STEP * len(lines) + 0.6


# -- draw -----------------------------------------------------------------------------------------------


def _draw_axes(canvas: Canvas, plot: _Plot) -> None:
    """Both axes with their ticks and numbers, and zero where the curves go below it."""
    box, across, up = plot.box, plot.across, plot.up
    canvas.line("thin", "axes", (box.left, box.top), (box.left, box.bottom), (box.right, box.bottom))
    for tick, label in zip(up.ticks, up.labels, strict=True):
        y = up.at(tick * up.unit.si)
        canvas.line("thin", "tick-up", (box.left - TICK, y), (box.left, y))
        canvas.text("number-up", label, box.left - TICK - 0.8 - text_width(label), y + LETTER / 2)
        if tick == 0 and y < box.bottom - 0.1:
            canvas.line("thin", "zero", (box.left, y), (box.right, y))
    taken = -1e9
    for tick, label in zip(across.ticks, across.labels, strict=True):
        x, half = across.at(tick * across.unit.si), text_width(label) / 2
        canvas.line("thin", "tick-across", (x, box.bottom), (x, box.bottom + TICK))
        if x - half < taken + 1.0:
            continue  # numbers too long to stand at every tick
        canvas.text("number-across", label, x - half, box.bottom + TICK + 0.8 + LETTER)
        taken = x + half


def _draw_curves(canvas: Canvas, plot: _Plot) -> None:
    for number, curve in enumerate(plot.scene.curves):
        part = f"curve-{number}"
        for points in _drawn(plot, curve):
            if len(points) == 1:
                canvas.circle("thin", part, points[0], DOT, filled=True)
            else:
                canvas.line(KINDS[curve.kind], part, *points)


def _drawn(plot: _Plot, curve: Curve) -> list[list[Point]]:
    """The runs of a curve on paper, as far as they lie on the plot."""
    return list(below(plot.box.top, [[plot.at(point) for point in run] for run in runs_of(curve)]))


def _draw_marks(canvas: Canvas, board: Board, plot: _Plot) -> tuple[list[str], float]:
    """Lines and names of the marks; returns the key that begins with them, and the upper edge of it all."""
    marks = merged([(plot.across.at(mark.x), mark.label) for mark in plot.scene.marks])
    box, key = plot.box, []
    names = place_names(marks, MARGIN, WIDTH - MARGIN)
    if names is None:
        names = _numbered([x for x, _ in marks])
        key = [f"{number} {text}" for number, (_, text) in enumerate(marks, 1)]
    for name in names:
        start = line_top(name, box.top)
        ends: list[Point] = [(name.x, start), (name.x, box.bottom)]
        if key:  # numbers are spread: a short slant leads to each
            foot = (name.left + text_width(name.lines[0]) / 2, start + LETTER + 0.6)
            ends = [foot, (name.x, box.top), ends[1]]
        canvas.line("center", "mark", *ends)
        board.lines.append(tuple(ends))
        for number, line in enumerate(name.lines):
            canvas.text("mark-name", line, name.left, base_line(name, number, box.top))
    return key, box.top - rows_above(names) - 1.2


def _numbered(xs: Sequence[float]) -> list[Name]:
    """Numbers instead of names, spread over their lines in the second row."""
    labels = [str(number) for number in range(1, len(xs) + 1)]
    sizes = [text_width(label) + 1.2 for label in labels]
    middles = spread(xs, sizes, MARGIN, WIDTH - MARGIN)
    return [
        Name(x, (label,), middle - text_width(label) / 2, 1)
        for x, label, middle in zip(xs, labels, middles, strict=True)
    ]


def _barred(plot: _Plot) -> list[tuple[Box, str]]:
    """The barred stretches on paper, with their reasons."""
    found = []
    for stretch in plot.scene.barred:
        low, high = sorted((plot.across.at(stretch.start), plot.across.at(stretch.end)))
        found.append((Box(low, plot.box.top, high, plot.box.bottom), stretch.why))
    return found


def _label_curves(canvas: Canvas, plot: _Plot) -> None:
    """Names of the curves right of the plot, each as near to the end of its curve as the others let it."""
    box, labels = plot.box, plot.labels
    middles = spread(
        [label.end[1] for label in labels], [_tall(label.lines) for label in labels],
        box.top + LABELS_BELOW, box.bottom,
    )
    left = max([box.right, *(label.end[0] for label in labels)]) + LABEL_GAP
    for label, middle in zip(labels, middles, strict=True):
        base = middle - LABEL_STEP * len(label.lines) / 2 + (LABEL_STEP + LETTER) / 2
        for number, line in enumerate(label.lines):
            canvas.text("curve-name", line, left, base + LABEL_STEP * number)
        x, y = label.end
        if abs(middle - y) > LETTER / 2 or x < box.right - LABEL_GAP:
            canvas.line("thin", "leader", (x, y), (left - 0.5, middle))


def _name_axes(canvas: Canvas, plot: _Plot, key: Sequence[str], top: float) -> None:
    """What the axes count, above and below, then the key."""
    scene, box = plot.scene, plot.box
    label = _with_unit(scene.y_label, plot.up.unit)
    if highest(scene) < inf:
        label += say("; more runs off the plot")
    lines = wrapped(label, WIDTH - 2 * MARGIN)
    for number, line in enumerate(lines, 1):
        canvas.text("y-label", line, MARGIN, top - 1.6 - LINE_STEP * (len(lines) - number))
    y = box.bottom + TICK + 0.8 + LETTER + LINE_STEP
    for line in wrapped(_with_unit(scene.x_label, plot.across.unit), WIDTH - 2 * MARGIN):
        middle = (box.left + box.right - text_width(line)) / 2
        canvas.text("x-label", line, max(MARGIN, min(middle, WIDTH - MARGIN - text_width(line))), y)
        y += LINE_STEP
    for one in _flowed(key, WIDTH - 2 * MARGIN):
        canvas.text("key", one, MARGIN, y)
        y += LINE_STEP


def _with_unit(label: str, unit: Unit) -> str:
    return f"{label}, {unit.name}" if unit.name else str(label)


def _flowed(phrases: Iterable[str], width: float) -> list[str]:
    """Phrases line by line, several on a line where they fit, a long one broken between words."""
    lines: list[str] = []
    for phrase in phrases:
        longer = f"{lines[-1]}   {phrase}" if lines else phrase
        if lines and text_width(longer) <= width:
            lines[-1] = longer
        else:
            lines += wrapped(phrase, width)
    return lines
