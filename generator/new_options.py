"""The options of the verb `new`: every question has one of its name.

    OPTIONS        name of a question -> what its option says
    YES_OR_NO      those that need no value: given alone they mean yes
    new_options    gives them to the command line
"""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Final

from generator.language.say import later, say

OPTIONS: Final[dict[str, dict[str, str]]] = {
    later("what came in"): {
        "title": later("what the job is, in a few words"),
        "customer": later("whose it is, best as a code"),
        "job": later("the job number (default: the next one)"),
        "received": later("the day it came in (default: today)"),
        "units": later("inch or mm: the unit of every bare number"),
        "lathe": later("a lathe of the shop"),
        "material": later("a material of the shop, or unknown"),
        "material_known_by": later("certificate, stamp, word, guess"),
        "asked": later("what the customer asks for"),
    },
    later("what was measured"): {
        "inside": later("the thread is in a bore"),
        "by": later("who measured"),
        "major": later("over the crests outside"),
        "major_with": later("what it was measured with"),
        "minor": later("the bore over the crests, inside"),
        "minor_with": later("what it was measured with"),
        "pitch_over_ten": later("from one crest to the tenth after it"),
        "pitch_over_ten_with": later("what it was measured with"),
        "tpi": later("threads in one inch, by leaf"),
        "pitch_diameter": later("over wires or balls"),
        "pitch": later("from one crest to the next"),
        "lead": later("what the mate advances in one turn"),
        "taper": later("change of diameter over length: 1:16"),
        "angle": later("between the flanks, by leaf"),
        "hand": later("right or left"),
        "starts": later("how many, where counted"),
        "worn": later("it is worn"),
        "mate_part": later("the part that the thread fits"),
        "on_bench": later("that part is here to try"),
        "mate_minor": later("the bore of that part over its crests"),
        "mate_major": later("that part over its crests, where it goes inside"),
        "mate_with": later("what that part was measured with"),
    },
    later("which thread"): {
        "designation": later("the thread to be cut: 1/2-13 UNC-2A"),
        "thread_length": later("length of full thread"),
        "fit": later("what decides that it fits: wires, mate, gauge"),
    },
    later("how it is held"): {
        "held": later("chuck, collet, centers or faceplate"),
        "jaws": later("3, 4 or 6"),
        "grip": later("how much is gripped"),
        "clamps": later("clamps on the faceplate"),
        "clamp_circle": later("diameter of the circle they press on"),
        "center": later("center in the tailstock: none, live, dead"),
        "dog": later("how much the dog takes"),
        "steady": later("middle of the steady rest from the chuck face, or auto"),
        "follow_rest": later("a follow rest travels with the tool"),
    },
    later("what it must carry"): {
        "duty_said": later("what the part must do, as somebody says"),
        "duty_by": later("who says so"),
        "people": later("people depend on it"),
        "lifting": later("it lifts something"),
        "brakes": later("it is part of a brake"),
        "load": later("the load it must carry"),
        "pressure": later("the pressure it must hold"),
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
            work = command.add_argument_group(say("what the work is"))
            work.add_argument(
                "--work",
                nargs="+",
                action="append",
                metavar="KEY=VALUE",
                help=say(
                    'a section, from the chuck end on: --work length=14 od="2 1/4" bore=1; again for more'
                ),
            )
    command.add_argument(
        "--left", dest="say_hand", action="store_const", const="left", help=say("the same as --hand left")
    )
    command.add_argument(
        "--like", metavar="JOB", help=say("copy an earlier job; what was measured on it is not taken over")
    )
    command.add_argument("--no-questions", action="store_true", help=say("ask nothing: write what is given"))
    command.add_argument("--resume", metavar="DRAFT", help=say("go on with a draft, by the name of its file"))
    command.add_argument("--fresh", action="store_true", help=say("start over, whatever drafts there are"))
