"""The thread dial on the page: its face, the rule, and the table that explains the marks."""

from __future__ import annotations

from dataclasses import dataclass

from jinja2 import Environment
from markupsafe import Markup

from generator.language.say import first_large
from generator.render.dial_view import dial_view, mark_view
from generator.render.svg import svg
from generator.sheet.drawn import DialScene


@dataclass(frozen=True)
class DialLine:
    """One row of the table: the mark, where it stands, what happens there."""

    mark: Markup
    places: str
    says: str


@dataclass(frozen=True)
class DialBlock:
    """The drawing with its name, the rule in large letters, what the drawing holds for, and the table."""

    svg: Markup
    title: str
    rule: str
    caption: str
    lines: tuple[DialLine, ...]


def dial_block(scene: DialScene | None, env: Environment) -> DialBlock | None:
    """The thread dial as finished strings; None where there is no dial to draw."""
    if scene is None:
        return None
    face = dial_view(scene)
    return DialBlock(
        svg(face, env),
        face.title,
        first_large(scene.rule),
        face.caption,
        tuple(
            DialLine(svg(mark_view(scene, row, number), env), row.places, row.says)
            for number, row in enumerate(scene.rows, 1)
        ),
    )
