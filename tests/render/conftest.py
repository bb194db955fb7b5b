"""Sheets built by hand, so that the page is tested apart from the calculations.

The thread is 2 1/4-8 UN-2A; its limits are those of ASME B1.1 (allowance 0.0024, major 2.2326 to 2.2476,
pitch diameter 2.1584 to 2.1664). The shop and the job are invented.
"""

from __future__ import annotations

import importlib.util
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from functools import cache
from html.parser import HTMLParser
from math import radians, sqrt
from pathlib import Path
from types import ModuleType

import pytest

from generator.errors import Location
from generator.render import page
from generator.sheet.drawn import Piece, SetupScene, ThreadScene
from generator.sheet.figure import Figure, Kind, Working
from generator.sheet.lines import Caution, CorrectionRow, CorrectionTable, Finding, FitRow, PassLine, Step
from generator.sheet.model import Inspected, InspectionLine, Section, Sheet, TitleField
from generator.sheet.row import ArchiveRow, ThreadRow
from generator.si import ft_per_min, inch, lb, lbf, rev_per_min


def _beside(name: str) -> ModuleType:
    """A file of this folder as a module."""
    spec = importlib.util.spec_from_file_location(f"sample_{name}", Path(__file__).with_name(f"{name}.py"))
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


routes, plots = _beside("routes"), _beside("plots")

JOB_FILE = Path("jobs/2026/SW-201-sample/job.yml")
STANDARD = "ASME B1.1"
CAUTION = "not a design check: a competent person decides"
PLOTS = {"give": "thread on a center, inch", "steady": "place for the steady, mm"}


def at(line: int, column: int = 3) -> Location:
    """A place in the sample's job file."""
    return Location(JOB_FILE, line, column)


def _figures() -> list[Figure]:
    pitch, major, pitch_diameter = 0.125 * inch, 2.2476 * inch, 2.1664 * inch
    return [
        Figure(
            "work.diameter",
            "Work diameter",
            2.75 * inch,
            "length",
            Kind.MEASURED,
            "measured by M. with micrometer 2-3 in",
            text="2 3/4",
            where=at(12),
        ),
        Figure(
            "holding.grip",
            "Grip in the jaws",
            3 * inch,
            "length",
            Kind.GIVEN,
            "the job file",
            text="3",
            where=at(14),
        ),
        Figure(
            "holding.stick_out",
            "Stick-out",
            11.5 * inch,
            "length",
            Kind.COMPUTED,
            "geometry of the setup",
            Working("{length} − {grip}", {"length": (14.5 * inch, "length"), "grip": (3 * inch, "length")}),
        ),
        Figure(
            "holding.steady.position",
            "Steady rest from the jaw face",
            7.25 * inch,
            "length",
            Kind.ASSUMED,
            "common practice, no source",
            note="clear of the thread and of the carriage",
        ),
        Figure(
            "holding.weight",
            "Weight of the work",
            24.32 * lb,
            "mass",
            Kind.COMPUTED,
            "density and volume",
            Working(
                "{density} × {volume of one inch} × {length}",
                {
                    "density": (7833.0, "density"),
                    "volume of one inch": (5.94 * inch**2, "area"),
                    "length": (14.5 * inch, "length"),
                },
            ),
        ),
        Figure(
            "holding.deflection",
            "Deflection under the tool",
            0.00041 * inch,
            "fine_length",
            Kind.COMPUTED,
            "beam elements",
            system="inch",
        ),
        Figure(
            "spindle.step",
            "Spindle speed",
            32 * rev_per_min,
            "spindle_speed",
            Kind.SHOP,
            "jobs/_shop/lathes/long-bed.yml",
        ),
        Figure(
            "spindle.wanted",
            "Spindle speed wanted",
            47.53 * rev_per_min,
            "spindle_speed",
            Kind.COMPUTED,
            "arithmetic",
            Working("{v} ÷ (π × {d})", {"v": (28 * ft_per_min, "speed"), "d": (2.25 * inch, "length")}),
        ),
        Figure(
            "carriage.speed",
            "Carriage speed",
            32 * rev_per_min * pitch,
            "carriage_speed",
            Kind.COMPUTED,
            "arithmetic",
            Working("{n} × {L}", {"n": (32 * rev_per_min, "spindle_speed"), "L": (pitch, "fine_length")}),
        ),
        Figure("lathe.gearbox", "Gearbox", "8 tpi", "text", Kind.SHOP, "jobs/_shop/lathes/long-bed.yml"),
        Figure(
            "lathe.thread_dial",
            "Thread dial",
            "any line",
            "text",
            Kind.COMPUTED,
            "computed for a 4 tpi leadscrew, 16 teeth, 8 lines",
        ),
        Figure(
            "thread.designation", "Thread", "2 1/4-8 UN-2A", "text", Kind.GIVEN, "the job file", where=at(20)
        ),
        Figure("thread.hand", "Hand", "right hand", "text", Kind.GIVEN, "the designation", where=at(20)),
        Figure("thread.tpi", "Threads per inch", 8, "tpi", Kind.GIVEN, "the designation", where=at(20)),
        Figure(
            "thread.pitch",
            "Pitch",
            pitch,
            "fine_length",
            Kind.COMPUTED,
            STANDARD,
            Working("1 ÷ {n} inch", {"n": (8, "tpi")}),
            system="inch",
        ),
        Figure(
            "thread.length",
            "Thread length",
            2.5 * inch,
            "length",
            Kind.GIVEN,
            "the job file",
            text="2 1/2",
            where=at(21),
        ),
        Figure(
            "thread.major.max",
            "Major diameter, max",
            major,
            "length",
            Kind.STANDARD,
            STANDARD,
            Working("{d} − {es}", {"d": (2.25 * inch, "length"), "es": (0.0024 * inch, "length")}),
            system="inch",
            rounds="down",
        ),
        Figure(
            "thread.major.min",
            "Major diameter, min",
            2.2326 * inch,
            "length",
            Kind.STANDARD,
            STANDARD,
            Working("{d max} − {Td}", {"d max": (major, "length"), "Td": (0.0150 * inch, "length")}),
            system="inch",
            rounds="up",
        ),
        Figure(
            "thread.pitch_diameter.max",
            "Pitch diameter, max",
            pitch_diameter,
            "length",
            Kind.STANDARD,
            STANDARD,
            Working("{d max} − 0.64951905 × {P}", {"d max": (major, "length"), "P": (pitch, "fine_length")}),
            system="inch",
            rounds="down",
        ),
        Figure(
            "thread.pitch_diameter.min",
            "Pitch diameter, min",
            2.1584 * inch,
            "length",
            Kind.STANDARD,
            STANDARD,
            Working(
                "{d2 max} − {Td2}", {"d2 max": (pitch_diameter, "length"), "Td2": (0.0080 * inch, "length")}
            ),
            system="inch",
            rounds="up",
        ),
        Figure("thread.lead_angle", "Lead angle", radians(1.0524), "angle", Kind.COMPUTED, "ASME B1.7"),
        Figure(
            "thread.wire.size",
            "Wire used",
            0.0722 * inch,
            "fine_length",
            Kind.SHOP,
            "jobs/_shop/tools.yml",
            system="inch",
        ),
        Figure(
            "thread.over_wires.max",
            "Over wires, max",
            2.2747 * inch,
            "length",
            Kind.COMPUTED,
            "NBS Handbook H28; ASME B1.2",
            system="inch",
            rounds="down",
        ),
        Figure(
            "thread.over_wires.min",
            "Over wires, min",
            2.2667 * inch,
            "length",
            Kind.COMPUTED,
            "NBS Handbook H28; ASME B1.2",
            system="inch",
            rounds="up",
        ),
        Figure(
            "thread.depth",
            "Depth, radial, from touch",
            0.0766 * inch,
            "length",
            Kind.COMPUTED,
            "geometry of the groove",
            note="sizes come right on the pitch diameter, not on the depth",
            system="inch",
        ),
        Figure(
            "passes.infeed_angle",
            "Compound set over",
            radians(29.5),
            "angle",
            Kind.ASSUMED,
            "common practice, no source",
        ),
        Figure(
            "passes.travel",
            "Compound travel in all",
            0.088 * inch,
            "length",
            Kind.COMPUTED,
            "arithmetic",
            system="inch",
        ),
        Figure(
            "relief.width",
            "Relief width",
            0.375 * inch,
            "length",
            Kind.GIVEN,
            "the job file",
            text="3/8",
            where=at(18),
        ),
        Figure(
            "relief.diameter",
            "Relief diameter",
            2.085 * inch,
            "length",
            Kind.GIVEN,
            "the job file",
            text="2.085",
            where=at(18),
        ),
        Figure(
            "relief.time",
            "Time in the relief",
            5.625,
            "time",
            Kind.COMPUTED,
            "arithmetic",
            Working(
                "{width} ÷ {carriage speed}",
                {"width": (0.375 * inch, "length"), "carriage speed": (inch / 15, "carriage_speed")},
            ),
        ),
        Figure("strength.caution", "What these figures are", CAUTION, "text", Kind.COMPUTED, "no source"),
        Figure(
            "strength.wall.relief",
            "Wall left at the relief",
            0.201 * inch,
            "length",
            Kind.COMPUTED,
            "geometry",
            Working("{wall}", {"wall": (0.201 * inch, "length")}),
            rounds="down",
        ),
        Figure(
            "job.material",
            "Material",
            "4140 steel at 30 HRC",
            "text",
            Kind.GIVEN,
            "known by: certificate",
            where=at(8),
        ),
        Figure(
            "job.duty",
            "Duty",
            None,
            "text",
            Kind.UNKNOWN,
            "nobody said what the part must do",
            note="nobody said what the part must do",
        ),
        Figure(
            "job.load",
            "Load",
            9000 * lbf,
            "force",
            Kind.GIVEN,
            "as said by customer",
            text="9000 lbf",
            where=at(9),
        ),
    ]


def passes_of(count: int) -> tuple[PassLine, ...]:
    """Passes of equal chip area down to 0.0766 in, dial turns of 0.125 in, the last one a spring pass."""
    lines, before = [], 0.0
    for number in range(1, count + 1):
        spring = number == count
        depth = before if spring else 0.0766 * inch * sqrt(number / (count - 1))
        travel = round(depth / 0.870356 / inch, 3)
        turns = int(travel // 0.125)
        size = 2.2476 * inch - 2 * depth + 0.0721 * inch
        lines.append(
            PassLine(
                number,
                depth,
                depth - before,
                travel * inch,
                turns,
                (travel - turns * 0.125) * inch,
                0.00031 * inch**2,
                size,
                None if number < count / 3 else size + 0.1083 * inch,
                161 * lbf,
                spring=spring,
                measure=number >= count - 2,
                try_mate=number == count - 1,
            )
        )
        before = depth
    return tuple(lines)


def _setup_scene() -> SetupScene:
    return SetupScene(
        pieces=(
            Piece(-3 * inch, 8.625 * inch, 2.75 * inch, 2.75 * inch),
            Piece(8.625 * inch, 9 * inch, 2.085 * inch, 2.085 * inch, form="relief"),
            Piece(9 * inch, 11.5 * inch, 2.2476 * inch, 2.2476 * inch, form="thread", root=2.094 * inch),
        ),
        grip=3 * inch,
        jaws=4,
        chuck_diameter=10 * inch,
        chuck_length=5 * inch,
        steady_at=7.25 * inch,
        steady_width=1.5 * inch,
        center="live",
        cut_from=11.5 * inch,
        cut_to=9 * inch,
        cross_holes=((10.75 * inch, 0.375 * inch),),
        designation="2 1/4-8 UN-2A",
        system="inch",
        job="SW-201",
        caption="Setup seen from above: 4-jaw chuck, steady rest, live center",
    )


def _thread_scene() -> ThreadScene:
    depths = tuple(line.depth for line in passes_of(12) if not line.spring)
    return ThreadScene(
        pitch=0.125 * inch,
        flanks=(radians(30), radians(30)),
        crest_diameter=2.2476 * inch,
        depth=depths[-1],
        nose_flat=0.0156 * inch,
        nose_radius=0.0,
        pass_depths=depths,
        infeed_angle=radians(29.5),
        feed_towards="headstock",
        designation="2 1/4-8 UN-2A",
        system="inch",
        job="SW-201",
    )


def _sample() -> Sheet:
    figures = {figure.name: figure for figure in (*_figures(), *routes.figures())}

    def section(id: str, title: str, *prefixes: str) -> Section:
        return Section(id, title, tuple(name for name in figures if name.startswith(prefixes)))

    return Sheet(
        job="SW-201",
        title="Ramp hinge pin, new thread",
        slug="SW-201-sample",
        year=2026,
        system="inch",
        title_block=tuple(
            TitleField(label, text)
            for label, text in (
                ("Legal owner", "Saltmarsh Works"),
                ("Identification number", "SW-201"),
                ("Title", "Ramp hinge pin, new thread"),
                ("Document type", "Setup sheet"),
                ("Revision", "A"),
                ("Status", "planned, ready to run"),
                ("Date of issue", "2026-05-12"),
                ("Creator", "D1"),
                ("Approval person", "________"),
                ("Language", "en"),
                ("Customer", "SM-101"),
                ("Received", "2026-05-11"),
                ("Drawing", "none"),
                ("Lathe", "L1 Long lathe"),
                ("Machinist", "________"),
            )
        ),
        ready=True,
        status="planned, ready to run",
        findings=(
            Finding(
                "duty-unknown",
                "check",
                "What this part must do is unknown. Ask before cutting: people, lifting, brakes, pressure?",
                at(9),
                "What does the part do, and does anybody's safety depend on it?",
            ),
            Finding(
                "cross-hole",
                "note",
                "The cut is interrupted at the 3/8 cross hole, 0.75 in from the end.",
                at(11),
            ),
        ),
        cautions=(
            Caution(
                "steady-rest",
                "WARNING",
                "Set the fingers with the spindle stopped: lower ones to touch, top shut and locked, then "
                "the top finger. Oil the fingers, and look again after the first cut.",
                "The work runs in a steady rest.",
                "Jones, Turning and Boring (1914)",
            ),
            Caution(
                "emery-file",
                "WARNING",
                "Never hold emery cloth by hand against turning work, and wear no gloves.",
                "A fresh thread has burrs on its crests.",
                "HSE engineering FAQ",
            ),
            Caution(
                "mate-galling",
                "NOTICE",
                "Oil both threads before the trial fit.",
                "The mate is stainless steel.",
                "common practice, no source",
            ),
        ),
        figures=figures,
        sections=(
            section("holding", "Work holding", "work.", "holding."),
            section("lathe", "Lathe settings", "spindle.", "carriage.", "lathe."),
            section("thread", "Thread data", "thread."),
            section("relief", "Relief", "relief."),
            section("passes", "Passes", "passes."),
            replace(section("strength", "Strength left", "strength."), remarks=("A remark.",)),
            section("time", "Time", "time."),
            section("job", "Job", "job."),
        ),
        operations=routes.operations(),
        steps=(
            Step("Read the whole sheet", "Every finding decided, questions answered.", hold=True),
            Step("Clean ways, spindle nose and jaws"),
            Step("Chuck the work", "4-jaw chuck, 3 in the jaws. Mark the work at jaw 1."),
            Step(
                "True at the jaws and at the far end", "Write both runouts here: ______ / ______", hold=True
            ),
            Step("Bring up the live center", "Snug, not forced; ease it as the work warms."),
            Step("Cut the relief", "3/8 wide, 2.085 diameter", hold=True),
            Step("Thread to the pass table", hold=True),
            Step("Deburr, clean, mark with the job number, cap the thread"),
        ),
        passes=passes_of(12),
        pass_dial="compound, 0.001 in a division, 0.125 in a turn, reads radius",
        pass_remarks=("Take the slack out in the direction of the cut before every reading.",),
        corrections=CorrectionTable(
            (
                CorrectionRow(0.001 * inch, 0.0005 * inch, 0.0005 * inch, 0.0),
                CorrectionRow(0.010 * inch, 0.005 * inch, 0.0055 * inch, 0.010 * inch),
            ),
            "over wires", 2.2748 * inch, "radius", "diameter", "inch",
        ),
        trial_fit=(
            FitRow("Does not start", ("Burr on the first thread.", "Chamfer."), "Cut nothing more."),
            FitRow("Rocks, or is loose", ("Measure it.",), "Nothing puts metal back. Stop, and ask."),
        ),
        inspected=tuple(Inspected(line) for line in (
            InspectionLine("major", "Major diameter", "thread.major.min", "thread.major.max", "micrometer"),
            InspectionLine(
                "over_wires", "Size over wires", "thread.over_wires.min", "thread.over_wires.max",
                "micrometer and wires",
            ),
            InspectionLine("relief_diameter", "Relief diameter", "", "relief.diameter", "caliper"),
            InspectionLine("relief_width", "Relief width", "relief.width", "", "caliper"),
        )),
        plots=tuple(replace(plots.PLOTS[name], id=id, job="SW-201") for id, name in PLOTS.items()),
        setup_scene=_setup_scene(),
        thread_scene=_thread_scene(),
        index=ArchiveRow(
            "SW-201", "Bollard spindle", "2026", "planned", material="1045 steel",
            thread=ThreadRow(
                "2 1/4-8 UN-2A", "Unified", "2 1/4 in", 2.25 * inch, "8 per inch", inch / 8, 1, "right",
                "outside",
            ),
        ),
        key_figures=(
            "spindle.step",
            "lathe.gearbox",
            "lathe.thread_dial",
            "thread.major.max",
            "thread.major.min",
            "passes.infeed_angle",
            "passes.travel",
            "thread.depth",
            "thread.over_wires.max",
            "thread.over_wires.min",
            "thread.wire.size",
            "relief.width",
            "relief.diameter",
            "relief.time",
            "holding.grip",
            "holding.stick_out",
            "holding.steady.position",
        ),
    )


@pytest.fixture(scope="session", autouse=True)
def drawn_once() -> Iterator[None]:
    """The samples share their scenes, so each is drawn once for all tests of the page."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(page, "setup_view", cache(page.setup_view))
        patch.setattr(page, "thread_view", cache(page.thread_view))
        yield


@pytest.fixture
def sheet() -> Sheet:
    """A sheet that is ready to run."""
    return _sample()


@pytest.fixture
def stopped() -> Sheet:
    """The same sheet with a finding that stops it."""
    sample = _sample()
    stop = Finding(
        "wall",
        "stop",
        "The wall left at the relief is 0.201 in; the customer asks for 0.250 in at least.",
        at(18),
        "May the relief be shallower, or the wall thinner?",
    )
    return replace(
        sample,
        ready=False,
        status="NOT READY TO RUN",
        findings=(stop, *sample.findings),
        passes=(),
        corrections=None,
        trial_fit=(),
        title_block=tuple(
            TitleField("Status", "NOT READY TO RUN") if one.label == "Status" else one
            for one in sample.title_block
        ),
    )


@pytest.fixture
def figure() -> Callable[..., Figure]:
    """A figure of which only what matters is said."""

    def build(value: float | str | None, quantity: str = "length", **changes: object) -> Figure:
        plain = Figure("a.figure", "A figure", value, quantity, Kind.COMPUTED, "a source")  # type: ignore[arg-type]
        return replace(plain, **changes)  # type: ignore[arg-type]

    return build


@pytest.fixture
def with_passes() -> Callable[[Sheet, int], Sheet]:
    """The same sheet with another number of passes."""
    return lambda sample, count: replace(sample, passes=passes_of(count))


# The page as a tree, read with the standard library

VOID = {"br", "col", "hr", "img", "input", "link", "meta", "wbr"}


@dataclass
class Element:
    """One element with its text."""

    tag: str
    attributes: dict[str, str]
    parent: Element | None
    children: list[Element] = field(default_factory=list)
    words: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All text inside, spaces collapsed."""
        return " ".join("".join(self.words).split())

    def all(self, tag: str = "", **wanted: str) -> list[Element]:
        """Elements inside, by tag and attributes (`class_` for one class among several)."""
        found = []
        for child in self.children:
            if (not tag or child.tag == tag) and all(child.has(key, value) for key, value in wanted.items()):
                found.append(child)
            found += child.all(tag, **wanted)
        return found

    def has(self, key: str, value: str) -> bool:
        """True when an attribute has this value, or a class list this class."""
        if key == "class_":
            return value in self.attributes.get("class", "").split()
        return self.attributes.get(key.replace("_", "-")) == value


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Element("", {}, None)
        self.at = self.root

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        made = Element(tag, {name: value or "" for name, value in attrs}, self.at)
        self.at.children.append(made)
        if tag not in VOID:
            self.at = made

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.at.children.append(Element(tag, {name: value or "" for name, value in attrs}, self.at))

    def handle_endtag(self, tag: str) -> None:
        assert tag == self.at.tag, f"</{tag}> closes <{self.at.tag}>"
        assert self.at.parent is not None
        self.at = self.at.parent

    def handle_data(self, data: str) -> None:
        at: Element | None = self.at
        while at is not None:
            at.words.append(data)
            at = at.parent


def read(html: str) -> Element:
    """The page as a tree; AssertionError when an element is not closed where it should be."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    assert reader.at is reader.root, f"<{reader.at.tag}> is never closed"
    return reader.root


@pytest.fixture
def read_page() -> Callable[[str], Element]:
    """Reads a page into a tree, and fails when it is not well formed."""
    return read
