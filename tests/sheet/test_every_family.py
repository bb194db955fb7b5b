"""One sheet outside and one inside for the example threads of every family: whole, and true to its limits.

What each is gauged and measured by, and that the record of inspection asks for nothing else.
"""

from __future__ import annotations

import pytest

from generator.render.page import render_page
from generator.si import inch
from generator.threads.registry import (
    families,
    limits,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)

JOB = """\
job: T-9
title: Any thread
units: {units}
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {{length: {long} in, od: {body:.6f} in{bore}}}
  - {{length: {end:.6f} in, od: {od:.6f} in{bore}}}
holding:
  chuck: {{jaws: 4, grip: 2 in}}
mate: unknown
duty: {{said: turns, by: customer}}
operations:
{first}  - relief: {{width: {width:.6f} in}}
  - thread: {{designation: "{text}", inside: {inside}, length: {length:.6f} in}}
"""
OF_THE_LATHE = {  # what another lathe, tool or place on the work would mend
    "bar-thick", "gearbox", "tool-wide", "relief-time", "compound-meets-jaws", "boring-bar",
    "chuck-speed", "tool-short",
}

EXAMPLES = [
    pytest.param(text, id=text)
    for family in families()
    for example in family.examples
    for text in dict.fromkeys((example, write_designation(mate_of(parse_designation(example)))))
]


def job_text(text: str) -> str:
    """A job that cuts this thread at the end of a bar, or in its bore."""
    d = parse_designation(text)
    nominal, pitch = d.nominal * d.unit_si / inch, float(d.pitch) * d.unit_si / inch
    least = limits(d).minor.min
    bore = (least or d.nominal - 2 * profile(d).depth * float(d.pitch)) * d.unit_si / inch
    length, width = min(max(4 * pitch, nominal), 3.0), 3 * pitch
    inside = f", bore: {bore - 0.02:.6f} in" if d.internal else ""
    outside = 1.6 * nominal if d.internal else nominal
    return JOB.format(
        units="mm" if d.unit == "mm" else "inch", long=4, body=max(1.6 * nominal, 1.0), bore=inside,
        end=length + width, od=outside, width=width, text=text, inside="yes" if d.internal else "no",
        length=length, first=f"  - bore: {{length: {length + width:.6f} in}}\n" if d.internal else "",
    )


@pytest.mark.parametrize("text", EXAMPLES)
def test_a_sheet_of_every_kind_of_thread(sheet_of, text):
    """The root of the assumed tool clears the mate, the pitch diameter comes right, and the page is whole."""
    d = parse_designation(text)
    sheet, sizes, form, unit = sheet_of(text=job_text(text)), limits(d), profile(d), d.unit_si
    figures = sheet.figures
    short = max(10**-sizes.places * unit, 1.3e-6)  # pitch and root diameter are each rounded to half of it
    depth, blank, root = (figures[f"thread.{name}"].value for name in ("depth", "blank", "root"))
    assert depth > 0
    assert root == pytest.approx(blank + 2 * depth if d.internal else blank - 2 * depth)
    if d.internal:
        assert sizes.major.min is None or root >= sizes.major.min * unit - short
    else:
        assert sizes.minor.max is None or root <= sizes.minor.max * unit + short
    assert ("thread.crest_radius" in figures) == bool(form.crest_radius)
    from_memory = [finding.text for finding in sheet.findings if finding.id == "limits-from-memory"]
    assert len(from_memory) == bool(sizes.memory)
    assert all(sizes.memory in sentence and "check your copy" in sentence for sentence in from_memory)
    stops = {finding.id for finding in sheet.findings if finding.level == "stop"}
    assert stops <= OF_THE_LATHE, stops
    pitch_diameter, last = sizes.pitch_diameter, figures["passes.final_pitch_diameter"].value
    if not form.square and None not in (pitch_diameter.max, pitch_diameter.min):
        assert pitch_diameter.min * unit < figures["thread.target"].value < pitch_diameter.max * unit
        assert "dial-coarse" in stops or pitch_diameter.min * unit <= last <= pitch_diameter.max * unit
    assert bool(sheet.passes) == bool(sheet.thread_scene) == (not stops)
    assert "<svg" in render_page(sheet)


@pytest.mark.parametrize(
    ("text", "fit", "words"),
    [
        ("1/2-13 UNC-2A", "wires", "over wires"), ("1/2-13 UNC-2A", "gauge", "of the ring gauges"),
        ("1/2-13 UNC-2B", "gauge", "of the plug gauges"), ("1/2-14 NPT", "gauge", "of the taper gauge"),
        ("1 1/4-4 SQUARE", "wires", "of the groove width and of both diameters"),
        ("Rp 1 1/2", "gauge", "of the taper gauge"),
    ],
)
def test_what_measures_the_thread_stands_in_for_an_unknown_mate(sheet_of, text, fit, words):
    """Common practice, no source."""
    sheet = sheet_of({"inside: ": f"fit: {fit}, inside: "}, text=job_text(text))
    found = next(finding for finding in sheet.findings if finding.id == "mate-unknown")
    assert f"Cut to the limits {words}," in found.text


@pytest.mark.parametrize("text", EXAMPLES)
def test_every_thread_is_inspected_by_what_measures_it(sheet_of, text):
    """No wires where there is no size over them, a groove where it is square, a gauge where it is taper."""
    sheet, d = sheet_of(text=job_text(text)), parse_designation(text)
    form, words = profile(d), " ".join(f"{line.feature} {line.instrument}" for line in sheet.inspection)
    said = ("wires" in words, "balls" in words)
    over = "measure.taper_wires" if form.taper else "thread.over_wires"
    assert said == tuple(f"{name}.max" in sheet.figures for name in (over, "thread.between_balls"))
    assert ("Groove width" in words) == form.square
    assert ("Taper gauge" in words) == (form.taper > 0 or d.series == "Rp")
    assert sheet.inspection[0].feature.startswith("Minor" if d.internal else "Major")
    flanks = ("wires", "balls", "thread plug", "thread ring", "Taper gauge", "Groove width")
    assert any(what in words for what in flanks)
    seats = form.flanks.symmetrical and not form.square and not form.taper and d.starts % 2 == 1
    assert ("thread micrometer" in words) == (seats and not d.internal)
    for line in sheet.inspection:
        assert all(sheet.figures[name].value is not None for name in (line.low, line.high) if name)
