"""What is wrong with a file, as finished strings: place, sentence, and a caret under the column.

ProblemLine, problem_line
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.errors import Problem


@dataclass(frozen=True)
class ProblemLine:
    """A problem as finished strings; `caret` stands under the column it points at."""

    place: str
    field: str
    message: str
    source_line: str
    caret: str


def problem_line(problem: Problem) -> ProblemLine:
    """One problem, with its caret under a source line that may hold tabs."""
    before = problem.source_line[: problem.location.column - 1]
    blank = "".join(char if char == "\t" else " " for char in before)
    return ProblemLine(
        str(problem.location),
        problem.field,
        problem.message,
        problem.source_line,
        blank + "^" if problem.source_line else "",
    )
