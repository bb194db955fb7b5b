"""What follows from the answers of `new` at once: threads it could be, limits, what the sheet finds.

    Follows     lines for a terminal, by the section of questions that was finished
"""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from typing import Final

from generator.commands import thread_line
from generator.errors import JobProblems, SheetError
from generator.identify_command import identification_lines, worth_showing
from generator.intake.job_file import probe
from generator.intake.job_questions import HELD, MEASURED, THREAD
from generator.job.found import Found
from generator.job.reading import read_job
from generator.job.shop import Shop
from generator.job.writing import file_text
from generator.job.written import Block, System
from generator.language.say import say
from generator.render.formats import written
from generator.sheet.found_words import near_miss_sentences, twin_sentences
from generator.sheet.model import Sheet
from generator.sheet.thread_json import thread_record
from generator.site.archive import make_bare_sheet
from generator.terminal import LEVELS
from generator.threads.identify.search import Identification, identify

WIDTH: Final = 110
NOT_ASKED_YET: Final = ("duty-unknown",)  # when it is said how the work is held
SHOWN: Final = (
    "thread.blank", "thread.wire.size", "thread.over_wires.max", "thread.over_wires.min", "holding.stick_out",
    "holding.steady.position", "spindle.step",
)


class Follows:
    """What follows, for one job of a shop; `path` is where its file will stand."""

    def __init__(self, path: Path, shop: Shop) -> None:
        self.path, self._shop = path, shop
        self._said: set[str] = set()
        self.summary = ""

    def lines(self, section: str, answers: Mapping[str, str], tree: Block) -> Iterator[str]:
        """What follows when a section of questions is finished."""
        if section == MEASURED and (found := self.identified(tree)) is not None:
            yield ""
            yield from identification_lines(*found)
        elif section == THREAD and answers.get("designation"):
            try:
                yield from _wrapped(thread_line(thread_record(answers["designation"])))
            except SheetError as error:
                yield from _wrapped(str(error))
        elif section == HELD:
            yield from self.of_sheet(tree, NOT_ASKED_YET)

    def identified(self, tree: Block) -> tuple[Identification, System] | None:
        """The threads that were measured, where enough was; and the unit to show sizes in."""
        if "found" not in tree:
            return None
        try:
            job = read_job(self.path, data=file_text(probe(tree)).encode()).job
        except JobProblems:
            return None
        assert isinstance(job.found, Found)
        return identify(job.found.measured(), "mm" if job.units == "mm" else "in"), job.units or "inch"

    def candidates(self, tree: Block) -> tuple[str, ...]:
        """The threads as they are numbered in the list that is shown."""
        found = self.identified(tree)
        return tuple(one.text for one in worth_showing(found[0])) if found else ()

    def alternatives(self, tree: Block, designation: str) -> list[str]:
        """Remarks about what else the thread could be, for the file."""
        found = self.identified(tree)
        if found is None:
            return []
        identification, system = found
        fitting = [one.text for one in identification.fitting][:8]
        others = [one for one in fitting if one != designation]
        if designation and designation in fitting:
            also = (
                say("they also allow {others}", others=", ".join(others))
                if others
                else say("no other standard thread fits them")
            )
            said = [say("{designation} was chosen from these; {also}.", designation=designation, also=also)]
        else:
            said = [
                say("These allow {threads}.", threads=", ".join(fitting)) if fitting
                else say("These allow no standard thread.")
            ]
        sentences = twin_sentences(identification.twins, system)
        return said + sentences[:3] + near_miss_sentences(identification.near_misses, system)[:2]

    def of_sheet(self, tree: Block, without: Collection[str] = ()) -> Iterator[str]:
        """What the sheet of the job as it is would say, without what was said before and some findings."""
        try:
            sheet = make_bare_sheet(self.path, self._shop, file_text(probe(tree)).encode())
        except JobProblems as error:
            for problem in error.problems:
                yield from _wrapped(f"{problem.field}: {problem.message}")
            return
        self.summary = _summary(sheet)
        yield from self._figures(sheet)
        yield from self._findings(sheet, without)

    def _figures(self, sheet: Sheet) -> Iterator[str]:
        for name in SHOWN:
            if (figure := sheet.figures.get(name)) is not None and figure.value is not None:
                line = f"    {figure.label}: {written(figure, sheet.system).text}"
                if line not in self._said:
                    yield line
                self._said.add(line)

    def _findings(self, sheet: Sheet, without: Collection[str]) -> Iterator[str]:
        for level in ("stop", "check"):
            for finding in sheet.findings:
                new = finding.text not in self._said and finding.id not in without
                if finding.level == level and new:
                    self._said.add(finding.text)
                    yield from _wrapped(f"{LEVELS[level]}: {finding.text}")


def _summary(sheet: Sheet) -> str:
    """How the sheet as a whole stands."""
    counts = Counter(finding.level for finding in sheet.findings)
    told = say(
        "{stop} stop, {check} check, {note} note",
        stop=counts["stop"],
        check=counts["check"],
        note=counts["note"],
    )
    if sheet.ready:
        return say("The sheet is ready to run: {told}.", told=told)
    return say("The sheet is NOT READY TO RUN: {told}.", told=told)


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent="    ", subsequent_indent="        ")
