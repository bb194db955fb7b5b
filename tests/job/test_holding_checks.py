"""What a way of holding cannot do is asked about, with both values and both lines."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.job.checks import check_job
from generator.job.reading import ReadJob, read_shop
from generator.job.shop import Shop

Reader = Callable[..., ReadJob]
ROOT = Path(__file__).parents[2]
CHUCK = "  chuck: {jaws: 3, grip: 2}"
CENTERS = "  centers: {dog: 1}\n  center: dead"
PLATE = "  faceplate: {clamps: 3, clamp_circle: 6}"
COLLET = "  collet: {grip: 2}"
FIRST = "{length: 14, od: 2 1/4}"
LAST = "{length: 5, od: 2, bore: 1 1/8}"
SOLID = {LAST: "{length: 5, od: 2}"}
RELIEF = "  - relief: {width: 3/16}"
BORED = {FIRST: "{length: 14, od: 6, bore: 4}", LAST: "{length: 5, od: 2}"}
TUBE = {FIRST: "{length: 14, od: 6, bore: 4}", LAST: "{length: 5, od: 2, bore: 1}"}

ASKED = [
    (
        "inside-no-bore",
        {CHUCK: "  chuck: {jaws: 3, grip: 2, inside: yes}"},
        "stop",
        "The jaws grip from inside (line 10), and the work has no bore at its chuck end (line 7).",
        10,
    ),
    (
        "inside-bore-short",
        {**BORED, CHUCK: "  chuck: {jaws: 3, grip: 15, inside: yes}"},
        "stop",
        "The jaws reach 15 in (line 10) into the bore of 4 in (line 7), which is only 14 in deep (line 8).",
        10,
    ),
    (
        "inside-bore-short",
        {**TUBE, CHUCK: "  chuck: {jaws: 3, grip: 15, inside: yes}"},
        "stop",
        "The jaws reach 15 in (line 10) into the bore of 4 in (line 7), which is only 14 in deep (line 8).",
        10,
    ),
    (
        "grip-past-shoulder",
        {
            FIRST: "{length: 1, od: 6, bore: 4}", LAST: "{length: 18, od: 6, bore: 5}",
            CHUCK: "  chuck: {jaws: 3, grip: 2, inside: yes}",
        },
        "check",
        "The jaws reach 2 in (line 10) into the bore, which widens at 1 in from 4 in (line 7) to 5 in (line "
        "8): they bear only up to there. Grip less.",
        10,
    ),
    (
        "grip-past-shoulder",
        {CHUCK: "  collet: {grip: 15}"},
        "check",
        "The grip of 15 in (line 10) goes past the shoulder at 14 in from 2 1/4 in (line 7) to 2 in (line "
        "8): the collet bears only up to it. Grip less, or turn the work end for end.",
        10,
    ),
    (
        "plug-inside",
        {**BORED, CHUCK: "  chuck: {jaws: 3, grip: 2, inside: yes, plug: yes}"},
        "stop",
        "The jaws grip from inside the bore, and a plug fills it: there is room for one of the two.",
        10,
    ),
    (
        "plug-no-bore",
        {CHUCK: "  chuck: {jaws: 3, grip: 2, plug: yes}"},
        "check",
        "A plug fills the bore under the jaws, and the work has no bore in the 2 in (line 10) that they "
        "hold.",
        10,
    ),
    (
        "jaws-contradict",
        {CHUCK: "  chuck: {jaws: 3, grip: 2, pie_jaws: yes, reversed: yes}"},
        "check",
        "The jaws are pie jaws and reversed. Soft jaws are bored where they stand; turned around "
        "they have to "
        "be bored again.",
        10,
    ),
    (
        "jaws-contradict",
        {CHUCK: "  chuck: {jaws: 3, grip: 2, soft_jaws: yes, face: serrated}"},
        "check",
        "The jaws are soft jaws, and their face is serrated: soft jaws are bored smooth, and hold less than "
        "serrated ones.",
        10,
    ),
    (
        "collet-rough",
        {CHUCK: COLLET, FIRST: "{length: 14, od: 2 1/4, surface: rough}"},
        "check",
        "The collet holds 2 in (line 10) of the work, and the surface there is rough: it holds on a few high "
        "spots, and they spoil the collet. Turn that end first, or take a chuck.",
        7,
    ),
    (
        "dog-too-long",
        {**SOLID, CHUCK: "  centers: {dog: 19}\n  center: live"},
        "stop",
        "The dog takes 19 in (line 10) of the work, which is 19 in long (lines 7 and 8): nothing is left to "
        "turn.",
        10,
    ),
    (
        "dog-past-shoulder",
        {**SOLID, CHUCK: "  centers: {dog: 14 1/2}\n  center: live"},
        "check",
        "The dog takes 14 1/2 in (line 10), past the shoulder at 14 in from 2 1/4 in (line 7) to 2 in (line "
        "8). Set it on one diameter.",
        10,
    ),
    (
        "centers-in-the-way",
        {**SOLID, CHUCK: CENTERS, RELIEF: f"  - drill: {{diameter: 1/2, depth: 1}}\n{RELIEF}"},
        "stop",
        "The work turns between centers, and drill (line 14) needs the end where a center stands. Do it "
        "before, in a chuck; or set a steady rest, tie the work to the driving plate and write hold_back: "
        "yes.",
        14,
    ),
    (
        "centers-in-the-way",
        {
            **SOLID, CHUCK: f"{CENTERS}\n  steady: {{at: 9}}\n  hold_back: yes",
            RELIEF: f"  - bore: {{diameter: 1, length: 1}}\n{RELIEF}",
        },
        "check",
        "The work turns between centers, and bore (line 16) needs the end where a center stands. Take the "
        "tailstock center away only with the steady rest set, and the work tied to the driving plate.",
        16,
    ),
    (
        "centers-face",
        {**SOLID, CHUCK: CENTERS, RELIEF: f"  - face: {{end: right}}\n{RELIEF}"},
        "check",
        "The work turns between centers: face (line 14) reaches only as far as the center. Take a half "
        "center, or face both ends to length before, in a chuck.",
        14,
    ),
    (
        "behind-spindle-held",
        {**SOLID, CHUCK: f"{CENTERS}\n  behind_spindle: 30"},
        "stop",
        "30 in (line 12) of bar stand out behind the headstock, and the work is held between centers: a "
        "center or the plate closes that way.",
        12,
    ),
    (
        "behind-spindle-held",
        {CHUCK: f"{PLATE}\n  behind_spindle: 30"},
        "stop",
        "30 in (line 11) of bar stand out behind the headstock, and the work is held on the faceplate: a "
        "center or the plate closes that way.",
        11,
    ),
    (
        "hold-back-center",
        {**SOLID, CHUCK: f"{CHUCK}\n  center: live\n  hold_back: yes"},
        "note",
        "The live center keeps the work in the chuck; a hold-back does nothing beside it.",
        12,
    ),
    (
        "center-hollow",
        {CHUCK: f"{CHUCK}\n  center: live"},
        "check",
        "A center is to stand in an end that is bored 1 1/8 in (line 8). It wants a true chamfer on the "
        "mouth of the bore and a center large enough for it, or a plug with a center hole, fitted so that "
        "it cannot turn.",
        11,
    ),
    (
        "center-hollow",
        {FIRST: "{length: 14, od: 2 1/4, bore: 1}", CHUCK: CENTERS},
        "check",
        "A center is to stand in an end that is bored 1 1/8 in (line 8) and 1 in (line 7). It wants a true "
        "chamfer on the mouth of the bore and a center large enough for it, or a plug with a center hole, "
        "fitted so that it cannot turn.",
        11,
    ),
    (
        "follow-rest-idle",
        {
            CHUCK: f"{CHUCK}\n  follow_rest: yes", RELIEF: "  - groove: {width: 1/8, depth: 1/8}",
            "  - thread: {designation: 2-8 UN-2A, length: 1 3/4}": "  - face: {end: right}",
        },
        "check",
        "A follow rest is to travel with the tool, and no operation turns or threads along the outside.",
        11,
    ),
    (
        "unbalance-outside",
        {CHUCK: f"{CHUCK}\n  unbalance: {{mass: 2 lb, radius: 3, at: 18}}"},
        "stop",
        "The mass off the axis is 18 in (line 11) from the chuck face, and the work ends at 17 in (lines 7 "
        "and 8).",
        11,
    ),
]


@pytest.fixture(scope="module")
def shop() -> Shop:
    return read_shop(ROOT / "jobs" / "_shop")


@pytest.mark.parametrize(("id", "changes", "level", "text", "line"), ASKED)
def test_what_it_cannot_do_is_asked_about(
    read: Reader, shop: Shop, id: str, changes: dict[str, str], level: str, text: str, line: int
) -> None:
    problems, found = check_job(read(changes), shop)
    assert problems == []
    (one,) = [one for one in found if one.id == id]
    assert (one.level, one.text, one.where.line) == (level, text, line)


@pytest.mark.parametrize(
    "changes",
    [
        {CHUCK: COLLET},
        {CHUCK: PLATE},
        {**SOLID, CHUCK: CENTERS},
        {**SOLID, CHUCK: f"{CENTERS}\n  follow_rest: yes\n  steady: {{at: 9}}"},
        {
            **SOLID, CHUCK: CENTERS,
            RELIEF: f"  - drill: {{diameter: 1/2, across: yes, from_end: 1}}\n{RELIEF}",
        },
        {**SOLID, CHUCK: "  centers: {dog: 14}\n  center: live"},
        {FIRST: "{length: 14, od: 2 1/4, bore: 1}", CHUCK: "  chuck: {jaws: 3, grip: 2, plug: yes}"},
        {FIRST: "{length: 14, od: 6, bore: 4}", CHUCK: "  chuck: {jaws: 3, grip: 14, inside: yes}"},
        {CHUCK: "  chuck: {jaws: 4, grip: 2, pie_jaws: yes, face: smooth}"},
        {CHUCK: f"{CHUCK}\n  unbalance: {{mass: 2 lb, radius: 3, at: 17}}"},
        {CHUCK: f"{CHUCK}\n  unbalance: {{mass: 2 lb, radius: 3}}"},
        {CHUCK: f"{CHUCK}\n  hold_back: yes\n  steady: {{at: 8}}"},
        {CHUCK: f"{COLLET}\n  behind_spindle: 20"},
    ],
)
def test_what_can_be_done_is_not_asked_about(read: Reader, shop: Shop, changes: dict[str, str]) -> None:
    """Each way of holding as it should be, limits met exactly."""
    assert check_job(read(changes), shop) == ([], [])


def test_a_mate_of_a_material_the_shop_does_not_have_is_a_problem(read: Reader, shop: Shop) -> None:
    mate = "mate: {part: clamp ring, thread: 2-8 UN-2B}"
    problems, _ = check_job(read({mate: f"{mate[:-1]}, material: 1018 stele}}"}), shop)
    assert [f"{one.field}: {one.message}" for one in problems] == [
        'mate.material: "1018 stele" is not a material of this shop: did you mean 1018 steel? Otherwise give '
        "it an entry in materials.yml, or write unknown"
    ]
    assert check_job(read({mate: f"{mate[:-1]}, material: 1018 steel}}"}), shop) == ([], [])
