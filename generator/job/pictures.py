"""The pictures that a job names, as its sheet shows them, and what is wrong with the others.

A picture that cannot be shown never costs the sheet: it is left out, and a note says why.
"""

from __future__ import annotations

from generator.job.beside import PICTURES_NOT_TAKEN, JobPicture
from generator.job.contradiction import Contradiction
from generator.job.reading import ReadJob
from generator.language.say import say
from generator.pictures import BadPicture, shown_picture


def job_pictures(read: ReadJob) -> tuple[tuple[JobPicture, ...], list[Contradiction]]:
    """The pictures that can be shown, in the order of the file, and a note on each of the others."""
    pictures: list[JobPicture] = []
    notes: list[Contradiction] = []
    for place, photo in enumerate(read.job.pictures):
        path, where = read.path.parent / photo.file, read.where(f"photos.{place}.file")
        said = say("The picture {file}", file=photo.file)
        kind = path.suffix[1:].lower()
        if kind in PICTURES_NOT_TAKEN:
            text = say(
                "{said} is left out: {kind} is not taken; save it as JPEG, or a sketch as PNG.",
                said=said,
                kind=kind.upper(),
            )
            notes.append(Contradiction("picture-kind", "note", text, where))
            continue
        try:
            shown = shown_picture(path)
        except BadPicture as error:
            text = say("{said} {error}; the sheet leaves it out.", said=said, error=error)
            notes.append(
                Contradiction("picture-unread" if path.exists() else "picture-missing", "note", text, where)
            )
            continue
        if not shown.is_called(photo.file):
            text = say(
                "{said} is shown, but it is a {kind} picture: its name should end so.",
                said=said,
                kind=shown.kind,
            )
            notes.append(Contradiction("picture-name", "note", text, where))
        pictures.append(
            JobPicture(path, shown.name_beside(photo.file), photo.caption or "", shown.width, shown.height)
        )
    return tuple(pictures), notes
