"""The list of keys that the site shows, against the models themselves."""

from __future__ import annotations

from generator.job.keys import ANY_CUT, ANY_OPERATION, Key, file_keys
from generator.job.lathe import Lathe
from generator.job.log import Entry
from generator.job.operations import Cut, Operation, Settings

LISTS = {one.title.partition(":")[0]: {key.name: key for key in one.keys} for one in file_keys()}


def test_every_key_of_a_lathe_stands_there() -> None:
    assert {name for name in LISTS["A lathe"] if ": " not in name} == set(Lathe.model_fields)


def test_every_key_of_a_log_stands_there() -> None:
    named = {field.alias or name for name, field in Entry.model_fields.items()}
    assert {name for name in LISTS["A log"] if ": " not in name} == named
    assert LISTS["A log"]["at"].wanted == "a date, or a date and a time, such as 2026-03-04 14:20"


def test_every_operation_stands_there() -> None:
    listed = {name.split(": ")[1] for name in LISTS["A job"] if name.startswith("operations: ")}
    assert {name for name in listed if not name.startswith("(")} == set(Operation.model_fields)


def test_what_several_operations_say_stands_once() -> None:
    for shared, fields in ((ANY_OPERATION, Settings.model_fields), (ANY_CUT, Cut.model_fields)):
        for name in fields:
            if name not in Settings.model_fields or shared == ANY_OPERATION:
                assert f"{shared}: {name}" in LISTS["A job"]
    assert "operations: turn: feed" not in LISTS["A job"]
    assert "operations: turn: band" in LISTS["A job"]
    assert "operations: thread: length" in LISTS["A job"]


def test_each_says_what_it_means_and_what_to_write() -> None:
    assert all(key.meaning and key.wanted for keys in LISTS.values() for key in keys.values())


def test_some_in_full() -> None:
    assert LISTS["A lathe"]["change_gears: most_pairs"].wanted == "1 or 2 or 3"
    assert LISTS["A job"]["mate"].wanted == "a block, or unknown"
    assert LISTS["A lathe"]["spindle: speeds: torque"] == Key(
        "spindle: speeds: torque", "Torque at this step, where the lathe's plate gives one.",
        "a torque, such as 40 N m or 30 lbf ft", False, example="40 N m",
    )
