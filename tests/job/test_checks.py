"""Contradictions are asked about with both values and both lines; names the shop does not have are problems.

The limits of size in the sentences are tested against print where they are worked; here, that they are used.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.errors import JobProblems
from generator.job.checks import Contradiction, check_job
from generator.job.reading import ReadJob, find_jobs, read_job, read_shop
from generator.job.sender import read_sender, with_sender
from generator.job.shop import Shop

Reader = Callable[..., ReadJob]
ROOT = Path(__file__).parents[2]
THREAD = "designation: 2-8 UN-2A, length: 1 3/4"
MATE = "mate: {part: clamp ring, thread: 2-8 UN-2B}"
CHUCK = "  chuck: {jaws: 3, grip: 2}"


@pytest.fixture(scope="module")
def shop() -> Shop:
    return read_shop(ROOT / "jobs" / "_shop")


def test_a_sound_job_has_nothing_to_ask(read: Reader, shop: Shop) -> None:
    assert check_job(read(), shop) == ([], [])


@pytest.mark.parametrize("path", find_jobs(ROOT / "jobs"), ids=lambda path: path.parent.name)
def test_only_the_demo_job_that_is_not_ready_contradicts_itself(path: Path, shop: Shop) -> None:
    sender = read_sender(path.parent)
    problems, found = check_job(read_job(path), with_sender(shop, sender) if sender else shop)
    assert problems == []
    assert {one.id for one in found if one.level == "stop"} == (
        {"sections-sum", "hand-differs", "blank-over"} if "SW-109" in path.parent.name else set()
    )


CASES: list[tuple[str, dict[str, str], str, str, int, str]] = [
    (
        "hand-differs",
        {THREAD: f"{THREAD}, hand: left"},
        "stop",
        "The designation 2-8 UN-2A (line 14) is a right-hand thread, and hand beside it (line 14) says "
        "left. A left-hand thread has LH at the end of its designation.",
        14,
        "Is the thread right-hand or left-hand?",
    ),
    (
        "pitch-differs",
        {THREAD: f"{THREAD}, pitch: 1/7"},
        "stop",
        "The designation 2-8 UN-2A (line 14) has a pitch of 0.125 in, and pitch beside it (line 14) says "
        "1/7 in.",
        14,
        "What is the pitch?",
    ),
    (
        "tpi-differs",
        {THREAD: f"{THREAD}, tpi: 7 1/2"},
        "stop",
        "The designation 2-8 UN-2A (line 14) has 8 threads in one inch, and tpi beside "
        "it (line 14) says 7 1/2.",
        14,
        "How many threads are there in one inch?",
    ),
    (
        "class-differs",
        {THREAD: f"{THREAD}, class: 3A"},
        "stop",
        "The designation 2-8 UN-2A (line 14) is of class 2A, and class beside it (line 14) says 3A.",
        14,
        "Which class of fit is wanted?",
    ),
    (
        "class-differs",
        {THREAD: "designation: M52x3, length: 44 mm, class: 4h, blank: 51.8 mm", MATE: "mate: unknown"},
        "stop",
        "The designation M52x3 (line 14) names no class, and class beside it (line 14) says 4h. Write the "
        "class in the designation.",
        14,
        "Which class of fit is wanted?",
    ),
    (
        "starts-differs",
        {THREAD: f"{THREAD}, starts: 2"},
        "stop",
        "The designation 2-8 UN-2A (line 14) has 1 start, and starts beside it (line 14) says 2.",
        14,
        "How many starts does the thread have?",
    ),
    (
        "units-differs",
        {THREAD: f"{THREAD}, units: mm"},
        "stop",
        "The designation 2-8 UN-2A (line 14) is an inch thread, and units beside it (line 14) says mm.",
        14,
        "Is it a metric thread or an inch thread?",
    ),
    (
        "thread-too-short",
        {"length: 1 3/4": "length: 1/16"},
        "stop",
        "The thread is 1/16 in (line 14) long, less than one pitch of 0.125 in.",
        14,
        "How long is the thread?",
    ),
    (
        "thread-too-long",
        {"length: 1 3/4": "length: 5 1/4"},
        "stop",
        "The thread is 5 1/4 in (line 14) long, and its section has room for 5 in (line 8).",
        14,
        "How long is the thread, and how long is the section?",
    ),
    (
        "thread-too-long",
        {"length: 1 3/4": "length: 4, from_end: 1 1/2"},
        "stop",
        "The thread is 4 in (line 14) long, and its section has room for 3.5 in (line 8).",
        14,
        "How long is the thread, and how long is the section?",
    ),
    (
        "thread-outside",
        {"length: 1 3/4": "length: 1, from_end: 20"},
        "stop",
        "The thread starts 20 in (line 14) from the tailstock end, and the work is 19 in "
        "long (lines 7 and 8).",
        14,
        "Where does the thread start?",
    ),
    (
        "thread-on-taper",
        {"od: 2, bore": "od: 2, od_end: 1.9, bore"},
        "stop",
        "The thread of 1 3/4 in (line 14) lies on a section that tapers from 2 in (line "
        "8) to 1.9 in (line 8).",
        14,
        "Is the section straight, or is a taper thread wanted?",
    ),
    (
        "relief-too-wide",
        {"width: 3/16": "width: 3 1/2"},
        "stop",
        "The thread of 1 3/4 in (line 14) and its relief of 3 1/2 in (line 13) need 5.25 in, and there is "
        "room for 5 in up to the shoulder (line 8).",
        13,
        "How much shorter may the thread or the relief be?",
    ),
    (
        "relief-not-below",
        {"width: 3/16": "width: 3/16, diameter: 2"},
        "stop",
        "The relief diameter 2 in (line 13) is not below the outside diameter 2 in (line 8).",
        13,
        "What is the diameter of the relief?",
    ),
    (
        "relief-into-bore",
        {"width: 3/16": "width: 3/16, diameter: 1.1"},
        "stop",
        "The relief diameter 1.1 in (line 13) reaches the bore of 1 1/8 in (line 8).",
        13,
        "What are the diameters of the relief and of the bore?",
    ),
    (
        "sections-sum",
        {"title: Bollard": "total_length: 18 1/2\ntitle: Bollard"},
        "stop",
        "The sections add up to 19 in (lines 8 and 9), and total_length says 18 1/2 in (line 2).",
        2,
        "How long is the work overall, and how long is each section?",
    ),
    (
        "blank-over",
        {THREAD: f"{THREAD}, blank: {{value: 2.0010, by: KL, with: micrometer 2-3 in}}"},
        "stop",
        "The blank is 2.0010 in (line 14), measured by KL with micrometer 2-3 in, and 2-8 UN-2A (line 14) "
        "wants 1.9827 to 1.9977 in. Turn it down first and measure again.",
        14,
        "Was the blank measured where the thread goes?",
    ),
    (
        "blank-under",
        {THREAD: f"{THREAD}, blank: 1.98"},
        "stop",
        "The blank is 1.98 in (line 14), and 2-8 UN-2A (line 14) wants 1.9827 to 1.9977 in. The crests "
        "would be too low for the class.",
        14,
        "May the thread be cut on the smaller blank, in another size or class, or is new stock wanted?",
    ),
    (
        "section-under-blank",
        {"od: 2, bore": "od: 1.97, bore"},
        "stop",
        "The section to be threaded is 1.97 in (line 8), and 2-8 UN-2A (line 14) needs a blank of 1.9827 to "
        "1.9977 in.",
        8,
        "Is the diameter right, or is another thread wanted?",
    ),
    (
        "turn-first",
        {"od: 2, bore": "od: 2 1/8, bore"},
        "check",
        "The section to be threaded is 2 1/8 in (line 8), larger than 2-8 UN-2A (line 14), and no turn "
        "operation before the thread takes it down. Turn it to 1.9827 to 1.9977 in first.",
        8,
        "",
    ),
    (
        "mate-differs",
        {MATE: "mate: {part: ring, thread: 2-12 UN-2B-LH}"},
        "stop",
        "The mate has 2-12 UN-2B-LH (line 11), and the thread to cut is 2-8 UN-2A (line 14): pitch and hand "
        "differ.",
        11,
        "Which thread does the mate have, and which one is to be cut?",
    ),
    (
        "engagement-differs",
        {THREAD: "designation: 2-8 UN-2A SE 1 1/2, length: 1 3/4, engagement: 1 1/4"},
        "stop",
        "The designation 2-8 UN-2A SE 1 1/2 (line 14) asks for an engagement of 1.5 in, and the engagement "
        "beside it (line 14) is 1 1/4 in.",
        14,
        "How much of the thread goes into its mate?",
    ),
    (
        "engagement-differs",
        {
            THREAD: "designation: 2-8 UN-2A SE 1.5, length: 1 3/4",
            MATE: "mate: {part: clamp ring, thread: 2-8 UN-2B, engagement: 40 mm}",
        },
        "stop",
        "The designation 2-8 UN-2A SE 1.5 (line 14) asks for an engagement of 1.5 in, and the engagement "
        "of the mate (line 11) is 40 mm.",
        11,
        "How much of the thread goes into its mate?",
    ),
    (
        "engagement-differs",
        {
            THREAD: f"{THREAD}, engagement: 1 3/4",
            MATE: "mate: {part: clamp ring, thread: 2-8 UN-2B, engagement: 1 1/2}",
        },
        "check",
        "The limits of 2-8 UN-2A (line 14) are to be for an engagement of 1 3/4 in (line 14), and the mate's "
        "is 1 1/2 in (line 11).",
        14,
        "How much of the thread goes into its mate?",
    ),
    (
        "mate-differs",
        {
            THREAD: "designation: 2-8 UN-2A SE 2, length: 1 3/4",
            MATE: "mate: {part: ring, thread: 2-8 UN-2B SE 1.5}",
        },
        "stop",
        "The mate has 2-8 UN-2B SE 1.5 (line 11), and the thread to cut is 2-8 UN-2A SE 2 (line 14): length "
        "of engagement differs.",
        11,
        "Which thread does the mate have, and which one is to be cut?",
    ),
    (
        "mate-differs",
        {MATE: "mate: {part: ring, thread: M52x3-6H}"},
        "stop",
        "The mate has M52x3-6H (line 11), and the thread to cut is 2-8 UN-2A (line 14): diameter and pitch "
        "differ.",
        11,
        "Which thread does the mate have, and which one is to be cut?",
    ),
    (
        "mate-unread",
        {MATE: "mate: {part: ring, thread: like the old one}"},
        "note",
        'The mate\'s thread "like the old one" (line 11) cannot be read, so it was not '
        "compared with 2-8 UN-2A (line 14).",
        11,
        "",
    ),
    (
        "grip-too-long",
        {"grip: 2}": "grip: 19}"},
        "stop",
        "The grip of 19 in (line 10) is not shorter than the work, which is 19 in long (lines 7 and 8).",
        10,
        "How much of the work is to be inside the jaws?",
    ),
    (
        "grip-past-shoulder",
        {"length: 14": "length: 1 1/2"},
        "check",
        "The grip of 2 in (line 10) goes past the shoulder at 1.5 in from 2 1/4 in (line 7) to 2 in (line "
        "8): the jaws bear only up to it. Grip less, or turn the work end for end.",
        10,
        "",
    ),
    (
        "bore-too-large",
        {"bore: 1 1/8": "bore: 2"},
        "stop",
        "Section 2 of the work has a bore of 2 in (line 8) in an outside diameter of 2 in (line 8): there "
        "is no wall left.",
        8,
        "What are the bore and the outside diameter there?",
    ),
    (
        "cross-hole-outside",
        {CHUCK: f"{CHUCK}\ncross_holes: [{{diameter: 1/4, from_end: 20}}]"},
        "stop",
        "The cross hole is 20 in (line 11) from the tailstock end, and the work is 19 in "
        "long (lines 7 and 8).",
        11,
        "Where is the cross hole?",
    ),
    (
        "cross-hole-too-large",
        {CHUCK: f"{CHUCK}\ncross_holes: [{{diameter: 2, from_end: 1}}]"},
        "stop",
        "The cross hole of 2 in (line 11) is not smaller than the work there, 2 in (line 8).",
        11,
        "What are the diameter of the hole and of the work there?",
    ),
    (
        "cross-hole-breaks-out",
        {CHUCK: f"{CHUCK}\ncross_holes: [{{diameter: 1/2, from_end: 0.2}}]"},
        "check",
        "The cross hole of 1/2 in (line 11) with its axis 0.2 in (line 11) from the end breaks out of the "
        "end face.",
        11,
        "Is the hole open at the end face?",
    ),
    (
        "thread-twice",
        {"  - thread:": "  - thread: {designation: 2-8 UN-2A, length: 1}\n  - thread:"},
        "stop",
        "There are 2 thread operations (lines 14 and 15). A sheet is one setup with one thread: write the "
        "next one as a job of its own.",
        15,
        "",
    ),
    (
        "relief-twice",
        {"  - thread:": "  - relief: {width: 1/8}\n  - thread:"},
        "stop",
        "There are 2 relief operations (lines 13 and 14). A sheet is one setup with one thread: write the "
        "next one as a job of its own.",
        14,
        "",
    ),
]


@pytest.mark.parametrize(
    ("id", "changes", "level", "text", "line", "asks"),
    CASES,
    ids=[f"{case[0]}-{n}" for n, case in enumerate(CASES)],
)
def test_a_contradiction_is_asked_about(
    read: Reader, shop: Shop, id: str, changes: dict[str, str], level: str, text: str, line: int, asks: str
) -> None:
    job = read(changes)
    problems, found = check_job(job, shop)
    assert problems == []
    one = next(one for one in found if one.id == id)
    assert (one.level, one.text, one.where.line, one.asks) == (level, text, line, asks)
    assert one.where.path == job.path


@pytest.mark.parametrize(
    "changes",
    [
        {THREAD: f"{THREAD}, hand: right, pitch: 0.125, tpi: 8, class: 2a, starts: 1, units: inch"},
        {THREAD: f"{THREAD}, pitch: 3.175 mm"},
        {THREAD: f"{THREAD}, blank: 1.9977"},
        {THREAD: f"{THREAD}, blank: 1.9827"},
        {"length: 1 3/4": "length: 4 13/16"},
        {"title: Bollard": "total_length: 482.6 mm\ntitle: Bollard"},
        {MATE: "mate: {part: ring, thread: 2 - 8 un - 2B}"},
        {MATE: "mate: unknown"},
        {MATE: "mate: {part: ring, thread: 2-8 UN}"},
        {
            THREAD: "designation: 2-8 UN-2A SE 1 1/2, length: 1 3/4, engagement: 38 mm",
            MATE: "mate: {part: clamp ring, thread: 2-8 UN-2B SE 1.5, engagement: 38.1 mm}",
        },
        {"{length: 14, od: 2 1/4}": "{length: 14, od: 2}", "length: 1 3/4": "length: 5"},
        {
            "od: 2, bore": "od: 2 1/8, bore",
            "  - relief:": "  - turn: {diameter: 1.995, length: 5}\n  - relief:",
        },
    ],
)
def test_what_agrees_is_not_asked_about(read: Reader, shop: Shop, changes: dict[str, str]) -> None:
    """The same said twice, limits met exactly, a relief that runs on into a section of the same diameter."""
    assert check_job(read(changes), shop) == ([], [])


def test_a_metric_blank_is_asked_about_in_millimeters(read: Reader, shop: Shop) -> None:
    job = read(
        {
            "units: inch": "units: mm",
            "{length: 14, od: 2 1/4}": "{length: 200, od: 20}",
            "{length: 5, od: 2, bore: 1 1/8}": "{length: 55, od: 16}",
            "grip: 2}": "grip: 40}",
            MATE: "mate: unknown",
            "width: 3/16": "width: 5",
            THREAD: "designation: M16-6g, length: 45, blank: 15.97",
        }
    )
    problems, found = check_job(job, shop)
    assert problems == []
    assert [one.text for one in found] == [
        "The blank is 15.97 mm (line 14), and M16-6g (line 14) wants 15.682 to 15.962 mm. Turn it down "
        "first and measure again."
    ]


def test_several_contradictions_come_in_file_order(read: Reader, shop: Shop) -> None:
    _, found = check_job(read({THREAD: f"{THREAD}, hand: left, starts: 3", "grip: 2}": "grip: 30}"}), shop)
    assert [one.id for one in found] == ["grip-too-long", "hand-differs", "starts-differs"]
    assert all(isinstance(one, Contradiction) for one in found)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        (
            {"lathe: long-bed": "lathe: longbed"},
            'lathe: "longbed" is not a lathe of this shop: did you mean long-bed? Otherwise '
            "give it a file in lathes",
        ),
        (
            {"lathe: long-bed": "lathe: ../x"},
            'lathe: "../x" is not a lathe of this shop: the shop has long-bed, metric, '
            "thirteen-inch; otherwise give it a file "
            "in lathes",
        ),
        (
            {"material: 1045 steel": "material: 1045 stele"},
            'material: "1045 stele" is not a material of this shop: did you mean 1045 steel? '
            "Otherwise give it an entry in "
            "materials.yml, or write unknown",
        ),
        (
            {THREAD: f"{THREAD}, tool: X9"},
            'operations.1.thread.tool: "X9" is not a threading tool of this shop: the shop has '
            "V1, V2, V3, V4, V5, V6, V7, V8, V9, V10, A1, A2, A3, A4, S1, Q1, W1; otherwise give it an "
            "entry in tools.yml",
        ),
    ],
)
def test_a_name_the_shop_does_not_have_is_a_problem(
    read: Reader, shop: Shop, changes: dict[str, str], message: str
) -> None:
    problems, _ = check_job(read(changes), shop)
    assert [f"{problem.field}: {problem.message}" for problem in problems] == [message]
    assert problems[0].source_line


def test_a_designation_that_cannot_be_read_is_a_problem_at_its_place(read: Reader) -> None:
    with pytest.raises(JobProblems) as caught:
        read({"designation: 2-8 UN-2A": "designation: two inch eight"})
    (problem,) = caught.value.problems
    assert problem.field == "operations.1.thread.designation"
    assert "two inch eight" in problem.message


def test_names_the_shop_does_not_have_stand_among_the_other_problems(
    tmp_path: Path, small_job: str, shop: Shop
) -> None:
    path = tmp_path / "job.yml"
    text = small_job.replace("lathe: long-bed", "lathe: long-bad").replace("2-8 UN-2A", "2-9 UNC-2A")
    path.write_text(text, encoding="utf-8")
    with pytest.raises(JobProblems) as caught:
        read_job(path, shop)
    fields = [problem.field for problem in caught.value.problems]
    assert fields == ["lathe", "operations.1.thread.designation"]
    assert "did you mean long-bed" in caught.value.problems[0].message


@pytest.mark.parametrize(
    ("designation", "length", "differs"),
    [
        # ISO 965-1 (Machinery's Handbook, 27th ed., p. 1792): group N of M52x3 runs over 15 up to 45 mm
        ("M52x3-7g6g-L", "40 mm", "over 45 mm"),
        ("M52x3-7g6g-L", "46 mm", ""),
        ("M52x3-5g6g-S", "16 mm", "up to 15 mm"),
        ("M52x3-5g6g-S", "15 mm", ""),
        ("M52x3-6g", "40 mm", ""),  # the normal group goes without saying: a remark beside the limits
        ("Tr 52x8-8e-L", "60 mm", "over 118 mm"),  # ISO 2903, from memory
    ],
)
def test_a_group_of_engagement_is_held_against_the_length(
    read: Reader, shop: Shop, designation: str, length: str, differs: str
) -> None:
    _, found = check_job(
        read({
            THREAD: f"designation: {designation}, length: 44 mm, engagement: {length}",
            MATE: "mate: unknown", "od: 2, bore": "od: 52 mm, bore",
        }),
        shop,
    )
    said = [one.text for one in found if one.id == "engagement-differs"]
    assert len(said) == bool(differs)
    assert all(f"asks for an engagement of {differs}, and" in text for text in said)
