"""Kinds of field: each reads the text of one entry into a value, or says what is wrong with it.

In reading order: the kinds of field, Strict (the base of every model). What the reader hands over, and how a
field says no: `job.written`.

A field that is refused raises through the validation library with its own finished sentence; several
sentences, each with the key below the field it belongs to, travel together.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Annotated, Any, Final, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from generator import units
from generator.errors import BadDesignation, BadQuantity, Location
from generator.job.beside import PICTURES_NOT_TAKEN, PICTURES_TAKEN
from generator.job.written import NOWHERE, Given, Scalar, System, not_known, refused, scalar_of, shown
from generator.language.lists import or_words
from generator.language.say import say
from generator.language.spoken import LANGUAGES, OFFERED
from generator.quantities import QUANTITIES, RATIO
from generator.threads.registry import parse_designation

# -- quantities -----------------------------------------------------------------------------------------


def _read_quantity(quantity: str, *, zero: bool | None = None) -> Callable[[object], Given]:
    known = RATIO if quantity == "ratio" else QUANTITIES[quantity]

    def read(value: object) -> Given:
        if isinstance(value, Given):
            return value
        wanted = say("write {a}, such as {examples}", a=known.a, examples=known.examples)
        if isinstance(value, dict):
            lacks = say(
                "has no value: write value with {a}, such as {examples}", a=known.a, examples=known.examples
            )
            return _said_by(value, read_scalar, wanted, lacks)
        return read_scalar(scalar_of(value, wanted))

    def read_scalar(scalar: Scalar) -> Given:
        system = scalar.system if quantity == "length" else None
        bare = {"inch": "in", "mm": "mm", None: None}[system]
        try:
            amount = units.read_amount(scalar, quantity, bare, zero=zero)
        except BadQuantity as error:
            if not error.no_unit or quantity != "length":
                raise refused(("", str(error))) from None
            number = scalar.strip()
            if scalar.mixed:
                sentence = say(
                    "{quoted} has no unit, and {mixed}: write {number} mm or {number} in",
                    quoted=units.quoted(number),
                    mixed=scalar.mixed,
                    number=number,
                )
            else:
                sentence = say(
                    "{quoted} has no unit: write {number} mm or {number} in, or say units: inch once for the "
                    "whole file",
                    quoted=units.quoted(number),
                    number=number,
                )
            raise refused(("", sentence)) from None
        return Given(
            amount.si, " ".join(scalar.split()), quantity, where=scalar.where, exact=amount.exact,
            unit=amount.unit, bare=amount.bare,
        )

    return read


def _said_by(
    block: dict[str, Any], read_scalar: Callable[[Scalar], Given], wanted: str, lacks: str
) -> Given:
    """`{value: 2.2405, by: KL, with: micrometer 2-3 in}` or `{value: 2.25, assumed: yes}`.

    `wanted` says what is to be written for the value, `lacks` that it is not there.
    """
    problems: list[tuple[str, str]] = []
    words: dict[str, str] = {}
    value: Given | None = None
    assumed = False
    for key, entry in block.items():
        try:
            if key == "value":
                value = read_scalar(scalar_of(entry, wanted))
            elif key in ("by", "with"):
                words[key] = _read_text(entry)
            elif key == "assumed":
                assumed = _read_yes_no(entry)
            else:
                near = units.nearest(key, ["value", "by", "with", "assumed"])
                hint = (
                    say("did you mean {near}?", near=near)
                    if near
                    else say("the keys here are value, by, with, assumed")
                )
                quoted = units.quoted(key)
                problems.append(
                    (key, say("{quoted} is not a key of a measured value: {hint}", quoted=quoted, hint=hint))
                )
        except PydanticCustomError as error:
            problems += [(key, text) for _, text in (error.context or {})["problems"]]
    if "value" not in block:
        problems.append(("", lacks))
    if assumed and words:
        problems.append(("assumed", say("is either measured or assumed: take out assumed, or by and with")))
    if "by" not in block and "with" in block:
        problems.append(("", say("does not say who measured it: write by beside with")))
    if "with" not in block and "by" in block:
        problems.append(("", say("does not say what it was measured with: write with beside by")))
    if "value" in block and not assumed and not problems and not words:
        problems.append(
            ("", say("does not say how it is known: write by and with for a measured value, or assumed: yes"))
        )
    if problems or value is None:
        raise refused(*problems)
    kind: Literal["measured", "assumed"] = "assumed" if assumed else "measured"
    return Given(
        value.si, value.text, value.quantity, kind, words.get("by", ""), words.get("with", ""), value.where,
        value.exact, value.unit, value.bare,
    )


# By the name that stands as `$comment` in the schema of a model; `in_words` describes each.
QUANTITY_SCHEMAS: Final[dict[str, dict[str, Any]]] = {}


def _quantity_schema(quantity: str, *, zero: bool = False) -> WithJsonSchema:
    """Number, text with a unit, or the long form of a measured or assumed value."""
    known = RATIO if quantity == "ratio" else QUANTITIES[quantity]
    zero = zero or known.zero
    number: dict[str, Any] = {"type": "number", "minimum" if zero else "exclusiveMinimum": 0}
    text: dict[str, Any] = {"type": "string", "pattern": units.pattern(quantity)}
    alone = [number, text] if quantity in ("length", "ratio") or known.bare else [text]
    name = f"{quantity}_or_zero" if zero and not known.zero else quantity
    return _schema_of(name, known.examples.split(" or "), alone)


def in_words(name: str) -> str:
    """What is written for a value of one of the `QUANTITY_SCHEMAS`, with examples."""
    if name == "taper":
        return say("a taper, such as {tapers}", tapers=_either(units.TAPERS))
    known = RATIO if name.startswith("ratio") else QUANTITIES[name.removesuffix("_or_zero")]
    return say("{a}, such as {examples}", a=known.a, examples=_either(known.examples))


def _either(examples: str) -> str:
    """Examples with their "or" said; what is written stays as it is read."""
    return say(" or ").join(examples.split(" or "))


def _schema_of(name: str, examples: list[str], alone: list[dict[str, Any]]) -> WithJsonSchema:
    """What stands alone, or in the long form of a measured or assumed value."""
    word = {"type": ["string", "number"]}
    measured = {
        "type": "object", "properties": {"value": {"anyOf": alone}, "by": word, "with": word},
        "required": ["value", "by", "with"], "additionalProperties": False,
    }
    yes = {"enum": [True, "yes", "true"]}
    assumed = {
        "type": "object", "properties": {"value": {"anyOf": alone}, "assumed": yes},
        "required": ["value", "assumed"], "additionalProperties": False,
    }
    QUANTITY_SCHEMAS[name] = {"examples": examples, "anyOf": [*alone, measured, assumed]}
    return WithJsonSchema({"$comment": name})


def _kind(quantity: str, *, zero: bool | None = None) -> tuple[PlainValidator, WithJsonSchema]:
    return PlainValidator(_read_quantity(quantity, zero=zero)), _quantity_schema(quantity, zero=bool(zero))


_LENGTH = _kind("length")
_LENGTH_OR_ZERO = _kind("length", zero=True)
_SPEED = _kind("speed")
_SPINDLE_SPEED = _kind("spindle_speed")
_FEED = _kind("feed")
_FORCE = _kind("force")
_PRESSURE = _kind("pressure")
_MASS = _kind("mass")
_ANGLE = _kind("angle")
_TIME = _kind("time")
_POWER = _kind("power")
_TORQUE = _kind("torque")
_DENSITY = _kind("density")
_STIFFNESS = _kind("stiffness")
_ANGULAR_STIFFNESS = _kind("angular_stiffness")
_TEMPERATURE_RISE = _kind("temperature_rise")
_NUMBER = _kind("ratio")
_NUMBER_OR_ZERO = _kind("ratio", zero=True)

Length = Annotated[Given, _LENGTH[0], _LENGTH[1]]
LengthOrZero = Annotated[Given, _LENGTH_OR_ZERO[0], _LENGTH_OR_ZERO[1]]
SurfaceSpeed = Annotated[Given, _SPEED[0], _SPEED[1]]
SpindleSpeed = Annotated[Given, _SPINDLE_SPEED[0], _SPINDLE_SPEED[1]]
FeedPerRev = Annotated[Given, _FEED[0], _FEED[1]]
Force = Annotated[Given, _FORCE[0], _FORCE[1]]
Pressure = Annotated[Given, _PRESSURE[0], _PRESSURE[1]]
Mass = Annotated[Given, _MASS[0], _MASS[1]]
Angle = Annotated[Given, _ANGLE[0], _ANGLE[1]]
Time = Annotated[Given, _TIME[0], _TIME[1]]
Power = Annotated[Given, _POWER[0], _POWER[1]]
Torque = Annotated[Given, _TORQUE[0], _TORQUE[1]]
Density = Annotated[Given, _DENSITY[0], _DENSITY[1]]
Stiffness = Annotated[Given, _STIFFNESS[0], _STIFFNESS[1]]
AngularStiffness = Annotated[Given, _ANGULAR_STIFFNESS[0], _ANGULAR_STIFFNESS[1]]
TemperatureRise = Annotated[Given, _TEMPERATURE_RISE[0], _TEMPERATURE_RISE[1]]
Number = Annotated[Given, _NUMBER[0], _NUMBER[1]]
NumberOrZero = Annotated[Given, _NUMBER_OR_ZERO[0], _NUMBER_OR_ZERO[1]]


def length_or(word: str) -> tuple[PlainValidator, WithJsonSchema]:
    """A length, or one word that stands for it."""
    read_length = _read_quantity("length")

    def read(value: object) -> Given | str:
        if isinstance(value, str) and value.strip() == word:
            return word
        try:
            return read_length(value)
        except PydanticCustomError as error:
            problems = (error.context or {})["problems"]
            raise refused(
                *((key, say("{text}, or {word}", text=text, word=word)) for key, text in problems)
            ) from None

    return PlainValidator(read), WithJsonSchema({"anyOf": [{"const": word}, {"$comment": "length"}]})


def _read_taper(value: object) -> Given:
    wanted = say("write a taper, such as {tapers}", tapers=units.TAPERS)

    def read_scalar(scalar: Scalar) -> Given:
        try:
            taper = units.read_taper(scalar)
        except BadQuantity as error:
            raise refused(("", str(error))) from None
        return Given(float(taper), " ".join(scalar.split()), "ratio", where=scalar.where, exact=taper)

    if isinstance(value, Given):
        return value
    if isinstance(value, dict):
        lacks = say("has no value: write value with a taper, such as {tapers}", tapers=units.TAPERS)
        return _said_by(value, read_scalar, wanted, lacks)
    return read_scalar(scalar_of(value, wanted))


# An editor that counts to base 60 takes 1:16 for a whole number.
_TAPER_FORMS: Final[list[dict[str, Any]]] = [
    {"type": "string", "pattern": "^ *[0-9.].*(:| in |/|per).*[0-9t] *$"},
    {"type": "integer", "minimum": 60},
]
TaperRatio = Annotated[
    Given,
    PlainValidator(_read_taper),
    _schema_of("taper", ["1:16", "1 in 16", "3/4 in/ft"], _TAPER_FORMS),
]


# -- words ----------------------------------------------------------------------------------------------

LONGEST_TEXT: Final = 4000


def _read_text(value: object) -> str:
    scalar = scalar_of(value, say("write some words"))
    if scalar.surprise:
        sentence = say(
            "{scalar} without quotes is taken for {surprise}: write it in quotes, '{text}'",
            scalar=shown(scalar),
            surprise=scalar.surprise,
            text=scalar.strip(),
        )
        raise refused(("", sentence))
    if len(scalar) > LONGEST_TEXT:
        sentence = say("is longer than {most} characters: keep the rest beside the job", most=LONGEST_TEXT)
        raise refused(("", sentence))
    return str(scalar).strip()


def _read_line(value: object) -> str:
    text = _read_text(value)
    if "\n" in text:
        raise refused(("", say("{text} runs over several lines: write it on one line", text=shown(text))))
    return text


def _read_designation(value: object) -> str:
    text = _read_line(value)
    try:
        parse_designation(text)
    except BadDesignation as error:
        raise refused(("", str(error))) from None
    return text


_PICTURE_NAME: Final = rf"[\w(][\w ().,+-]*\.({'|'.join((*PICTURES_TAKEN, *PICTURES_NOT_TAKEN))})"


def _read_picture(value: object) -> str:
    name = _read_line(value)
    if not re.fullmatch(_PICTURE_NAME, name, re.IGNORECASE):
        sentence = say(
            "{name} is not a picture beside the job file: write its name, such as intake-1.jpg",
            name=shown(name),
        )
        raise refused(("", sentence))
    return name


_CALLED: Final = {  # what else somebody may write for a language
    "english": "en", "american": "en", "british": "en-GB", "uk": "en-GB", "german": "de", "deutsch": "de",
}


def _read_language(value: object) -> str:
    code = scalar_of(value, say("write {languages}", languages=or_words(OFFERED))).strip()
    if code not in LANGUAGES:
        near = _CALLED.get(code.casefold()) or units.nearest(code, [*OFFERED])
        raise refused(("", not_known(value, OFFERED, near)))
    return code


def _read_yes_no(value: object) -> bool:
    if isinstance(value, bool):
        return value
    scalar = scalar_of(value, say("write yes or no"))
    known = {"yes": True, "true": True, "no": False, "false": False}
    if scalar.strip().lower() not in known:
        raise refused(("", say("{scalar} is neither yes nor no: write one of the two", scalar=shown(scalar))))
    return known[scalar.strip().lower()]


def _read_count_or_zero(value: object) -> int:
    if isinstance(value, int):
        return value
    scalar = scalar_of(value, say("write a whole number, such as 2"))
    if not re.fullmatch(r"0|[1-9][0-9]{0,5}", scalar.strip()):
        raise refused(("", say("{scalar} is not a whole number: write one such as 2", scalar=shown(scalar))))
    return int(scalar)


def _read_count(value: object) -> int:
    count = _read_count_or_zero(value)
    if count == 0:
        raise refused(("", say("{value} is zero: write a whole number from 1 up", value=shown(value))))
    return count


def _read_date(value: object) -> datetime.date:
    if isinstance(value, datetime.date):
        return value
    wanted = say("write year-month-day, such as 2026-03-02")
    scalar = scalar_of(value, wanted)
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", scalar.strip()):
        raise refused(("", say("{scalar} is not a date: {wanted}", scalar=shown(scalar), wanted=wanted)))
    try:
        return datetime.date.fromisoformat(scalar.strip())
    except ValueError:
        raise refused(
            ("", say("{scalar} is not a day of the calendar: {wanted}", scalar=shown(scalar), wanted=wanted))
        ) from None


@dataclass(frozen=True)
class Moment:
    """A day, and the time of day where it is known, as written; `where` is its place."""

    day: datetime.date
    clock: datetime.time | None = None
    where: Location = field(default=NOWHERE, compare=False)

    def before(self, other: Moment) -> bool:
        """True when it is earlier for certain: of one day both times must be known."""
        if self.day != other.day or self.clock is None or other.clock is None:
            return self.day < other.day
        return self.clock < other.clock

    def __str__(self) -> str:
        return f"{self.day}{f' {self.clock:%H:%M}' if self.clock else ''}"


def _read_moment(value: object) -> Moment:
    if isinstance(value, Moment):
        return value
    wanted = say("write year-month-day, and the time where it is known, such as 2026-03-04 14:20")
    scalar = scalar_of(value, wanted)
    parts = _MOMENT.fullmatch(scalar.strip())
    if not parts:
        raise refused(("", say("{scalar} is not a date: {wanted}", scalar=shown(scalar), wanted=wanted)))
    try:
        day = datetime.date.fromisoformat(parts[1])
    except ValueError:
        raise refused(
            ("", say("{scalar} is not a day of the calendar: {wanted}", scalar=shown(scalar), wanted=wanted))
        ) from None
    try:
        clock = datetime.time.fromisoformat(f"{parts[2]:0>5}") if parts[2] else None
    except ValueError:
        sentence = say(
            "{scalar} has a time that no clock shows: {wanted}", scalar=shown(scalar), wanted=wanted
        )
        raise refused(("", sentence)) from None
    return Moment(day, clock, scalar.where)


_MOMENT: Final = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(?:(?: +|T)([0-9]{1,2}:[0-9]{2})(?::[0-9]{2})?)?")


def _whole(value: object) -> object:
    """Text to int for a choice of whole numbers; the choice itself is checked after."""
    return int(value) if isinstance(value, str) and re.fullmatch(r"[1-9][0-9]{0,5}", value.strip()) else value


def _word(value: object) -> object:
    """A choice of words is compared without the place; a block stays as it is and is refused after."""
    return str(value).strip() if isinstance(value, str) else value


def block_or_word(written: Any) -> str:
    """Which of both was written, where a key takes a block or a word; the tag of it in the model."""
    return "<word>" if isinstance(written, str) else "<block>"


_TEXT_SCHEMA = WithJsonSchema({"type": ["string", "number"]})

Text = Annotated[str, PlainValidator(_read_text), _TEXT_SCHEMA]
Line = Annotated[str, PlainValidator(_read_line), _TEXT_SCHEMA]
PictureName = Annotated[str, PlainValidator(_read_picture), _TEXT_SCHEMA]
ThreadDesignation = Annotated[str, PlainValidator(_read_designation), _TEXT_SCHEMA]
KnownOrUnknown = Annotated[
    str,
    PlainValidator(_read_line),
    WithJsonSchema({"type": ["string", "number"], "description": "in words, or: unknown"}),
]
Word: Final = BeforeValidator(_word)  # goes beside a Literal of words
Unknown = Annotated[Literal["unknown"], Word]
NotFitted = Annotated[Literal["none"], Word]
YesNo = Annotated[
    bool, PlainValidator(_read_yes_no), WithJsonSchema({"enum": [True, False, "yes", "no", "true", "false"]})
]
Count = Annotated[int, PlainValidator(_read_count), WithJsonSchema({"type": "integer", "minimum": 1})]
CountOrZero = Annotated[
    int, PlainValidator(_read_count_or_zero), WithJsonSchema({"type": "integer", "minimum": 0})
]
Date = Annotated[
    datetime.date, PlainValidator(_read_date),
    WithJsonSchema({"type": "string", "format": "date", "examples": ["2026-03-02"]}),
]
DateAndTime = Annotated[
    Moment, PlainValidator(_read_moment),
    WithJsonSchema({
        "type": "string", "pattern": f"^ *{_MOMENT.pattern} *$",
        "examples": ["2026-03-04", "2026-03-04 14:20"],
    }),
]
LanguageCode = Annotated[str, PlainValidator(_read_language), WithJsonSchema({"enum": [*OFFERED]})]
Jaws = Annotated[Literal[3, 4, 6], BeforeValidator(_whole)]
Units = Annotated[System, Word]


class Strict(BaseModel):
    """Base of every model: an unknown key is refused, a checked model never changes."""

    model_config = ConfigDict(extra="forbid", frozen=True)
