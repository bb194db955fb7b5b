"""Any work, any lathe's record, any route: a sheet, a page and its JSON come out, or a refusal at its place.

Seeded; each seed is one invented job on three invented lathes with entries taken out or at their extremes.
"""

from __future__ import annotations

import json
import math
import random
import re
import shutil
from pathlib import Path

import pytest
import yaml

from generator.errors import JobProblems
from generator.job.lathe import Lathe
from generator.job.reading import read_job, read_shop
from generator.render.compare_json import compare_record
from generator.render.figures_json import figures_record
from generator.render.page import render_page
from generator.sheet.compute import compute_sheet
from generator.sheet.harm import HARM
from generator.site.archive import compare_job

SHOP = Path(__file__).parents[2] / "jobs" / "_shop"
LATHES = ("long-bed", "thirteen-inch", "metric")
SEEDS = (*range(72), 203, 416)  # the last two: sizes past all digits, a place a rounding past the work's end
LENGTHS = ("0.001", "1/64", "1/16", "3/16", "1/2", "1", "2 1/4", "3", "7", "25 mm", "12", "60")
EXTREMES = (
    {"spindle": {"speeds": ["60"]}},
    {"change_gears": {"gears": ["12", "250", "127", "120"]}},
    {"thread_dial": {"teeth": "29", "lines": "7", "more_gears": ["14", "200"]}},
    {"thread_dial": {"teeth": "16", "lines": "1"}},
    {"feeds": {"along": ["0.01 in/rev"], "across": []}},
    {"feeds": {"along": ["0.00001 in/rev"], "across": ["90 mm/rev"]}},
    {"steady": {"from": "0.01", "to": "200 mm", "width": "0.01"}},
    {"power": "0.01 hp"},
    {"cross_dial": {"division": "0.0001 mm", "turn": "0.0001 mm", "reads": "radius"}},
    {"tailstock": {"quill_travel": "0.01 mm", "taper": "Morse 9", "length": "90 in"}},
    {"carriage_left": "3000 mm"},
    {"between_centers": "2 in"},
    {"leadscrew": {"tpi": "11 1/3"}},
    {"gearbox": {"pitches": ["100 in"]}},
)
HELD = (
    "chuck: {jaws: 3, grip: 2}",
    "chuck: {jaws: 4, grip: 1/2, reversed: yes, key_torque: 60 lbf ft, past_body: 1}",
    "chuck: {jaws: 6, grip: 1, force: 900 lbf, face: serrated}",
    "chuck: {jaws: 3, grip: 1/2, inside: yes}",
    "chuck: {jaws: 3, grip: 1, soft_jaws: yes, plug: yes, force: 20 kN}",
    "chuck: {jaws: 4, grip: 3/4, pie_jaws: yes}",
    "collet: {grip: 1}",
    "collet: {grip: 1/4, force: 500 lbf}",
    "faceplate: {clamps: 3, clamp_circle: 5, clamp_force: 800 lbf}",
    "faceplate: {clamps: 1, clamp_circle: 40}",
    "centers: {dog: 1}",
    "centers: {dog: 1/8}",
)
SUPPORTS = (
    "steady: {at: auto}", "steady: {at: 3}", "steady: {at: 1/2, off_axis: 0.01}", "center: live",
    "center: dead", "center_push: 400 lbf", "behind_spindle: 30", "follow_rest: yes",
    "follow_rest_from_tool: 1/2", "hold_back: yes", "unbalance: {mass: 2 lb, radius: 3}",
    "unbalance: {mass: 40 kg, radius: 200 mm, at: 0}",
)
ASIDE = (
    "limits: {wall: 1/8, diameter: 0.001, round: 0.0005}", "heat: {cutting: 30 F, measuring: 20 F}",
    "cross_holes: [{diameter: 1/8, from_end: 1/2}]",
)
DUTIES = (
    "unknown", "{said: pulls, by: customer, load: 2000 lbf}",
    "{said: holds steam, by: customer, pressure: 200 psi, seal_diameter: 1}", "{said: lifts, lifting: yes}",
)
THREADS = ("M16x2-6g", "1-8 UNC-2A-LH", "8-12 UN-2B", "M30x3.5-6H", "4 1/2-4 UN-2A", "M3x0.5-6g")
CUTS = {
    "face": ("end", "stock"), "center_drill": ("diameter", "depth"),
    "turn": ("diameter", "length", "from_diameter", "depth", "from_end"),
    "taper": ("diameter", "diameter_end", "length", "per_foot", "from_end"),
    "bore": ("diameter", "length", "from_diameter", "from_end"), "drill": ("diameter", "depth"),
    "groove": ("width", "depth", "diameter", "from_end"), "chamfer": ("width", "depth", "from_end"),
    "knurl": ("pitch", "length", "from_end"), "part_off": ("from_end", "width"), "polish": ("length",),
    "relief": ("width", "diameter"), "thread": ("from_end",),
}
UNSAID = re.compile(r"\b(nan|inf|None)\b(?! of)")  # but a sentence may begin with "None of"
MATERIALS = ("1045 steel", "unknown", "316 stainless", "phosphor bronze")


def holding(draw: random.Random) -> str:
    """Any way of holding with any supports, those left out that the reader refuses beside the others."""
    held = draw.choice(HELD)
    chosen = {}
    for entry in draw.sample(SUPPORTS, draw.randint(0, 4)):
        chosen[entry.partition(":")[0]] = entry
    if held.startswith("centers"):
        chosen.setdefault("center", "center: live")
    if "center" not in chosen:
        chosen.pop("center_push", None)
    if "follow_rest" not in chosen:
        chosen.pop("follow_rest_from_tool", None)
    return "{" + ", ".join((held, *chosen.values())) + "}"


def cut(draw: random.Random) -> str:
    name = draw.choice(list(CUTS))
    keys = {key: draw.choice(LENGTHS) for key in CUTS[name] if draw.random() < 0.6}
    if "end" in keys:
        keys["end"] = draw.choice(("left", "right"))
    if name == "relief":
        keys.setdefault("width", "3/16")
    if name == "thread":
        keys |= {"designation": draw.choice(THREADS), "length": draw.choice(LENGTHS)}
    return f"  - {name}: {{{', '.join(f'{key}: {value}' for key, value in keys.items())}}}\n"


def job(draw: random.Random) -> str:
    work = []
    for _ in range(draw.randint(1, 3)):
        bore = f", bore: {draw.choice(LENGTHS)}" if draw.random() < 0.3 else ""
        work.append(f"  - {{length: {draw.choice(LENGTHS)}, od: {draw.choice(LENGTHS)}{bore}}}\n")
    aside = "".join(f"{entry}\n" for entry in ASIDE if draw.random() < 0.3)
    order = draw.choice(("as written", "propose"))
    return (
        f"job: T-1\ntitle: x\nunits: {draw.choice(('inch', 'mm'))}\nlathe: {draw.choice(LATHES)}\n"
        f"material: {draw.choice(MATERIALS)}\nwork:\n{''.join(work)}holding: {holding(draw)}\n"
        f"mate: unknown\nduty: {draw.choice(DUTIES)}\n{aside}order: {order}\n"
        f"operations:\n{''.join(cut(draw) for _ in range(draw.randint(1, 6)))}"
    )


def shop_of(draw: random.Random, folder: Path) -> None:
    """The invented shop with entries of its lathes' records missing or at their extremes."""
    shutil.copytree(SHOP, folder)
    optional = [key for key, entry in Lathe.model_fields.items() if not entry.is_required()]
    for name in LATHES:
        path = folder / "lathes" / f"{name}.yml"
        record = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        for key in optional:
            if draw.random() < 0.2:
                record.pop(key, None)
        for extreme in draw.sample(EXTREMES, draw.randint(0, 3)):
            record.update(extreme)
        path.write_text(json.dumps(record), encoding="utf-8")


@pytest.mark.parametrize("seed", SEEDS)
def test_any_route_on_any_lathe_comes_out_whole_or_is_refused_at_its_place(tmp_path, seed):
    draw = random.Random(seed)
    shop_of(draw, tmp_path / "_shop")
    path = tmp_path / "2026" / "T-1-x" / "job.yml"
    path.parent.mkdir(parents=True)
    path.write_text(job(draw), encoding="utf-8")
    try:
        read, shop = read_job(path), read_shop(tmp_path / "_shop")
        sheet = compute_sheet(read, shop)
    except JobProblems as refused:
        nowhere = [str(one) for one in refused.problems if not re.search(r"\.yml:\d+:\d+", str(one))]
        if nowhere:
            pytest.fail(f"no place in a file: {nowhere}")
        return
    record = figures_record(sheet, path)
    json.dumps(record, allow_nan=False)
    assert {re.sub(r"-\d+$", "", one.id) for one in sheet.findings} <= set(HARM)
    for name, figure in record["figures"].items():
        assert re.fullmatch(r"[a-z0-9_.]+", name)
        assert figure["source"], name
        assert figure["working"], name
        value = figure["value"]
        if isinstance(value, int | float):
            assert math.isfinite(value), name
            assert value >= 0 or not name.startswith(("operation.", "time.")), (name, value)
    assert not UNSAID.search(" ".join(one["text"] for one in record["findings"]))
    assert not UNSAID.search(re.sub(r"<[^>]+>", " ", render_page(sheet)))
    if seed % 6 == 0:
        json.dumps(compare_record(compare_job(path, shop)), allow_nan=False)


def test_most_of_these_routes_are_computed_and_not_refused(tmp_path):
    read = 0
    for seed in SEEDS:
        path = tmp_path / f"{seed}.yml"
        draw = random.Random(seed)
        shop_of(draw, tmp_path / f"shop-{seed}")
        path.write_text(job(draw), encoding="utf-8")
        try:
            read_job(path)
            read += 1
        except JobProblems:
            pass
    assert read > len(SEEDS) / 2
