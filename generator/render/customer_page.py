"""What goes to the customer, as finished strings: who, what was asked and agreed, the thread, how to use it.

How the work is held, speeds, cuts, time and cost are the shop's own and stay off it. The inspection record
stands on it as on the sheet.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.language.say import later
from generator.render.formats import written
from generator.sheet.lines import Caution
from generator.sheet.model import Sheet, TitleField

FROM_TITLE_BLOCK = (
    later("Legal owner"),
    later("Customer"),
    later("Received"),
    later("Drawing"),
    later("Revision"),
    later("Date of issue"),
)
FIGURES = (  # of the part, as the customer spoke of it
    (later("Asked for"), ("job.asked",)),
    (later("Agreed instead"), ("job.agreed",)),
    (later("What the part does"), ("job.duty",)),
    (later("Material"), ("job.material",)),
    (later("Thread"), ("thread.designation", "thread.hand")),
    (later("Full thread length"), ("thread.length",)),
)
NOT_SAID = later("not known")


@dataclass(frozen=True)
class CustomerPage:
    """The fields of its head, lines of words, and the cautions for use."""

    fields: tuple[TitleField, ...]
    lines: tuple[TitleField, ...]
    cautions: tuple[Caution, ...]


def customer_page(sheet: Sheet) -> CustomerPage:
    """What the customer is told about this job."""
    fields = {str(field.label): field for field in sheet.title_block}
    return CustomerPage(
        tuple(fields[label] for label in map(str, FROM_TITLE_BLOCK) if label in fields),
        tuple(TitleField(str(label), words) for label, names in FIGURES if (words := _words(sheet, names))),
        sheet.for_use,
    )


def _words(sheet: Sheet, names: tuple[str, ...]) -> str:
    """The figures of these names in words, one after the other; empty where the sheet has none of them."""
    figures = [sheet.figures[name] for name in names if name in sheet.figures]
    shown = [written(figure, sheet.system) for figure in figures if figure.value is not None]
    if figures and not shown:
        return str(NOT_SAID)
    return ", ".join(one.text for one in shown)
