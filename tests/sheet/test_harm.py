"""Findings stand in order of harm, and every finding of the package has its place in that order."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.errors import Location
from generator.sheet.harm import HARM, Harm, harm_rank, in_order_of_harm
from generator.sheet.head import FACE_WORDS
from generator.sheet.lines import Finding
from generator.sheet.obstacles import (
    CARRIAGE,
    COMPOUND,
    FOLLOW_REST,
    HEADSTOCK,
    QUILL,
    STEADY,
    TAILSTOCK,
    TOOL,
    TURNS_AT_BED,
)

PACKAGE = Path(__file__).parents[2] / "generator"
MAKERS = {"find", "Contradiction", "Finding", "Rule"}  # their first word is the id of a finding
# Ids that are put together from what stands on the lathe and what travels, or from the name of a figure.
COMPOSED = {
    "sheet/reach_findings.py": r"(carriage|compound|tool|follow-rest)-meets-[a-z-]+",
    "sheet/relief.py": r"(thread|relief)-wall",
}
HANDED_ON = {"found.id", "rule.id", "_id(one)", "id"}  # the id of a finding that is made elsewhere


def name_of(call: ast.Call) -> str:
    """`find` for `desk.find(...)`."""
    return call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")


def written(argument: ast.expr) -> Iterator[str]:
    """Each id that an expression may be, as a regular expression."""
    if isinstance(argument, ast.Constant) and isinstance(argument.value, str):
        yield re.escape(argument.value)
    elif isinstance(argument, ast.JoinedStr):
        parts = (re.escape(str(one.value)) if isinstance(one, ast.Constant) else "[a-z0-9-]+"
                 for one in argument.values)
        yield "".join(parts)
    elif isinstance(argument, ast.IfExp):
        yield from written(argument.body)
        yield from written(argument.orelse)
    elif ast.unparse(argument) not in HANDED_ON:
        raise AssertionError(f"write the id of a finding as text, not as {ast.unparse(argument)}")


def takers_of_id(tree: ast.Module) -> dict[str, int]:
    """Functions of a module that are handed the id of a finding: name, place of the parameter."""
    found = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            names = [one.arg for one in node.args.args]
            if "id" in names and node.name not in MAKERS:
                found[node.name] = names.index("id")
    return found


def ids_in(path: Path) -> Iterator[str]:
    """Every id of a finding that a module writes, as regular expressions."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    takers = takers_of_id(tree)
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = name_of(node)
        place = 0 if name in MAKERS else takers.get(name)
        if place is None or (name == "find" and isinstance(node.func, ast.Name)):
            continue
        argument = next((one.value for one in node.keywords if one.arg == "id"), None)
        if argument is None and place < len(node.args):
            argument = node.args[place]
        if argument is not None:
            yield from written(argument)


def all_ids() -> dict[str, str]:
    """Every id of the package with the module that writes it."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        module = path.relative_to(PACKAGE).as_posix()
        if module.split("/")[0] in ("sheet", "job"):
            found.update(dict.fromkeys(ids_in(path), module))
        if module in COMPOSED:
            found[COMPOSED[module]] = module
    return found


def test_every_finding_has_a_class_of_harm() -> None:
    """A finding that the table does not know would stand anywhere."""
    missing = {
        id: module for id, module in all_ids().items()
        if not any(re.fullmatch(id, known) or re.fullmatch(id, f"{known}-1") for known in HARM)
    }
    assert not missing


def test_no_class_for_findings_that_are_gone() -> None:
    """What no module finds any more stands in no table."""
    ids = list(all_ids())
    stale = [
        known for known in HARM
        if not any(re.fullmatch(id, known) or re.fullmatch(id, f"{known}-1") for id in ids)
    ]
    assert not stale


def test_no_finding_has_two_classes() -> None:
    """One finding, one class: the table says each id once."""
    source = ast.parse((PACKAGE / "sheet/harm.py").read_text(encoding="utf-8"))
    table = next(node for node in ast.walk(source) if isinstance(node, ast.Dict))
    words = (one.value for one in ast.walk(table) if isinstance(one, ast.Constant))
    said = [word for word in words if isinstance(word, str)]
    assert len(said) > 200
    assert sorted(said) == sorted(set(said)) == sorted(HARM)


@pytest.mark.parametrize(
    ("worse", "less"),
    [
        ("chuck-speed", "tool-meets-jaws"),       # thrown jaws before a crash
        ("tool-meets-jaws", "thread-too-long"),   # a crash before a scrapped part
        ("deflection", "not-checked"),            # a scrapped part before time
        ("hoist", "deflection"),
    ],
)
def test_order(worse: str, less: str) -> None:
    """People, then lathe and tools, then the part, then time: common practice, no source."""
    assert harm_rank(Finding(worse, "check", "")) < harm_rank(Finding(less, "check", ""))


def test_remarks_are_numbered() -> None:
    """A number behind an id does not change what it is."""
    assert harm_rank(Finding("limits-remark-12", "note", "")) is Harm.TIME


def test_sheet_order() -> None:
    """Level first, then harm, then the line of the file; what points nowhere stands last of its kind."""
    line = [Location(Path("job.yml"), number) for number in (3, 9)]
    found = [
        Finding("not-checked", "stop", ""), Finding("stick-out", "note", ""),
        Finding("grip-short", "check", ""), Finding("grip-short", "check", "", line[1]),
        Finding("stick-out", "check", "", line[0]), Finding("deflection", "check", "", line[0]),
    ]
    assert [(one.id, one.where) for one in in_order_of_harm(found)] == [
        ("not-checked", None), ("stick-out", line[0]), ("grip-short", line[1]), ("grip-short", None),
        ("deflection", line[0]), ("stick-out", None),
    ]


def test_whatever_meets_whatever_has_a_class() -> None:
    """Each part that travels, against each obstacle at its own height."""
    at_bed = {HEADSTOCK, STEADY, TAILSTOCK, *TURNS_AT_BED.values()}
    at_center = {STEADY, QUILL, TAILSTOCK, *FACE_WORDS.values()}
    words = {TOOL: "tool", FOLLOW_REST: "follow-rest", STEADY: "steady"}
    met = [(CARRIAGE, one) for one in at_bed]
    met += [(part, one) for part in (TOOL, COMPOUND, FOLLOW_REST) for one in at_center]
    assert {f"{words.get(part, part)}-meets-{words.get(one, one)}" for part, one in met} - set(HARM) == set()
