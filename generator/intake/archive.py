"""A new archive: its files by their names, from what was said about the shop and its lathe; pure.

    archive_files     the files below the new folder
    EXAMPLE           the job that is in it, to be looked at and copied
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, Final

from generator.intake.job_file import job_text, job_tree
from generator.intake.lathe_file import file_name, lathe_text, lathe_tree
from generator.job.editor_line import SCHEMAS, editor_line
from generator.job.writing import remarked
from generator.job.written import NOWHERE, Block, Scalar
from generator.language.fragments import page_in_other_words, remarks_in_other_words
from generator.language.say import later, say

READ_ME: Final = "READ-ME.txt"
_NAMED: Final = "example-gate-stud"
_BOTH: Final = {
    "title": later("Example: gate stud, new thread"),
    "customer": "EX-01",
    "material": "low-carbon steel",
    "material_known_by": "word",
    "asked": later("A stud like the old one; its thread is worn"),
    "by": later("machinist 1"),
    "angle": "60",
    "worn": "yes",
    "mate_part": later("nut"),
    "on_bench": "yes",
    "fit": "mate",
    "held": "chuck",
    "center": "live",
    "duty_said": later("Holds a field gate shut."),
    "duty_by": later("customer"),
    "bore_1": "",
    "length_2": "",
}
EXAMPLE: Final[dict[str, dict[str, str]]] = {  # by the unit of the lathe; an invented part
    "inch": {
        "units": "inch", "major": "0.489", "major_with": later("micrometer 0-1 in"), "pitch_over_ten": "0.77",
        "pitch_over_ten_with": later("rule"), "mate_minor": "0.425", "mate_with": later("caliper"),
        "designation": "1/2-13 UNC-2A", "thread_length": "1 1/4", "length_1": "4", "od_1": "1/2",
        "grip": "1 1/2",
    },
    "mm": {
        "units": "mm", "major": "11.75", "major_with": later("micrometer 0-25 mm"), "pitch_over_ten": "17.5",
        "pitch_over_ten_with": later("rule"), "mate_minor": "10.4", "mate_with": later("caliper"),
        "designation": "M12x1.75-6g", "thread_length": "30", "length_1": "100", "od_1": "12", "grip": "40",
    },
}
_ALSO: Final = later("A relief, a steady rest, other operations: the page Files of the site lists every key.")
_HOUSE: Final = {
    "shop": later("The name of the shop, for the title block of every sheet."),
    "language": later(
        "Of sheets, site and messages: en (American words), en-GB (British words) or de (German)."
    ),
    "units": later("A bare number in this file is in this unit."),
}
_HOUSE_MORE: Final = (
    later("What the shop does its own way can be added here, such as:"), "spring_passes: 2",
    "compound_angle: 29 1/2", "lift_alone: 25 kg", "rate: 65",
    later("Until then common practice stands in, and the sheets say so."),
)


def archive_files(
    answers: Mapping[str, str], today: str, templates: Mapping[str, str],
    schemas: Mapping[str, dict[str, Any]],
) -> dict[str, bytes]:
    """The files of a new archive, by their names below its folder.

    Parameters
    ----------
    answers : about the shop and its lathe
    today : the day, as in a job file
    templates : texts of read-me.txt, materials.yml, tools.yml
    schemas : for editors, by kind of file
    """
    lathe = file_name(answers.get("lathe") or say("Lathe 1"))
    number = f"{today[:4]}-001"
    files = {
        READ_ME: page_in_other_words(templates["read-me.txt"], say),
        "jobs/_shop/house.yml": _house(answers),
        "jobs/_shop/materials.yml": editor_line("materials") + "\n" + _said(templates["materials.yml"]),
        "jobs/_shop/tools.yml": editor_line("tools") + "\n" + _said(templates["tools.yml"]),
        f"jobs/_shop/lathes/{lathe}.yml": lathe_text(answers),
        f"jobs/{today[:4]}/{number}-{_NAMED}/job.yml": _example(answers, lathe, number, today),
    }
    files |= {
        f"jobs/{SCHEMAS}/{name}.schema.json": json.dumps(one, indent=1) + "\n"
        for name, one in schemas.items()
    }
    return {name: text.encode() for name, text in files.items()}


def _said(template: str) -> str:
    """A template of YAML with its remarks in the language of the shop."""
    return remarks_in_other_words(template, say)


def _house(answers: Mapping[str, str]) -> str:
    tree = Block(NOWHERE)
    tree.update(
        shop=Scalar(answers.get("shop") or say("Our shop"), quoted=True),
        language=Scalar(answers.get("language") or "en"),
        units=Scalar(answers.get("units") or "inch"),
    )
    text = remarked(tree, {key: [said] for key, said in _HOUSE.items()}, _HOUSE_MORE)
    return f"{editor_line('house')}\n{text}"


def _example(answers: Mapping[str, str], lathe: str, number: str, today: str) -> str:
    """The example on the lathe that was described, in a chuck that it has."""
    chucks = lathe_tree(answers).get("chucks")
    jaws = str(chucks[0]["jaws"]) if chucks else "3"
    own = EXAMPLE["mm" if answers.get("units") == "mm" else "inch"]
    told = {key: str(value) for key, value in {**_BOTH, **own}.items()}
    said = {**told, "job": number, "received": today, "lathe": lathe, "jaws": jaws}
    return job_text(job_tree(said), last=[_ALSO])
