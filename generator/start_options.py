"""The options of the verb `start`: every question has one of its name.

    OPTIONS          name of a question -> what its option says
    start_options    gives them to the command line
"""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Final

_FROM_TO: Final = "smallest to largest diameter, such as '1/8 to 6'"
OPTIONS: Final[dict[str, str]] = {
    "shop": "name of the shop", "units": "inch or mm: dials and leadscrew of the lathe",
    "lathe": "what you call the lathe", "swing": "largest diameter that turns clear of the bed",
    "swing_cross": "largest diameter that turns clear of the cross slide",
    "between_centers": "longest work between centers", "bore": "bore through the spindle",
    "nose": "camlock, screwed, bolted or taper key", "speeds": "speeds on the plate, with commas between",
    "three_jaw": f"three-jaw chuck: {_FROM_TO}", "four_jaw": f"four-jaw chuck: {_FROM_TO}",
    "top_speed": "highest speed marked on the chuck", "leadscrew": "its threads in one inch, or its pitch",
    "thread_dial": "teeth of the gear of the thread dial, or none", "dial_lines": "lines on its face",
    "dial_numbered": "every how many lines a number stands", "gearbox": "the threads on the plate",
    "change_gears": "teeth of the change gears", "cross_division": "one division of the cross slide's dial",
    "cross_turn": "one turn of it", "cross_reads": "radius or diameter",
    "compound_division": "one division of the compound's dial", "compound_turn": "one turn of it",
    "compound_reads": "radius or diameter", "steady": f"steady rest: {_FROM_TO}",
    "follow_rest": f"follow rest: {_FROM_TO}", "power": "power of the motor",
}


def start_options(command: ArgumentParser) -> None:
    """Give the command line an option for every question."""
    command.add_argument(
        "folder", metavar="FOLDER", help="where the archive goes; it is made where there is none"
    )
    command.add_argument(
        "--later", action="store_true", help="ask nothing: what is not given is left for later"
    )
    command.add_argument(
        "--add", action="store_true", help="the folder has other things in it: add to them"
    )
    group = command.add_argument_group("the shop and its lathe")
    for name, said in OPTIONS.items():
        last = name.rpartition("_")[2].upper()
        group.add_argument(f"--{name.replace('_', '-')}", dest=f"say_{name}", metavar=last, help=said)
