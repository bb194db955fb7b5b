"""The options of the verb `start`: every question has one of its name.

    OPTIONS          name of a question -> what its option says
    start_options    gives them to the command line
"""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Final

from generator.language.say import later, say

OPTIONS: Final[dict[str, str]] = {
    "language": later(
        "of sheets, site and messages: en (American words), en-GB (British words) or de (German)"
    ),
    "shop": later("name of the shop"),
    "units": later("inch or mm: dials and leadscrew of the lathe"),
    "lathe": later("what you call the lathe"),
    "swing": later("largest diameter that turns clear of the bed"),
    "swing_cross": later("largest diameter that turns clear of the cross slide"),
    "between_centers": later("longest work between centers"),
    "bore": later("bore through the spindle"),
    "nose": later("camlock, screwed, bolted or taper key"),
    "speeds": later("speeds on the plate, with commas between"),
    "three_jaw": later("three-jaw chuck: smallest to largest diameter, such as '1/8 to 6'"),
    "four_jaw": later("four-jaw chuck: smallest to largest diameter, such as '1/8 to 6'"),
    "top_speed": later("highest speed marked on the chuck"),
    "leadscrew": later("its threads in one inch, or its pitch"),
    "thread_dial": later("teeth of the gear of the thread dial, or none"),
    "dial_lines": later("lines on its face"),
    "dial_numbered": later("every how many lines a number stands"),
    "gearbox": later("the threads on the plate"),
    "change_gears": later("teeth of the change gears"),
    "cross_division": later("one division of the cross slide's dial"),
    "cross_turn": later("one turn of it"),
    "cross_reads": later("radius or diameter"),
    "compound_division": later("one division of the compound's dial"),
    "compound_turn": later("one turn of it"),
    "compound_reads": later("radius or diameter"),
    "steady": later("steady rest: smallest to largest diameter, such as '1/8 to 6'"),
    "follow_rest": later("follow rest: smallest to largest diameter, such as '1/8 to 6'"),
    "power": later("power of the motor"),
}


def start_options(command: ArgumentParser) -> None:
    """Give the command line an option for every question."""
    command.add_argument(
        "folder", metavar="FOLDER", help=say("where the archive goes; it is made where there is none")
    )
    command.add_argument(
        "--later", action="store_true", help=say("ask nothing: what is not given is left for later")
    )
    command.add_argument(
        "--add", action="store_true", help=say("the folder has other things in it: add to them")
    )
    group = command.add_argument_group(say("the shop and its lathe"))
    for name, said in OPTIONS.items():
        last = name.rpartition("_")[2].upper()
        group.add_argument(f"--{name.replace('_', '-')}", dest=f"say_{name}", metavar=last, help=said)
