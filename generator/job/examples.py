"""What is written under a key, as an editor shows it: examples in the words of the trade.

    examples     those of a key, by its model; a model has those of its bases, too

Kinds of quantities bring their own (`fields.QUANTITY_SCHEMAS`), choices list themselves; here stand words,
whole numbers and blocks. A test reads every one with the reader of the files.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from pydantic import BaseModel

_OF: Final[Mapping[str, Mapping[str, list[Any]]]] = {
    "Job": {
        "job": ["2026-031", "SW-113"],
        "title": ["Bollard spindle, re-cut clamp thread"],
        "customer": ["SM-114"],
        "revision": ["A", "B"],
        "lathe": ["long-bed", "thirteen-inch"],
        "material": ["1045 steel", "unknown"],
        "material_known_by": ["certificate", "stamp", "word", "guess"],
        "drawing": ["D-1044 sheet 2"],
        "asked": ["Thread like the old one, to fit the clamp ring"],
        "agreed": ["2026-03-04: relief 3/16 wide instead of a run-out"],
        "superseded_by": ["2026-044"],
        "notes": [["Keep the old spindle for the customer"]],
        "photos": [["intake-1.jpg", {"file": "worn-thread.png", "caption": "As it came in"}]],
        "work": [[{"length": "14", "od": "2 1/4", "bore": "1 1/8"}, {"length": "5", "od": "2"}]],
        "holding": [
            {"chuck": {"jaws": 3, "grip": "2"}, "steady": {"at": "11"}},
            {"centers": {"dog": "1"}, "center": "live"},
        ],
        "operations": [
            [{"face": {"end": "right"}}, {"thread": {"designation": "2-8 UN-2A", "length": "1 3/4"}}],
        ],
        "mate": [{"part": "clamp ring", "thread": "2-8 UN-2B", "on_bench": "yes"}, "unknown"],
        "found": [
            {
                "major": {"value": "0.489", "by": "machinist 1", "with": "micrometer 0-1 in"},
                "worn": "yes",
            },
        ],
        "duty": [{"said": "holds a gate shut", "by": "customer", "load": "500 lbf"}, "unknown"],
    },
    "Settings": {"tool": ["V1", "T2"]},
    "Cut": {
        "tool": ["T1"],
        "hold": ["both ends of the band within 0.0005"],
        "note": ["stop short of the shoulder"],
    },
    "Thread": {
        "tool": ["V1"],
        "hold": ["within the limits over its whole length"],
        "note": ["start against the shoulder"],
        "designation": ["2-8 UN-2A", "M16x2-6g", "Tr 40x14(P7)LH-7e"],
        "class": ["2A", "6g"],
        "starts": [2],
        "spring_passes": [2],
    },
    "Relief": {
        "tool": ["G1"],
        "hold": ["no tool marks in the corners"],
        "note": ["before the thread"],
    },
    "Taper": {"named": ["Morse 3"]},
    "Duty": {"said": ["Clamps the head of a quay bollard; a rope pulls on it."], "by": ["customer"]},
    "Faceplate": {"clamps": [3]},
    "Found": {"starts": [2], "notes": ["worn on the flank towards the head"]},
    "Mate": {
        "part": ["clamp ring"],
        "thread": ["2-8 UN-2B"],
        "material": ["bronze"],
        "says": ["customer, measured with a caliper"],
    },
    "Person": {"drawn_by": ["office"], "checked_by": ["foreman"], "machinist": ["machinist 1"]},
    "Photo": {"file": ["intake-1.jpg"], "caption": ["The clamp thread as it came in"]},
    "Section": {"name": ["band for the steady rest"]},
    # the log
    "Agreed": {
        "asked": ["can it be left 0.005 under"],
        "agreed": ["yes, where the seal does not run"],
        "with": ["customer"],
    },
    "Concession": {
        "feature": ["major"],
        "what": ["0.003 under its limit"],
        "by": ["customer"],
        "reference": ["letter 2026-05-18"],
    },
    "Entry": {
        "by": ["machinist 1"],
        "operation": ["thread", "3"],
        "pass": [12],
        "start": [1],
        "turns": [1],
        "cross_turns": [2],
        "note": ["chips long and blue"],
        "do_differently": ["grind the relief wider"],
        "watch_out": ["the half nuts drag when hot"],
    },
    "Fit": {"with": ["clamp ring"], "where": ["the last two turns"]},
    "Inspected": {
        "feature": ["major", "no_go"],
        "with": ["micrometer 1-2 in"],
        "where": ["free end"],
    },
    "Measured": {"with": ["micrometer 2-3 in"], "where": ["middle of the thread"]},
    "Stop": {
        "turns": [0],
        "cross_turns": [2],
        "jaw_mark": ["jaw 1 at the dot"],
        "why": ["an urgent job"],
        "levers": ["8 threads, right hand"],
        "gears": ["40 on 60"],
        "dial_line": ["3"],
        "tool": ["V1"],
        "band": ["oiled, under a rag"],
        "rust": ["oiled"],
    },
    "TakenUp": {
        "turns": [0],
        "cross_turns": [2],
        "jaw_mark": ["jaw 1 at the dot"],
        "how": ["point set into the groove with half nuts closed"],
        "lathe": ["thirteen-inch"],
        "tool": ["V2"],
    },
    # what came along with a setup, and the shop's own files
    "Sender": {"shop": ["Saltmarsh Works"], "job": ["SW-113"], "lathe": ["L1 Long lathe"]},
    "CuttingTool": {"name": ["T1", "G2"]},
    "ThreadTool": {"name": ["V1"]},
    "Material": {
        "name": ["1045 steel"],
        "group": ["medium-carbon steel", "austenitic stainless"],
        "hardness": ["30 HRC"],
        "source": ["certificate of the bar"],
    },
    "Lathe": {
        "lathe": ["thirteen-inch"],
        "name": ["L2 Thirteen-inch lathe"],
        "notes": [["The half nuts drag when the apron is cold"]],
        "swing": [{"over_bed": "13", "over_cross_slide": "8"}],
        "spindle": [{"bore": "1 3/8", "nose": "screwed", "speeds": [45, 70, 115]}],
        "chucks": [[{"jaws": 3, "grips": {"from": "1/8", "to": "6"}, "top_speed": "2000 rpm"}]],
        "leadscrew": [{"tpi": 8}, {"pitch": "6 mm"}],
        "thread_dial": [{"teeth": 16, "lines": 8, "numbered_every": 2}, "none"],
        "gearbox": [{"tpi": [4, "4 1/2", 5, 6, 7, 8]}],
        "change_gears": [{"gears": [24, 24, 32, 40, 48, 127]}],
        "cross_dial": [{"division": "0.001", "turn": "0.100", "reads": "radius"}],
        "compound_dial": [{"division": "0.02 mm", "turn": "4 mm", "reads": "diameter"}],
        "steady": [{"from": "1/4", "to": "4", "tips": "brass"}],
    },
    "ChangeGears": {"gears": [[24, 24, 32, 40, 48, 127]], "clearance": [15]},
    "Gearbox": {
        "tpi_with_gears": ["24 and 48 on the banjo"],
        "pitches_with_gears": ["127/100 transposing gears"],
    },
    "LatheCenter": {"slots": [4]},
    "LatheFaceplate": {"slots": [6]},
    "Spindle": {"index_holes": [60]},
    "Tailstock": {"taper": ["Morse 3"]},
    "ThreadDial": {"teeth": [16], "lines": [8], "numbered_every": [2], "more_gears": [[14, 18]]},
    "House": {
        "shop": ["Saltmarsh Works"],
        "spring_passes": [2],
        "currency": ["dollars"],
    },
}


def examples(model: type[BaseModel]) -> dict[str, list[Any]]:
    """The examples of each key that has some, by the key as it is written.

    >>> from generator.job.log import Entry
    >>> examples(Entry)["watch_out"]
    ['the half nuts drag when hot']
    """
    found: dict[str, list[Any]] = {}
    for one in reversed(model.__mro__):
        found |= _OF.get(one.__name__, {})
    return found
