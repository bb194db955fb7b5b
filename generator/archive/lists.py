"""Plain lists of the jobs, by thread, lathe, material, customer and year: pages that need no script.

    list_pages     every list, in pages that a slow browser takes at once
    lists_front    all lists by kind, with how many jobs each has

A list that is too long for one page is split by years. The pages are filled from the oldest year on, so that
a new job leaves those of earlier years as they were; the newest years stand on the page that others link to.
A kind of which there are more lists than the front page holds has pages of its own with their names.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from html import escape
from itertools import chain, groupby, pairwise
from operator import attrgetter
from typing import Final, NamedTuple

from generator.archive.columns import natural
from generator.archive.listed import Content, Listed, key_of
from generator.archive.said import status_words
from generator.archive.words import fold
from generator.language.say import figure, later, say, say_count
from generator.render.css_words import css_string
from generator.render.environment import environment
from generator.sheet.row import ArchiveRow
from generator.sheet.row_names import Pitched, list_address, pitched, safe_name, thread_title

MOST: Final = 800  # jobs on one page
ROOM: Final = 190_000  # bytes of their rows; the frame of the theme and the links take the rest of 250 kB
LONGEST: Final = 160  # signs of one text
FEW: Final = 40  # lists of a kind that are seen at once, and not folded
FRONT: Final = "lists.html"
UP: Final = "../../"  # from a list to the top of the site

_ROW: Final = 150  # bytes of a row without its texts
_NAME: Final = 110  # bytes of a list among the others, without its words


@dataclass(frozen=True)
class Value:
    """One list: its file, what its jobs share, in words, and how it is called among those of its `group`.

    `places` are those of its jobs in the archive.
    """

    kind: str
    name: str
    title: str
    short: str
    group: str
    places: Sequence[int]

    @property
    def address(self) -> str:
        """Its first page, from the top of the site."""
        return list_address(self.kind, self.name)


@dataclass(frozen=True)
class Said:
    """What is said of a kind of lists: its heading, of one list, of none, where all are, and of how many."""

    heading: str
    title: str
    none: str
    none_short: str
    back: str
    many: Callable[[int], str]


@dataclass(frozen=True)
class Kind:
    """What jobs are listed by: its word, what is said of it, and how the lists are made of all jobs."""

    word: str
    said: Said
    values: Callable[[Sequence[ArchiveRow]], list[Value]]


class Link(NamedTuple):
    """Words with a number of jobs, and where they lead; nowhere on that page itself."""

    words: str
    address: str
    many: str = ""


@dataclass(frozen=True)
class Row:
    """A job in a list, as its template gets it."""

    link: str
    ready: bool
    number: str
    title: str
    thread: str
    material: str
    lathe: str
    held: str
    year: str
    status: str


@dataclass(frozen=True)
class Group:
    """Lists of one kind under a heading, which says how many they are and how many jobs they have."""

    heading: str
    said: str
    links: tuple[Link, ...]


@dataclass(frozen=True)
class Shelf:
    """All lists of a kind on the front page, `folded` where they are many."""

    id: str
    heading: str
    said: str
    groups: tuple[Group, ...]
    folded: bool


class Laid:
    """All jobs in the order of the archive, and what has to be known of each to make pages of them."""

    def __init__(self, jobs: Sequence[Listed]) -> None:
        self.jobs = jobs
        self.rows = [job.row for job in jobs]
        self.words = [job.word for job in jobs]
        self.weights = [_weight(job.link, job.row) for job in jobs]
        years = groupby(range(len(jobs)), key=lambda place: self.rows[place].year)
        self.years = [next(found) for _, found in years]

    def key(self, places: Iterable[int]) -> str:
        """A word for these jobs, another for every change of one."""
        return "\n".join(map(self.words.__getitem__, places))

    def by_year(self, places: Sequence[int]) -> list[Sequence[int]]:
        """The places year by year, the newest first."""
        starts = [bisect_left(places, year) for year in self.years]
        parts = (places[start:end] for start, end in pairwise([*starts, len(places)]))
        return [part for part in parts if part]

    def weight(self, places: Iterable[int]) -> int:
        """The most bytes that their rows can take."""
        return sum(map(self.weights.__getitem__, places))


def _weight(link: str, row: ArchiveRow) -> int:
    texts = (
        f"{row.number}{row.title}{row.designation}{row.material}{row.lathe}{row.held}{row.year}{row.status}"
    )
    return _ROW + len(link) + len(escape(texts).encode("utf-8", "replace"))


def list_pages(jobs: Sequence[Listed]) -> Iterator[Content]:
    """The pages of all lists; `jobs` are in the order of the archive."""
    laid = Laid(jobs)
    kinds = [(kind, kind.values(laid.rows)) for kind in KINDS]
    for kind, values in kinds:
        links: list[Link | None] = [None, *(Link(cut(one.title), UP + one.address) for one in values), None]
        for place, value in enumerate(values):
            yield from _pages(kind, value, laid, (links[place], links[place + 2]))
    for kind, registers in _registers(kinds):
        yield from (_register_page(kind, *register) for register in registers)


def lists_front(jobs: Sequence[Listed]) -> str:
    """The front page of the lists, from the top of the site, as HTML."""
    rows = [job.row for job in jobs]
    kinds = [(kind, kind.values(rows)) for kind in KINDS]
    apart = dict(_registers(kinds))
    shelves = [_shelf(kind, values, apart.get(kind, [])) for kind, values in kinds]
    return environment().get_template("archive/lists.html").render(shelves=shelves)


def cut(text: str) -> str:
    """A text as a list shows it; a row has no room for more."""
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 1]}…"


def jobs_words(many: int) -> str:
    """How many jobs, in words."""
    return say_count("{count:,} job", "{count:,} jobs", many)


# What jobs are listed by


def _grouped(
    rows: Sequence[ArchiveRow], of: Callable[[ArchiveRow], Hashable]
) -> dict[Hashable, list[int]]:
    found: defaultdict[Hashable, list[int]] = defaultdict(list)
    for place, key in enumerate(map(of, rows)):
        found[key].append(place)
    return found


def _threads(rows: Sequence[ArchiveRow]) -> list[Value]:
    found = _grouped(rows, lambda row: pitched(row.thread) if row.thread else None)
    without = found.pop(None, [])
    values = []
    for key in sorted(key for key in found if isinstance(key, Pitched)):
        newest = rows[found[key][0]].thread
        if newest is not None:
            title = thread_title(newest)
            values.append(Value("thread", key.name, f"{key.family}, {title}", title, key.family, found[key]))
    return [*values, *_without("thread", THREADS, without)]


def _named(word: str, said: Said, rows: Sequence[ArchiveRow]) -> list[Value]:
    """By a text of the row, in the order of the alphabet, figures by their value."""
    found = _grouped(rows, attrgetter(word))
    without = found.pop("", [])
    names = sorted((str(name) for name in found), key=lambda name: (natural(name), name))
    many = len(names) > FEW
    values = (
        Value(
            word, safe_name(name), say(said.title, name=name), name, _initial(name) if many else "",
            found[name],
        )
        for name in names
    )  # fmt: skip
    return [*values, *_without(word, said, without)]


def _years(rows: Sequence[ArchiveRow]) -> list[Value]:
    return [
        Value("year", safe_name(str(year)), say(YEARS.title, name=year), str(year), "", places)
        for year, places in _grouped(rows, attrgetter("year")).items()
    ]


def _without(word: str, said: Said, places: Sequence[int]) -> Iterator[Value]:
    if places:
        yield Value(word, f"no-{word}", str(said.none), str(said.none_short), "", places)


def _initial(name: str) -> str:
    return fold(name).lstrip()[:1].upper()


THREADS: Final = Said(
    later("Threads"), later("Thread {name}"), later("No thread"), later("no thread"),
    later("All lists by thread"), lambda many: say_count("{count:,} thread", "{count:,} threads", many),
)  # fmt: skip
LATHES: Final = Said(
    later("Lathes"), later("Lathe {name}"), later("No lathe"), later("no lathe"), later("All lists by lathe"),
    lambda many: say_count("{count:,} lathe", "{count:,} lathes", many),
)  # fmt: skip
MATERIALS: Final = Said(
    later("Materials"), later("Material {name}"), later("No material"), later("no material"),
    later("All lists by material"),
    lambda many: say_count("{count:,} material", "{count:,} materials", many),
)  # fmt: skip
CUSTOMERS: Final = Said(
    later("Customers"), later("Customer {name}"), later("No customer"), later("no customer"),
    later("All lists by customer"),
    lambda many: say_count("{count:,} customer", "{count:,} customers", many),
)  # fmt: skip
YEARS: Final = Said(
    later("Years"), later("Year {name}"), later("No year"), later("no year"), later("All lists by year"),
    lambda many: say_count("{count:,} year", "{count:,} years", many),
)  # fmt: skip
KINDS: Final = (
    Kind("thread", THREADS, _threads),
    Kind("lathe", LATHES, partial(_named, "lathe", LATHES)),
    Kind("material", MATERIALS, partial(_named, "material", MATERIALS)),
    Kind("customer", CUSTOMERS, partial(_named, "customer", CUSTOMERS)),
    Kind("year", YEARS, _years),
)
HEADS: Final = (  # of the columns
    later("Number"), later("Title"), later("Thread"), later("Material"), later("Lathe"), later("Holding"),
    later("Year"), later("Status"),
)  # fmt: skip


# A list in pages


def split(places: Sequence[int], laid: Laid) -> list[Sequence[int]]:
    """The jobs page by page, the oldest year first; within a page the newest stay first."""
    if len(places) <= MOST and laid.weight(places) <= ROOM:
        return [places]
    pages: list[Sequence[int]] = []
    room = 0  # on the page before
    for year in reversed(laid.by_year(places)):
        weight = laid.weight(year)
        if len(year) > MOST or weight > ROOM:
            pages += reversed(list(_parts(year, laid)))
            room = 0
        elif pages and weight <= room and len(year) + len(pages[-1]) <= MOST:
            pages[-1] = [*year, *pages[-1]]
            room -= weight
        else:
            pages.append(year)
            room = ROOM - weight
    return pages


def _parts(places: Sequence[int], laid: Laid) -> Iterator[list[int]]:
    part: list[int] = []
    room = ROOM
    for place in places:
        if part and (len(part) == MOST or laid.weights[place] > room):
            yield part
            part, room = [], ROOM
        part.append(place)
        room -= laid.weights[place]
    yield part


def _pages(
    kind: Kind, value: Value, laid: Laid, beside: tuple[Link | None, Link | None]
) -> Iterator[Content]:
    pages = split(value.places, laid)
    whole = jobs_words(len(value.places))
    if len(pages) == 1:
        yield _page(kind, laid, beside, pages[0], value.address, cut(value.title), whole)
        return
    names = [f"{value.name}.{number}" for number in range(1, len(pages))] + [value.name]
    addresses = [list_address(value.kind, name) for name in names]
    spans = _spans(pages, laid.rows)
    for page, address, span in zip(pages, addresses, spans, strict=True):
        newest = page is pages[-1]  # another says nothing that a new job would change
        said = (
            say("{whole}, in parts by year", whole=whole)
            if newest
            else say("{jobs} on this page", jobs=jobs_words(len(page)))
        )
        parts = [
            Link(words, UP + to if to != address else "", figure(len(part), ",") if newest else "")
            for words, to, part in zip(spans, addresses, pages, strict=True)
        ]
        title = f"{cut(value.title)}, {span}"
        yield _page(kind, laid, beside, page, address, title, said, parts[::-1])


def _page(
    kind: Kind, laid: Laid, beside: tuple[Link | None, Link | None], places: Sequence[int], address: str,
    title: str, said: str, parts: Sequence[Link] = (),
) -> Content:  # fmt: skip
    words = (title, said, *chain(*parts), *chain(*(one or ("",) for one in beside)))
    make = partial(_list_page, kind, title, laid.jobs, places, said, parts, beside)
    return Content(address, key_of(laid.key(places), *words), make, title)


def _spans(pages: Sequence[Sequence[int]], rows: Sequence[ArchiveRow]) -> list[str]:
    """What tells the pages of a list apart: their years, or within one the first and last number."""
    ends = [(rows[page[-1]], rows[page[0]]) for page in pages]
    years = Counter((first.year, last.year) for first, last in ends)
    spans = []
    for first, last in ends:
        if first.year != last.year:
            spans.append(say("{first} to {last}", first=cut(first.year), last=cut(last.year)))
        elif years[first.year, last.year] > 1:
            numbers = say("{first} to {last}", first=cut(last.number), last=cut(first.number))
            spans.append(numbers if len(years) == 1 else f"{cut(first.year)}, {numbers}")
        else:
            spans.append(cut(first.year))
    return spans


def _list_page(
    kind: Kind, title: str, jobs: Sequence[Listed], places: Sequence[int], said: str,
    parts: Sequence[Link], beside: tuple[Link | None, Link | None],
) -> str:  # fmt: skip
    before, following = beside
    return environment().get_template("archive/list.html").render(
        back=kind.said.back, front=f"{UP}{FRONT}#{kind.word}", title=title,
        earlier=before, later=following, said=said, parts=parts,
        heads=HEADS, heads_style=_heads_style(),
        rows=[_row(jobs[place]) for place in places],
    )  # fmt: skip


def _heads_style() -> str:
    """The heads for a narrow screen, where each stands before its cell: said once, and not in every row."""
    return " ".join(f"--head-{number}: {css_string(head)};" for number, head in enumerate(HEADS, 1))


def _row(job: Listed) -> Row:
    row = job.row
    texts = [
        cut(text)
        for text in (
            row.number, row.title, row.designation, row.material, row.lathe, row.held, row.year,
            status_words(row.status),
        )
    ]  # fmt: skip
    return Row(UP + job.link, row.ready, *texts)


# All lists by kind


def _registers(
    kinds: Sequence[tuple[Kind, Sequence[Value]]],
) -> Iterator[tuple[Kind, list[tuple[Link, Sequence[Value]]]]]:
    """The kinds that the front page has no room for: their lists page by page, with the link to each page."""
    room = ROOM
    for kind, values in sorted(kinds, key=lambda one: len(one[1])):
        weight = sum(map(_name_weight, values))
        if weight <= room:
            room -= weight
            continue
        each = max(1, len(values) * ROOM // (2 * weight))
        pages = [values[at : at + each] for at in range(0, len(values), each)]
        yield kind, [(_register_link(kind, *page), page[1]) for page in enumerate(pages, 1)]


def _name_weight(value: Value) -> int:
    return _NAME + len(escape(cut(value.short)).encode("utf-8", "replace"))


def _register_link(kind: Kind, number: int, values: Sequence[Value]) -> Link:
    words = say(
        "{kind}, {first} to {last}",
        kind=kind.said.heading, first=cut(values[0].short), last=cut(values[-1].short),
    )
    return Link(words, list_address(kind.word, f"all.{number}"), kind.said.many(len(values)))


def _register_page(kind: Kind, link: Link, values: Sequence[Value]) -> Content:
    said = ((value.name, value.title, str(len(value.places))) for value in values)
    return Content(
        link.address,
        key_of(*link, *chain(*said)),
        partial(_register, kind, link.words, values),
        link.words,
    )


def _register(kind: Kind, title: str, values: Sequence[Value]) -> str:
    return environment().get_template("archive/register.html").render(
        front=f"{UP}{FRONT}#{kind.word}", title=title, groups=_groups(kind, values, UP)
    )  # fmt: skip


def _shelf(kind: Kind, values: Sequence[Value], registers: Sequence[tuple[Link, Sequence[Value]]]) -> Shelf:
    if registers:
        groups: tuple[Group, ...] = (Group("", "", tuple(link for link, _ in registers)),)
    else:
        groups = _groups(kind, values)
    folded = len(values) > FEW and not registers
    named = sum(not value.name.startswith("no-") for value in values)
    return Shelf(kind.word, str(kind.said.heading), kind.said.many(named), groups, folded)


def _groups(kind: Kind, values: Iterable[Value], up: str = "") -> tuple[Group, ...]:
    groups = []
    for heading, found in groupby(values, key=attrgetter("group")):
        members = list(found)
        jobs = jobs_words(sum(len(value.places) for value in members))
        said = f"{kind.said.many(len(members))}, {jobs}"
        links = (Link(cut(one.short), up + one.address, figure(len(one.places), ",")) for one in members)
        groups.append(Group(cut(heading), said, tuple(links)))
    return tuple(groups)
