"""Making one job, wherever that is done; whoever does it needs the job folders and this program.

    made         make one
    taught_at    what others learn from one
"""

from __future__ import annotations

import logging
from collections.abc import Iterator, Sequence
from contextlib import suppress
from functools import lru_cache
from pathlib import Path

from generator.archive.words import words_of
from generator.errors import JobProblems, SheetError
from generator.job.beside import JobPicture
from generator.job.learned import Lesson
from generator.job.lessons import read_lessons_at
from generator.job.shop import Shop
from generator.language.say import say
from generator.language.spoken import speak
from generator.pictures import BadPicture, shown_picture
from generator.render.packed import unpacked
from generator.site.archive import make_entry, try_shop
from generator.site.orders import Done, Making
from generator.site.program_key import folder_key

log = logging.getLogger(__name__)


class ShopChanged(SheetError):
    """The shop's files are not those with which the build began."""


def made(making: Making, path: Path) -> Done:
    """Make one job's body and pictures; never raises for what its own files hold.

    Raises
    ------
    ShopChanged
        When the shop's files were changed while the site was built.
    """
    speak(making.language)
    shop = _shop(making.shop, making.shop_key, making.language)
    one = make_entry(path, shop, making.address, making.lessons, top=making.top)
    return Done(
        one.entry, one.body, one.figures, dict(_pictures(one.pictures)), one.likeness,
        "\n".join(words_of(unpacked(one.body), one.entry.row)),
    )


def taught_at(making: Making, path: Path) -> tuple[Lesson, ...]:
    """The lessons in the log of the job; none where it cannot be read, and its own page says why.

    Raises
    ------
    ShopChanged
        As `made`.
    """
    speak(making.language)
    shop = _shop(making.shop, making.shop_key, making.language)
    if isinstance(shop, JobProblems):
        return ()
    try:
        return read_lessons_at(path, shop)
    except (OSError, JobProblems):
        return ()
    except Exception:  # a fault of ours in one job must not hide the others
        log.debug("%s", path, exc_info=True)
        return ()


@lru_cache(maxsize=4)
def _shop(folder: Path, key: str, language: str) -> Shop | JobProblems:
    """The shop of a folder; what is wrong with it is in the language that is spoken."""
    shop = try_shop(folder)
    if folder_key(folder) != key:
        raise ShopChanged(
            say("{folder}: was changed while the site was built; build it again", folder=folder)
        )
    return shop


def _pictures(pictures: Sequence[JobPicture]) -> Iterator[tuple[str, bytes]]:
    for picture in pictures:
        with suppress(BadPicture):  # taken away since it was read
            yield picture.name, shown_picture(picture.path).data
