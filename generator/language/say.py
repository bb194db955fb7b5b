"""Say a text in the language that is spoken, with its figures written the way of that language."""

from __future__ import annotations

from typing import Any

from generator.language.spoken import spoken


def say(text: str, /, **parts: object) -> str:
    """A text in the language that is spoken; `{name}` in it is filled from `parts`.

    A text without parts is said as it is, braces and all.

    >>> say("Chuck key out."), say("Pass {number} of {all}", number=3, all=12)
    ('Chuck key out.', 'Pass 3 of 12')
    """
    language, english = spoken(), str.__str__(text)
    return language.filled(language.text(english), parts) if parts else language.text(english)


def say_count(one: str, many: str, count: int, /, **parts: object) -> str:
    """A text for one thing or for many, as the language counts; `{count}` in it is the number.

    >>> say_count("{count} pass", "{count} passes", 1), say_count("{count} pass", "{count} passes", 0)
    ('1 pass', '0 passes')
    """
    language = spoken()
    return language.filled(language.counted(one, many, count), {"count": count, **parts})


class Later(str):
    """A text in a table: in the file it is English, and where it is shown it is said.

    It compares, sorts and pickles as its English text; `str`, `format` and a template say it. Joining and `+`
    take the English: say it first.
    """

    __slots__ = ()

    def __str__(self) -> str:
        return spoken().text(self.english)

    def __format__(self, form: str) -> str:
        return format(str(self), form)

    @property
    def english(self) -> str:
        """The text in the file, as a plain `str`."""
        return str.__str__(self)


def later(text: str) -> Later:
    """Mark a text in a table, to be said when it is shown.

    >>> f"{later('Bore')}", later("Bore") == "Bore"
    ('Bore', True)
    """
    return Later(text)


def first_large(text: str) -> str:
    """A text with its first letter large, as a sentence begins.

    >>> first_large("steady rest"), first_large("")
    ('Steady rest', '')
    """
    return spoken().begun(str(text))


def first_small(text: str) -> str:
    """A text as it goes on within a sentence: its first letter small, where the language writes it so.

    >>> first_small("Set the stop."), first_small("")
    ('set the stop.', '')
    """
    return spoken().continued(str(text))


def figure(value: float, form: str) -> str:
    """A number written in a form of `format`, with the decimal sign of the language.

    >>> figure(0.126, ".2f")
    '0.13'
    """
    return spoken().figures(format(value, form))


def all_said(data: Any) -> Any:
    """Plain data with every text of a table in it said, for what would take the English of it, as JSON does.

    >>> all_said({"label": later("Bore"), "rows": [(1, later("Face"))]})
    {'label': 'Bore', 'rows': [(1, 'Face')]}
    """
    if isinstance(data, Later):
        return str(data)
    if isinstance(data, dict):
        return {name: all_said(value) for name, value in data.items()}
    if isinstance(data, list):
        return [all_said(one) for one in data]
    return tuple(all_said(one) for one in data) if type(data) is tuple else data
