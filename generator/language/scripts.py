"""Scripts of the pages in another language: their texts exchanged, and the decimal sign of what they write.

A text of a script is the literal in a call of `say`, or the two in one of `sayCount`, which are those of
site_templates/js/say.js. They are written as JSON writes a string, and so are read here without the rest of
the script.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Final

from generator.language.say import say
from generator.language.spoken import spoken

_LITERAL: Final = r'"(?:[^"\\\n]|\\.)*"'
_SAID: Final = re.compile(
    rf"(?<![\w$.])(?:say\(\s*(?P<text>{_LITERAL})|sayCount\(\s*(?P<one>{_LITERAL}),\s*(?P<many>{_LITERAL}))"
)
_SIGN: Final = re.compile(r'(?<=var DECIMAL_SIGN = )"\."')
_MARKUP: Final = re.compile(r"<(?=[/!])")  # it could end the element that the script stands in


def in_other_words(script: str) -> str:
    r"""A script with its texts in the language that is spoken; an English one as it is.

    >>> from generator.language.spoken import speak
    >>> speak("en-XA")
    >>> in_other_words('var text = say("Pass {at}", {at: at}), sign = figure(1.5, 1);')
    'var text = say("⟦Pass {at}⟧", {at: at}), sign = figure(1.5, 1);'
    >>> speak("en")
    """
    if spoken().code == "en":
        return script
    return _SIGN.sub(lambda _: _quoted(spoken().figures(".")), _SAID.sub(_exchanged, script))


def texts_of(script: str) -> Iterator[str | tuple[str, str]]:
    """Every text of a script, as the catalogs have it: one, or the forms for one and for many.

    >>> list(texts_of('say("Hold"); sayCount("{count} job", "{count} jobs", say("any").length);'))
    ['Hold', ('{count} job', '{count} jobs'), 'any']
    """
    for found in _SAID.finditer(script):
        if found["text"]:
            yield json.loads(found["text"])
        else:
            yield json.loads(found["one"]), json.loads(found["many"])


def _exchanged(call: re.Match[str]) -> str:
    """The beginning of a call, up to the last of its texts."""
    if call["text"]:
        forms = {"text": say(json.loads(call["text"]))}
    else:
        one, many = json.loads(call["one"]), json.loads(call["many"])
        forms = {"one": spoken().counted(one, many, 1), "many": spoken().counted(one, many, 2)}
    made, end = "", call.start()
    for name, text in forms.items():
        made += call.string[end : call.start(name)] + _quoted(text)
        end = call.end(name)
    return made


def _quoted(text: str) -> str:
    r"""A text as a literal that may stand in a script element.

    >>> print(_quoted('a "b" </script>'))
    "a \"b\" <\/script>"
    """
    return _MARKUP.sub(r"<\\", json.dumps(text, ensure_ascii=False))
