"""Names in a job that point into the shop's files: lathe, materials, tools of its operations."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.job.shop import Shop
from generator.language.say import say
from generator.units import nearest, quoted

UNKNOWN = "unknown"


def unknown_names(named: Mapping[str, str], shop: Shop) -> Iterator[tuple[str, str]]:
    """Field and sentence for each name the shop does not have.

    Parameters
    ----------
    named : dotted field ("lathe", "material", "operations.2.thread.tool") to the name written there
    """
    threading = [tool.name for tool in shop.tools.threading]
    cutting = [tool.name for tool in shop.tools.cutting]
    for field, name in named.items():
        if field == "lathe" and name not in shop.lathes:
            yield field, _not_listed(name, say("a lathe"), list(shop.lathes), say("a file in lathes"))
        elif field in ("material", "mate.material") and name not in (UNKNOWN, *shop.materials):
            message = _not_listed(
                name, say("a material"), list(shop.materials), say("an entry in materials.yml")
            )
            yield field, say("{message}, or write {unknown}", message=message, unknown=UNKNOWN)
        elif field.endswith(".thread.tool") and name not in threading:
            yield field, _not_listed(name, say("a threading tool"), threading, say("an entry in tools.yml"))
        elif field.endswith(".tool") and not field.endswith(".thread.tool") and name not in cutting:
            yield (
                field,
                _not_listed(name, say("a cutting tool"), cutting, say("an entry under cutting in tools.yml")),
            )


def _not_listed(name: str, what: str, known: list[str], place: str) -> str:
    near = nearest(name, known)
    others = (
        say("the shop has {known}; otherwise", known=", ".join(known))
        if known
        else say("so far there is none;")
    )
    hint = say("did you mean {near}? Otherwise", near=near) if near else others
    return say(
        "{quoted} is not {what} of this shop: {hint} give it {place}",
        quoted=quoted(name),
        what=what,
        hint=hint,
        place=place,
    )
