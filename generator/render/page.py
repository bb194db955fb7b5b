"""The third arrow: a sheet becomes the body of its page.

render_page               Sheet -> HTML
render_problem_page       the problems of a file that could not be read -> HTML
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import blake2b

from jinja2 import Environment
from markupsafe import Markup

from generator.errors import Problem
from generator.language.say import later, say, say_count
from generator.render.address_code import address_code
from generator.render.bed_view import bed_view
from generator.render.css_words import OF_PAGES, css_numbers, css_string
from generator.render.dial_block import dial_block
from generator.render.drawing import Drawing
from generator.render.environment import environment
from generator.render.packed import packed, unmarked
from generator.render.plot_block import plot_blocks
from generator.render.print_choice import print_choices
from generator.render.problem_line import problem_line
from generator.render.setup_view import setup_view
from generator.render.svg import svg
from generator.render.thread_view import thread_view
from generator.render.view import NOT_READY, Page, view
from generator.sheet.model import Sheet
from generator.sheet.other_lathes import Comparison, NotCompared

STANDING_LINE = later(
    "This sheet is not a certificate. It does not judge strength, weld, heat treatment or fitness for use. "
    "Local codes, the lathe maker's manual and licensed practice come first."
)


def render_page(
    sheet: Sheet,
    compared: Comparison | NotCompared | None = None,
    address: str = "",
    alone: Mapping[str, str] | None = None,
) -> str:
    """The body of a sheet's page: one ``<article class="sheet">``, complete and escaped.

    With a comparison the other lathes of the shop stand on it, or why they do not. With the `address` that
    the page will have on the web, its code stands in the title block. A page that stands `alone`, with no
    other page or file beside it, is given the addresses of its pictures by name. Any other is a
    light page: where its longest parts would make it heavy, they are packed.
    """
    env = environment()
    page = view(sheet, compared)
    if alone is not None:
        page = _alone(page, [alone[picture.name] for picture in sheet.pictures])
    setup, happened = sheet.setup_scene, sheet.history.plots if sheet.history else ()
    body = env.get_template("sheet/page.html").render(
        page=page,
        heads=running_heads(page),
        print_choices=print_choices(card=sheet.take_up is not None),
        code=address_code(address),
        setup_drawing=_drawn(setup_view(setup) if setup else None, env),
        bed_drawing=_drawn(bed_view(setup, setup.reach) if setup and setup.reach else None, env),
        thread_drawing=_drawn(thread_view(sheet.thread_scene) if sheet.thread_scene else None, env),
        dial=dial_block(sheet.dial_scene, env),
        plots=plot_blocks(sheet.plots, env),
        log_plots=plot_blocks(happened, env),
        standing_line=STANDING_LINE,
    )
    return packed(body, env) if alone is None else unmarked(body)


def _alone(page: Page, addresses: Sequence[str]) -> Page:
    pictures = zip(page.pictures, addresses, strict=True)
    return replace(
        page,
        superseded_link="",
        pictures=tuple(replace(picture, address=address) for picture, address in pictures),
        lessons=page.lessons.without_links(),
        alike=None,
        explained="",
        findings=tuple(replace(finding, explained="") for finding in page.findings),
    )


@dataclass(frozen=True)
class DrawnView:
    """A drawing and its name; caption, scale and items are lettered in the drawing itself."""

    svg: Markup
    title: str


def _drawn(drawing: Drawing | None, env: Environment) -> DrawnView | None:
    if drawing is None:
        return None
    return DrawnView(svg(drawing, env), drawing.title)


@dataclass(frozen=True)
class RunningHeads:
    """The margins of a sheet's pages: a kind of page by name, for the sheet to ask for, and its rules.

    `line` is the head of a page in a browser that prints no margins.
    """

    name: str
    rules: Markup
    line: str


def running_heads(page: Page) -> RunningHeads:
    """The page's own margins: job number, revision, thread, page number, and whether it may be run."""
    thread = " ".join(part for part in (page.thread, page.hand) if part)
    boxes = [
        ("top-left", css_string(say("Job {job}, rev. {revision}", job=page.job, revision=page.revision))),
        ("top-right", css_string(thread)),
        ("bottom-left", css_string(page.title)),
    ]
    if page.superseded_by:
        superseded = say("SUPERSEDED BY {superseded_by}", superseded_by=page.superseded_by)
        boxes.insert(1, ("top-center", css_string(superseded)))
    elif not page.ready:
        boxes.insert(1, ("top-center", css_string(NOT_READY)))
    ready = say("Job {job}", job=page.job) if page.ready else say("Job {job}, NOT READY TO RUN", job=page.job)
    return _heads(boxes, ready)


def _heads(boxes: Sequence[tuple[str, str]], line: str) -> RunningHeads:
    """Margins as a named page (CSS Paged Media Level 3), so that in a set each sheet keeps its own.

    The name comes from what the margins say: two sheets that share it have the same. The pages are counted
    sheet by sheet; the document may say in `--of-pages` what stands after the number.
    """
    said = " ".join(f"@{place} {{ content: {content} }}" for place, content in boxes)
    name = f"sheet-{blake2b(said.encode(), digest_size=4).hexdigest()}"
    before, of_all = css_numbers(say("Page {number} of {all}"))
    number = f"{before} counter({name}) var({OF_PAGES}, {of_all})"
    return RunningHeads(
        name,
        Markup(f"@page {name} {{ counter-increment: {name}; {said} @bottom-right {{ content: {number} }} }}"),
        line,
    )


def render_problem_page(number: str, problems: Sequence[Problem]) -> str:
    """The body of the page of a job that could not be read: what is wrong, where, what would be accepted."""
    named = say("Job {job}", job=number)
    return (
        environment()
        .get_template("sheet/problems.html")
        .render(
            number=number,
            count=say_count("{count} thing to put right", "{count} things to put right", len(problems)),
            problems=[problem_line(problem) for problem in problems],
            heads=_heads(
                [("top-left", css_string(named)), ("top-right", css_string(say("cannot be read")))], named
            ),
            standing_line=STANDING_LINE,
        )
    )
