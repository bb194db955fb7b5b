"""Random operations on the demo jobs: whatever is written, a sheet comes out and hangs together."""

from __future__ import annotations

import math
import random
import re
from pathlib import Path

import pytest

from generator.errors import JobProblems
from generator.job.reading import read_job
from generator.sheet.compute import compute_sheet
from generator.sheet.layout import lay_out
from generator.sheet.operation_places import place_of
from generator.sheet.route_entries import Entry
from generator.sheet.route_order import Placed, faults, sorted_route

JOBS = Path(__file__).parents[2] / "jobs"

LENGTHS = ("1/64", "1/16", "3/16", "1/2", "1", "2 1/4", "3", "7", "25 mm", "40")
ANGLES = ("0.5", "15 deg", "20", "45 deg", "60", "89")
KEYS = {
    "face": {"end": ("left", "right"), "stock": LENGTHS, "cut": LENGTHS, "finish": ("0", *LENGTHS)},
    "center_drill": {"end": ("left", "right"), "diameter": LENGTHS, "depth": LENGTHS},
    "turn": {
        "diameter": LENGTHS, "length": LENGTHS, "from_diameter": LENGTHS, "depth": LENGTHS,
        "from_end": LENGTHS, "end": ("left", "right"), "band": ("yes", "no"),
        "feed": ("0.01 in/rev", "0.2 mm/rev"),
        "cut": LENGTHS, "finish": ("0", *LENGTHS), "spindle": ("105 rpm", "100 rpm", "7 rpm"),
        "speed": ("60 ft/min", "400 m/min"), "tool": ("T1", "T2", "T3"),
    },
    "taper": {
        "diameter": LENGTHS, "diameter_end": LENGTHS, "length": LENGTHS, "per_foot": LENGTHS, "angle": ANGLES,
        "named": ("Morse 3", "Morse 33", "Jarno 8"), "by": ("compound", "tailstock", "attachment"),
        "from_end": LENGTHS, "end": ("left", "right"), "from_diameter": LENGTHS,
    },
    "bore": {
        "diameter": LENGTHS, "length": LENGTHS, "depth": LENGTHS, "from_diameter": LENGTHS, "seal": ("yes",),
        "from_end": LENGTHS, "tool": ("B1", "B2"),
    },
    "drill": {
        "diameter": LENGTHS, "depth": LENGTHS, "through": ("yes",), "across": ("yes",), "ream": ("yes",),
        "from_end": LENGTHS, "tool": ("D1", "R1"),
    },
    "groove": {"width": LENGTHS, "depth": LENGTHS, "diameter": LENGTHS, "from_end": LENGTHS, "tool": ("G1",)},
    "chamfer": {
        "end": ("left", "right"), "angle": ANGLES, "width": LENGTHS, "depth": LENGTHS, "diameter": LENGTHS,
        "lead_in": ("yes",), "inside": ("yes",), "from_end": LENGTHS,
    },
    "knurl": {"pitch": LENGTHS, "length": LENGTHS, "from_end": LENGTHS, "pattern": ("diamond",)},
    "part_off": {"from_end": LENGTHS, "length": LENGTHS, "width": LENGTHS},
    "polish": {"length": LENGTHS, "from_end": LENGTHS},
}
DEMO = sorted(JOBS.glob("*/*/job.yml"))


def operation(draw):
    name = draw.choice(list(KEYS))
    keys = {
        key: draw.choice(values) for key, values in KEYS[name].items() if draw.random() < 0.45
    }
    written = ", ".join(f"{key}: {value}" for key, value in keys.items())
    return f"  - {name}: {{{written}}}\n"


def job_text(draw):
    """A demo job on any lathe, with random operations among its own."""
    text = draw.choice(DEMO).read_text(encoding="utf-8")
    text = re.sub(r"(?m)^lathe: .*$", f"lathe: {draw.choice(['long-bed', 'thirteen-inch', 'metric'])}", text)
    if draw.random() < 0.25:
        text = re.sub(r"(?m)^material: .*$", "material: unknown", text)
    head, _, rest = text.partition("operations:\n")
    own = re.findall(r"(?m)^  - .*\n(?:      .*\n)*", rest)
    some = [one for one in own if draw.random() < 0.7] + [operation(draw) for _ in range(draw.randint(0, 6))]
    draw.shuffle(some)
    order = f"order: {draw.choice(['as written', 'propose'])}\n"
    return f"{head}{order}operations:\n{''.join(some)}" if some else f"{head}{order}"


@pytest.mark.parametrize("seed", range(120))
def test_a_sheet_comes_out_of_whatever_is_written(tmp_path, shop, seed):
    path = tmp_path / "job.yml"
    path.write_text(job_text(random.Random(seed)), encoding="utf-8")
    try:
        read = read_job(path)
        sheet = compute_sheet(read, shop)
    except JobProblems:
        return  # refused, with its place in the file
    written = len(read.job.operations)
    assert [line.number for line in sheet.operations] == list(range(1, len(sheet.operations) + 1))
    assert sum(not line.proposed for line in sheet.operations) == written
    for line in sheet.operations:
        assert set(line.figures.values()) <= set(sheet.figures), line
    for figure in sheet.figures.values():
        assert not isinstance(figure.value, float) or math.isfinite(figure.value), figure
        if figure.name.startswith("operation."):
            assert figure.value is not None or figure.note, figure
    assert "None" not in " ".join(finding.text for finding in sheet.findings)


@pytest.mark.parametrize("seed", range(40))
def test_the_proposed_order_has_no_fault_of_its_own(tmp_path, shop, seed):
    """Whatever is sorted, no rule finds anything to move."""
    path = tmp_path / "job.yml"
    path.write_text(job_text(random.Random(1000 + seed)), encoding="utf-8")
    try:
        job = read_job(path).job
    except JobProblems:
        return
    from generator.job.reading import read_shop

    lathe = read_shop(JOBS / "_shop").lathes[job.lathe]
    placed = tuple(
        Placed(entry, place_of(entry, job, lathe, lay_out(job), None))
        for entry in (Entry(one.name, one.given) for one in job.operations)
    )
    found = [(rule.id, first.name, second.name) for rule, first, second in faults(sorted_route(placed), job)]
    assert found == []
