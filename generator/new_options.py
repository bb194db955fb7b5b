"""The options of the verb `new`: every question has one of its name.

    OPTIONS        name of a question -> what its option says
    YES_OR_NO      those that need no value: given alone they mean yes
    new_options    gives them to the command line
"""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Final

OPTIONS: Final[dict[str, dict[str, str]]] = {
    "what came in": {
        "title": "what the job is, in a few words", "customer": "whose it is, best as a code",
        "job": "the job number (default: the next one)", "received": "the day it came in (default: today)",
        "units": "inch or mm: the unit of every bare number", "lathe": "a lathe of the shop",
        "material": "a material of the shop, or unknown",
        "material_known_by": "certificate, stamp, word, guess",
        "asked": "what the customer asks for",
    },
    "what was measured": {
        "inside": "the thread is in a bore", "by": "who measured", "major": "over the crests outside",
        "major_with": "what it was measured with", "minor": "the bore over the crests, inside",
        "minor_with": "what it was measured with", "pitch_over_ten": "from one crest to the tenth after it",
        "pitch_over_ten_with": "what it was measured with", "tpi": "threads in one inch, by leaf",
        "pitch_diameter": "over wires or balls", "pitch": "from one crest to the next",
        "lead": "what the mate advances in one turn", "taper": "change of diameter over length: 1:16",
        "angle": "between the flanks, by leaf", "hand": "right or left", "starts": "how many, where counted",
        "worn": "it is worn", "mate_part": "the part that the thread fits",
        "on_bench": "that part is here to try", "mate_minor": "the bore of that part over its crests",
        "mate_major": "that part over its crests, where it goes inside",
        "mate_with": "what that part was measured with",
    },
    "which thread": {
        "designation": "the thread to be cut: 1/2-13 UNC-2A", "thread_length": "length of full thread",
        "fit": "what decides that it fits: wires, mate, gauge",
    },
    "how it is held": {
        "held": "chuck, collet, centers or faceplate", "jaws": "3, 4 or 6", "grip": "how much is gripped",
        "clamps": "clamps on the faceplate", "clamp_circle": "diameter of the circle they press on",
        "center": "center in the tailstock: none, live, dead", "dog": "how much the dog takes",
        "steady": "middle of the steady rest from the chuck face, or auto",
        "follow_rest": "a follow rest travels with the tool",
    },
    "what it must carry": {
        "duty_said": "what the part must do, as somebody says", "duty_by": "who says so",
        "people": "people depend on it", "lifting": "it lifts something", "brakes": "it is part of a brake",
        "load": "the load it must carry", "pressure": "the pressure it must hold",
    },
}
YES_OR_NO: Final = ("inside", "worn", "on_bench", "follow_rest", "people", "lifting", "brakes")


def new_options(command: ArgumentParser) -> None:
    """Give the command line an option for every question."""
    for heading, options in OPTIONS.items():
        group = command.add_argument_group(heading)
        for name, said in options.items():
            option = f"--{name.replace('_', '-')}"
            if name in YES_OR_NO:
                group.add_argument(
                    option, dest=f"say_{name}", nargs="?", const="yes", metavar="no", help=said
                )
            else:
                last = name.rpartition("_")[2].upper()
                group.add_argument(option, dest=f"say_{name}", metavar=last, help=said)
        if heading == "which thread":
            work = command.add_argument_group("what the work is")
            work.add_argument(
                "--work", nargs="+", action="append", metavar="KEY=VALUE",
                help='a section, from the chuck end on: --work length=14 od="2 1/4" bore=1; again for more',
            )
    command.add_argument(
        "--left", dest="say_hand", action="store_const", const="left", help="the same as --hand left"
    )
    command.add_argument(
        "--like", metavar="JOB", help="copy an earlier job; what was measured on it is not taken over"
    )
    command.add_argument("--no-questions", action="store_true", help="ask nothing: write what is given")
    command.add_argument("--resume", metavar="DRAFT", help="go on with a draft, by the name of its file")
    command.add_argument("--fresh", action="store_true", help="start over, whatever drafts there are")
