"""One file of the archive: its text, its tree with the place of everything, what is wrong with it.

YAML is taken event by event: every value stays text with its place, and what YAML offers beyond plain
blocks, lists and values (aliases, anchors, tags, several documents, repeated keys) is refused by name.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final, TypeVar

import yaml
from pydantic import BaseModel, ValidationError

from generator.errors import JobProblems, Location, Problem, why_not
from generator.job.bare_units import say_units
from generator.job.log import Entry
from generator.job.log_names import LogNames, unknown_in
from generator.job.names import unknown_names
from generator.job.shop import Shop
from generator.job.wording import Hole, places_of, problems_of
from generator.job.written import Block, Listing, Scalar
from generator.language.say import later, say
from generator.units import quoted

LARGEST_FILE: Final = 1_000_000  # bytes; a job file of the demo archive has about 1500
DEEPEST: Final = 12              # levels; the models need 6
NO_KEYS: Final = later("is not a list of keys and values: begin with a line such as job: 2026-031")
EMPTY: Final = later("is empty: begin with a line such as job: 2026-031")
NO_ENTRIES: Final = later("is not a list of entries: begin each with a dash, such as - at: 2026-03-04 14:20")
TOO_DEEP: Final = later("is nested deeper than 12 levels: no file of this archive is")  # `DEEPEST`
SECOND_DOCUMENT: Final = later("a second file starts here, after ---: keep one job to a file")
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
Node = Block | Listing | Scalar | Hole
Model = TypeVar("Model", bound=BaseModel)
# What the YAML library says, whether the place is where the faulty entry was opened, and what to say instead.
_SYNTAX: Final = (
    (
        "unknown escape", True,
        later("a \\ in double quotes has a meaning of its own: put the text in single quotes"),
    ),
    (
        "quoted scalar", True,
        later("a quote is opened here and not closed: put a closing quote after the text"),
    ),
    (
        "flow mapping", True,
        later("a { is opened here and not closed, or a comma is missing: write {key: value, key: value}"),
    ),
    (
        "flow sequence", True,
        later("a [ is opened here and not closed, or a comma is missing: write [value, value]"),
    ),
    ("flow level", False, TOO_DEEP),
    (
        "alias|anchor|tag|directive|cannot start any token", True,
        later("a value cannot begin with this sign: put it in quotes"),
    ),
    (
        "simple key", True,
        later("a colon is missing after the key, or the space after the colon: write key: value"),
    ),
    (
        "mapping values", False,
        later(
            "a colon too many in this line, none in the line above, or the wrong indent: put a text with a "
            "colon in quotes, and begin the keys of one block in one column"
        ),
    ),
    (
        "block mapping|block collection|indentation", False,
        later("the indent does not fit the lines above: keys of one block begin in one column"),
    ),
    (
        "node content", False,
        later("a value is missing here, or a bracket too many: write key: value"),
    ),
)
_RESOLVER: Any = yaml.resolver.Resolver()
_PLAIN_NUMBER = re.compile(r"(0|[1-9][0-9]*)(\.[0-9]+)?")
_SURPRISES: Final = {
    "bool": later("yes or no"),
    "null": later("nothing"),
    "merge": later("a merge"),
    "value": later("a default value"),
}


@dataclass(frozen=True)
class LogEntry:
    """One entry of a log with its place; `where` gives the place of a key in it."""

    entry: Entry
    places: Mapping[str, Location]

    def where(self, field: str = "") -> Location:
        """The place of "measured.over_wires", or of the nearest block around it that is written."""
        while field and field not in self.places:
            field = field.rpartition(".")[0]
        return self.places[field]


class Source:
    """One file: its text, its tree, and the problems found so far."""

    def __init__(self, path: Path, data: bytes | None = None, *, blank: bool = False) -> None:
        self.path = path
        self.problems: list[Problem] = []
        self.text = self._decoded(data, blank)
        self.lines = self.text.splitlines()
        self.tree = self._tree()

    def checked(self, model: type[Model]) -> Model:
        """The model, or JobProblems with all that is wrong with the file."""
        tree = self.block()
        say_units(tree)
        checked: Model | None = None
        try:
            checked = model.model_validate(tree)
        except ValidationError as error:
            found = problems_of(error, tree, model, places_of(tree))
            self.problems += [self._with_line(one) for one in found]
        if self.problems or checked is None:
            raise JobProblems(self.problems)
        return checked

    def entry(self, node: Block | Listing | Scalar, names: LogNames | None = None) -> LogEntry | None:
        """One entry of a log, what it names that there is not among the problems; None where it is none."""
        if isinstance(node, Scalar) and not node.strip():
            self._refuse(node.where, "", say("is an empty entry: write what happened, or take the dash out"))
            return None
        places = {"": node.where} if isinstance(node, Scalar) else places_of(node)
        try:
            entry = LogEntry(Entry.model_validate(node), places)
        except ValidationError as error:
            found = problems_of(error, node, Entry, places)
            self.problems += [self._with_line(one) for one in found]
            return None
        for field, message in unknown_in(entry.entry, names) if names is not None else ():
            self._refuse(entry.where(field), field, message)
        return entry

    def unknown_names(self, shop: Shop | None, problems: Sequence[Problem]) -> list[Problem]:
        """Names the shop does not have, of a file that cannot be read for other reasons."""
        if shop is None or not isinstance(self.tree, Block):
            return []
        named = {field: entry for field, entry in _entries(self.tree) if isinstance(entry, Scalar)}
        known_bad = {problem.field for problem in problems}
        places = places_of(self.tree)
        return [
            self.problem(places[field], field, message)
            for field, message in unknown_names(named, shop)
            if field not in known_bad
        ]

    def block(self) -> Block:
        """The top level of the file, which must be a block of keys."""
        if isinstance(self.tree, Block):
            return self.tree
        if not self.problems:
            empty = isinstance(self.tree, Scalar) and not self.tree
            message = EMPTY if empty else NO_KEYS
            self.problems.append(self.problem(Location(self.path), "", message))
        raise JobProblems(self.problems)

    def problem(self, where: Location, field: str, message: str) -> Problem:
        """A problem with its source line."""
        return self._with_line(Problem(where, field, str(message)))

    def _with_line(self, problem: Problem) -> Problem:
        at = problem.location.line
        return replace(problem, source_line=self.lines[at - 1] if 0 < at <= len(self.lines) else "")

    def _stop(self, where: Location, message: str) -> JobProblems:
        return JobProblems([*self.problems, self.problem(where, "", message)])

    def _decoded(self, data: bytes | None, blank: bool) -> str:
        self.lines = []
        start = Location(self.path)
        try:
            if data is None:
                with self.path.open("rb") as file:
                    data = file.read(LARGEST_FILE + 1)
        except OSError as error:
            raise self._stop(start, say("cannot be read: {reason}", reason=why_not(error))) from None
        if len(data) > LARGEST_FILE:
            raise self._stop(
                start,
                say(
                    "is larger than {largest_file} kB: no file of this archive is",
                    largest_file=LARGEST_FILE // 1000,
                ),
            )
        if data.startswith((b"\xff\xfe", b"\xfe\xff")):
            raise self._stop(start, say("is saved as UTF-16: choose UTF-8 as its encoding when you save it"))
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            before = data[: error.start].decode("utf-8-sig", "replace")
            where = Location(self.path, before.count("\n") + 1, len(before) - before.rfind("\n"))
            message = say(
                "byte {byte} is not UTF-8: choose UTF-8 as the encoding when you save the file",
                byte=f"0x{data[error.start]:02x}",
            )
            raise self._stop(where, message) from None
        self.lines = text.splitlines()
        if match := yaml.reader.Reader.NON_PRINTABLE.search(text):
            before = text[: match.start()]
            where = Location(self.path, before.count("\n") + 1, len(before) - before.rfind("\n"))
            sign = f"U+{ord(match[0]):04X}"
            raise self._stop(
                where, say("an invisible character ({sign}) stands here: take it out", sign=sign)
            )
        if not text.strip() and not blank:
            raise self._stop(start, EMPTY)
        return text

    # -- YAML events to nodes ------------------------------------------------------------------------

    def _tree(self) -> Node:
        events = self._events()
        tree: Node | None = None
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent) and tree is not None:
                raise self._stop(self._at(event.start_mark), SECOND_DOCUMENT)
            if isinstance(event, yaml.NodeEvent):
                tree = self._node(event, events, 1, "")
        return Scalar("", Location(self.path)) if tree is None else tree

    def _events(self) -> Iterator[Any]:
        loader = _LOADER(self.text)
        try:
            while loader.check_event():
                yield loader.get_event()
        except yaml.YAMLError as error:
            raise self._stop(*self._syntax(error)) from None
        finally:
            loader.dispose()

    def _node(self, event: Any, events: Iterator[Any], depth: int, name: str) -> Node:
        where = self._at(event.start_mark)
        if depth > DEEPEST:
            raise self._stop(where, TOO_DEEP)
        if isinstance(event, yaml.AliasEvent):
            self._refuse(
                where, name, say("*{anchor} repeats another entry: write the value out", anchor=event.anchor)
            )
            return Hole()
        if event.anchor is not None:
            self._refuse(
                where,
                name,
                say("&{anchor} marks an entry to be repeated: take the mark out", anchor=event.anchor),
            )
        if event.tag is not None:
            mark = event.tag.replace("tag:yaml.org,2002:", "!!", 1)
            self._refuse(
                where, name, say("{mark} is a type mark: take it out, the key says what it is", mark=mark)
            )
        if isinstance(event, yaml.ScalarEvent):
            plain, end = not event.style, self._at(event.end_mark)
            if plain and event.value:
                self._check_remark(where, name, event.value, end)
            surprise = _surprise(event.value) if plain and event.tag is None else ""
            return Scalar(event.value, where, surprise=surprise, quoted=not plain)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._listing(where, events, depth, name)
        return self._block(where, events, depth, name)

    def _check_remark(self, where: Location, name: str, text: str, end: Location) -> None:
        """`title: Sleeve #2` loses its end, `designation: #10-32 UNF-2A` all of it: neither is meant."""
        rest = "".join(self.lines[end.line - 1 : end.line])[end.column - 1 :]
        if sign := re.match(r" +(#[0-9]\S*)", rest):
            sentence = say("nothing is read, for {sign} begins a remark: put it all in quotes", sign=sign[1])
            if text:
                sentence = say(
                    "{quoted} is all that is read, for {sign} begins a remark: put it all in quotes",
                    quoted=quoted(text),
                    sign=sign[1],
                )
            self._refuse(where, name, sentence)

    def _listing(self, where: Location, events: Iterator[Any], depth: int, name: str) -> Listing:
        listing = Listing(where)
        for event in events:
            if isinstance(event, yaml.SequenceEndEvent):
                break
            listing.append(self._node(event, events, depth + 1, _dotted(name, str(len(listing)))))
        return listing

    def _block(self, where: Location, events: Iterator[Any], depth: int, name: str) -> Block:
        block = Block(where)
        for event in events:
            if isinstance(event, yaml.MappingEndEvent):
                break
            place = self._at(event.start_mark)
            key = self._node(event, events, depth + 1, name)
            if not isinstance(key, Scalar):
                if not isinstance(key, Hole):
                    message = say("a list or block stands where a key belongs: write a word and a colon")
                    self._refuse(place, name, message)
                self._node(next(events), events, depth + 1, name)
                continue
            value = self._node(next(events), events, depth + 1, _dotted(name, key))
            if isinstance(value, Scalar) and not value and not value.quoted:
                colon = Location(self.path, place.line, place.column + len(key) + 1)
                self._check_remark(place, _dotted(name, key), "", colon)
            if key in block:
                first = block.keys_where[key].line
                sentence = say("is written twice, on this line: keep one")
                if first != place.line:
                    sentence = say(
                        "is written twice, on line {first} and on line {line}: keep one",
                        first=first,
                        line=place.line,
                    )
                self._refuse(place, _dotted(name, key), sentence)
                continue
            block[str(key)] = value
            block.keys_where[str(key)] = place
        return block

    def _refuse(self, where: Location, field: str, message: str) -> None:
        self.problems.append(self.problem(where, field, message))

    def _at(self, mark: Any) -> Location:
        return Location(self.path, mark.line + 1, mark.column + 1)

    def _syntax(self, error: yaml.YAMLError) -> tuple[Location, str]:
        """Where the text stops being YAML, in words; both loaders of the library come to the same."""
        mark = getattr(error, "problem_mark", None)
        opened = getattr(error, "context_mark", None) or mark
        said = f"{getattr(error, 'context', '')}: {getattr(error, 'problem', '')}"
        where = self._at(mark) if mark else Location(self.path)
        line = "".join(self.lines[where.line - 1 : where.line])
        if re.match(r" *\t", line):
            return where, say("a tab stands here: indent with spaces")
        if "flow" not in said and line[where.column - 1 :].startswith(("}", "]")):
            return where, say("a bracket is closed here that was not opened: take it out")
        for pattern, at_opening, sentence in _SYNTAX:
            if re.search(pattern, said):
                return (self._at(opened) if at_opening and opened else where), str(sentence)
        return where, say(
            "this line does not fit the lines around it: check indents, colons, quotes and brackets"
        )


def _entries(tree: Block) -> Iterator[tuple[str, object]]:
    """The entries of a job as written that may name something of the shop, by field."""
    yield from ((key, tree[key]) for key in ("lathe", "material") if key in tree)
    operations = tree.get("operations")
    for number, operation in enumerate(operations if isinstance(operations, list) else ()):
        for name, given in operation.items() if isinstance(operation, dict) else ():
            if isinstance(given, dict) and "tool" in given:
                yield f"operations.{number}.{name}.tool", given["tool"]


def _dotted(name: str, key: str) -> str:
    return f"{name}.{key}" if name else str(key)


def _surprise(text: str) -> str:
    """What YAML makes of unquoted text, where that is not the text itself."""
    tag = str(_RESOLVER.resolve(yaml.ScalarNode, text, (True, False))).rpartition(":")[2]
    if not text or tag in ("str", "timestamp") or _PLAIN_NUMBER.fullmatch(text):
        return ""
    if tag in _SURPRISES:
        return str(_SURPRISES[tag])
    if ":" in text:
        return say("a time")
    if tag == "int" and re.fullmatch(r"[-+]?0[0-7_]+", text):
        return say("the number {number}", number=int(text.replace("_", ""), 8))
    return say("a number")
