"""A finished drawing as inline SVG."""

from __future__ import annotations

from jinja2 import Environment
from markupsafe import Markup

from generator.render.drawing import Drawing


def svg(drawing: Drawing, env: Environment) -> Markup:
    """The drawing as an `<svg>` element; 1 user unit is 1 mm on paper, line widths are in css/drawing.css."""
    template = env.get_template(f"sheet/{drawing.view}_view.svg")
    return Markup(template.render(drawing=drawing))
