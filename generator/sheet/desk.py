"""The desk on which a sheet is put together: figures and findings are laid down as they are found.

Each section of the sheet (`thread`, `lathe_settings`, `passes`, `relief`, `holding`, `cautions`) is one
module with one public function. It takes the checked job, the lathe and house rules it needs, the plans of
the sections before it, and the desk; it lays its figures and findings on the desk and returns its plan.
"""

from __future__ import annotations

from collections.abc import Mapping

from generator.errors import Location
from generator.job.written import Given
from generator.language.say import say
from generator.sheet.figure import Figure, Kind, Quantity, System, Working
from generator.sheet.lines import Finding, Level


class Desk:
    """Collects the figures and findings of one sheet; a name can be laid down once only."""

    def __init__(self) -> None:
        self.figures: dict[str, Figure] = {}
        self.findings: list[Finding] = []

    def lay(self, figure: Figure) -> Figure:
        """Put a finished figure down and hand it back.

        Raises
        ------
        KeyError
            When a figure of that name lies there already: two sources for one number are a defect.
        """
        if figure.name in self.figures:
            raise KeyError(f"figure {figure.name} was computed twice")
        self.figures[figure.name] = figure
        return figure

    def computed(
        self,
        name: str,
        label: str,
        value: float,
        quantity: Quantity,
        formula: str,
        put: Mapping[str, tuple[float, Quantity]],
        source: str,
        *,
        kind: Kind = Kind.COMPUTED,
        note: str = "",
        system: System | None = None,
        rounds: str = "nearest",
    ) -> float:
        """Lay down a computed figure with its working; return its SI value."""
        self.lay(
            Figure(
                name,
                label,
                value,
                quantity,
                kind,
                source,
                Working(formula, dict(put)),
                note=note,
                system=system,
                rounds=rounds,  # type: ignore[arg-type]
            )
        )
        return value

    def unknown(self, name: str, label: str, quantity: Quantity, why: str) -> None:
        """Lay down a figure that cannot be had, with the reason."""
        self.lay(Figure(name, label, None, quantity, Kind.UNKNOWN, why, note=why))

    def put_first(self, *names: str) -> None:
        """Let these figures stand before all others of their section, in this order; those that lie here.

        A section lists its figures as they were laid down, each after what it is worked out from; this is for
        what is wanted first at the lathe.
        """
        own = names[0].partition(".")[0] + "."
        mine = [name for name in self.figures if name.startswith(own)]
        first = [name for name in names if name in self.figures]
        order = iter([*first, *(name for name in mine if name not in first)])
        self.figures = {
            shown: self.figures[shown]
            for shown in [next(order) if name.startswith(own) else name for name in self.figures]
        }

    def find(self, id: str, level: Level, text: str, where: Location | None = None, asks: str = "") -> None:
        """Lay down a finding."""
        self.findings.append(Finding(id, level, text, where, asks))

    def given(self, name: str, label: str, given: Given, quantity: Quantity, *, note: str = "") -> float:
        """Lay down a value as its author wrote it in a job or shop file; return its SI value."""
        self.lay(
            Figure(
                name,
                label,
                given.si,
                quantity,
                Kind(given.kind),
                given.origin,
                text=given.with_unit,
                note=note,
                where=given.where,
            )
        )
        return given.si

    def chosen(
        self,
        name: str,
        label: str,
        said: Given | None,
        default: float,
        quantity: Quantity,
        source: str,
        *,
        system: System | None = None,
    ) -> float:
        """Lay down the shop's own value where it has one, else the default of common practice, as assumed."""
        kind, value, text = (Kind.SHOP, said.si, said.with_unit) if said else (Kind.ASSUMED, default, "")
        self.lay(
            Figure(
                name,
                label,
                value,
                quantity,
                kind,
                say("the shop's own files") if said else source,
                text=text,
                system=system,
                where=said.where if said else None,
            )
        )
        return value
