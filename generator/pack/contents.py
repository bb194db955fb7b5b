"""What a handed-over setup consists of, by the names in its zip; the format is open and documented here.

    Manifest       `manifest.json`: the format, the job, what was left out, every other file with its SHA-256
    kind_of        what a name in the zip stands for; a name of no kind has no business there

```
READ ME.txt            in plain words what this is
manifest.json          this model, as JSON (RFC 8259); its JSON Schema: `python -m generator schema --out DIR`
sheet.html             the setup sheet, whole in itself
job/job.yml            the job, as its shop wrote it, without what was left out
job/log.yml            its log, where there is one
job/<picture>          its pictures
shop/house.yml         the sender's rules, materials and tools, as far as the job uses them
shop/materials.yml
shop/tools.yml
shop/lathes/<lathe>.yml
```
"""

from __future__ import annotations

import re
from typing import Annotated, Any, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError
from pydantic.json_schema import GenerateJsonSchema

from generator.errors import SheetError
from generator.job.beside import PICTURES_TAKEN
from generator.language.say import say

FORMAT: Final = "lathe setup handed over"
VERSION: Final = 1
MANIFEST: Final = "manifest.json"
SHEET: Final = "sheet.html"
READ_ME: Final = "READ ME.txt"
JOB: Final = "job/job.yml"
LOG: Final = "job/log.yml"
HOUSE: Final = "shop/house.yml"
MATERIALS: Final = "shop/materials.yml"
TOOLS: Final = "shop/tools.yml"
LATHES: Final = "shop/lathes/"

MOST_ZIP: Final = 250_000_000  # bytes of the zip itself
MOST_FILES: Final = 100
MOST_BYTES: Final = 200_000_000  # of all files together
MOST_OF_KIND: Final = {"text": 1_000_000, "page": 150_000_000, "picture": 64_000_000}  # bytes of one file

Kind = Literal["text", "page", "picture"]
_TEXTS: Final = (READ_ME, MANIFEST, JOB, LOG, HOUSE, MATERIALS, TOOLS)
_LATHE: Final = re.compile(rf"{re.escape(LATHES)}[a-z0-9](?:[a-z0-9_-]{{0,60}})\.yml")
_PICTURE: Final = re.compile(
    rf"job/(?P<name>[\w(][\w ().,+-]{{0,100}}\.(?:{'|'.join(PICTURES_TAKEN)}))", re.IGNORECASE
)
_OF_WINDOWS: Final = re.compile(r"(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])\s*\.", re.I)  # devices there


class PackRefused(SheetError):
    """A file that is not taken in; the message says why in plain words. Nothing was written."""


_Words = Annotated[str, Field(max_length=4000, pattern=r"^[^\x00-\x1f\x7f-\x9f]*$")]  # a terminal shows them


class _Open(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class PackedFile(_Open):
    """One file of the zip but for the manifest itself."""

    name: str = Field(max_length=200)
    """Its name in the zip, with / between folders."""
    bytes: Annotated[int, Field(ge=0, le=MOST_BYTES)]
    """Its size."""
    sha256: Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
    """SHA-256 of what it holds (FIPS 180-4), in hex."""


class Manifest(_Open):
    """What a handed-over setup is and holds."""

    format: Literal["lathe setup handed over"] = FORMAT
    """What this is."""
    version: Literal[1] = VERSION
    """Version of the format."""
    job: _Words
    """Number of the job at the shop that sends it."""
    title: _Words
    """What the job is."""
    shop: _Words
    """The shop that sends it."""
    lathe: _Words
    """The lathe that it is planned for there."""
    left_out: tuple[_Words, ...] = Field(max_length=200)
    """What the sender did not hand over, in words."""
    files: tuple[PackedFile, ...] = Field(max_length=MOST_FILES)
    """Every other file of the zip."""


def read_manifest(data: bytes) -> Manifest:
    """The manifest as it came.

    Raises
    ------
    PackRefused
        When it is none, or one of a newer version.
    """
    try:
        head = _Head.model_validate_json(data)
    except ValidationError as error:
        raise PackRefused(
            say("its manifest cannot be read, so this is not a setup that was shared")
        ) from error
    if head.format != FORMAT:
        raise PackRefused(say("its manifest is that of something else, not of a setup that was shared"))
    if head.version > VERSION:
        raise PackRefused(
            say(
                "it is in version {version} of the format, and this program reads up to {known}: "
                "take a newer one of this program, or ask the sender for an older one",
                version=head.version,
                known=VERSION,
            )
        )
    try:
        return Manifest.model_validate_json(data)
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(step) for step in first["loc"])
        raise PackRefused(
            say("its manifest is damaged at {place}", place=place[:80] or say("its top"))
        ) from error


def manifest_schema() -> dict[str, Any]:
    """The JSON Schema of the manifest."""
    dialect = GenerateJsonSchema.schema_dialect
    title = "manifest.json of a handed-over setup"
    return {"$schema": dialect, **Manifest.model_json_schema(), "title": title}


class _Head(BaseModel):
    """What every version of the manifest begins with."""

    model_config = ConfigDict(strict=True)

    format: str
    version: int


def kind_of(name: str) -> Kind | None:
    """What a name in the zip stands for; None where nothing of that name belongs there.

    >>> kind_of("job/job.yml"), kind_of("job/intake 1.jpg"), kind_of("../job.yml"), kind_of("job/a/b.png")
    ('text', 'picture', None, None)
    """
    if name in _TEXTS or _LATHE.fullmatch(name):
        return "text"
    if name == SHEET:
        return "page"
    return "picture" if picture_name(name) else None


def picture_name(name: str) -> str:
    """The file name of a picture in the zip, one that every system takes; "" where it is none."""
    found = _PICTURE.fullmatch(name)
    return found["name"] if found and not _OF_WINDOWS.match(found["name"]) else ""
