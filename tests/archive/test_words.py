"""A job is found by its words as a machinist types them."""

from __future__ import annotations

import pytest

from generator.archive.words import LONGEST, WRITTEN, fold, whole_words, words_of
from generator.sheet.row import ArchiveRow, ThreadRow

ROW = ArchiveRow("SW-1", "", "2026", "done")


def hits(typed: str, text: str) -> bool:
    """Whether a search for `typed` finds a sheet that says `text`."""
    words = words_of(f"<p>{text}</p>", ROW)
    return all(
        any(word == one or (len(one) > 1 and word.startswith(one)) for word in words)
        for one in whole_words(typed)
    )


@pytest.mark.parametrize(
    ("text", "typed"),
    [
        ("2-8 UN-2A", "2-8"),
        ("2-8 UN-2A", "2-8 un-2a"),
        ("2-8 UN-2A", "UN"),
        ("2-8 UN-2A", "2a"),
        ("2-8UN-2A", "2-8 UN-2A"),
        ("2 1/4-8 UN-2A", "2 1/4-8"),
        ("2 1/4-8 UN-2A", "1/4-8"),
        ("2 1/4-8 UN-2A", "2 1/4"),
        ("2 1/4-8 UN-2A", "2-1/4"),
        ("2-1/4-8 UN-2A", "2 1/4-8"),
        ("2½ in", "2 1/2"),
        ("½ in", "1/2"),
        ("1/2-13 UNC", "1/2"),
        ("3/16", "3/16"),
        ("M30x3.5-6g", "M30"),
        ("M30x3.5-6g", "m30x3.5"),
        ("M30×3.5-6g", "M30x3.5"),
        ("M30x3.5-6g", "30x3.5"),
        ("M30x3,5", "M30x3.5"),
        ("M30x3.5", "m30x3,5"),
        ("Ø63 h9", "Ø63"),
        ("Ø63 h9", "ø63"),
        ("Ø63 h9", "⌀63"),
        ("Ø63 h9", "63"),
        ("Ø 63", "63"),
        ("0.7854 in", "0.7854"),
        ("0.7854 in", ".7854"),
        ("within .0005", "0.0005"),
        ("Tr40x14(P7)LH", "tr40x14(p7)lh"),
        ("Tr40x14(P7)LH", "Tr40x14"),
        ("Tr40x14(P7)LH", "P7"),
        ("Tr40x14(P7)LH", "LH"),
        ("1,5 mm", "1.5"),
        ("#10-32", "10-32"),
        ("Größe, Schlüssel", "GROSSE schlussel".replace("GROSSE", "große")),
        ("the flank was galled.", "Galled"),
        ("half-nut lever", "nut"),
        ("feed/speed", "speed"),
        ("SW-113", "sw-113"),
        ("SW-113", "113"),
        ("don&#39;t &amp; can&#34;t", "don"),
        ("d<sub>2</sub> of it", "d2"),
    ],
)
def test_it_is_found(text: str, typed: str) -> None:
    assert hits(typed, text)


@pytest.mark.parametrize(
    ("text", "typed"),
    [
        ("12-8 UN", "2-8"),  # a word begins as it was typed
        ("1/4-8 and 2 holes", "2 1/4"),
        ("M130x3", "M30"),
        ("0.17854", "0.7854"),
        ("22 in", "2"),  # one sign is a word of its own
        ("&lt;b&gt;", "lt"),
    ],
)
def test_it_is_not_found(text: str, typed: str) -> None:
    assert not hits(typed, text)


def test_what_a_page_does_not_show_and_workings_are_left_out() -> None:
    body = """<article><p>seen</p><script type="application/json">{"a": "scripted"}</script>
    <style>.styled{}</style><template><p>templated</p></template><dialog><p>opened</p></dialog>
    <details class="working"><p>worked</p></details><p data-of="attribute">after</p>
    <section class="other-lathes" aria-labelledby="x"><p>elsewhere</p></section>
    <section class="lessons" aria-labelledby="l"><p>quoted</p></section>
    <div class="on-paper lessons-on-paper"><p>quoted</p></div>
    <section class="appendix" aria-labelledby="y"><p>appended</p></section><p>last</p></article>"""
    words = set(words_of(body, ROW))
    assert {"seen", "after", "last"} <= words
    assert not words & {
        "scripted", "styled", "templated", "opened", "worked", "attribute", "elsewhere", "appended", "quoted",
    }  # fmt: skip


def test_all_of_the_row_is_found_and_what_somebody_wrote_is_marked() -> None:
    thread = ThreadRow("M64x6-6g-LH", "ISO metric", "64 mm", 0.064, "6 mm", 0.006, 1, "left", "outside")
    row = ArchiveRow(
        "SW-2", "Bollard spindle", "1999", "in work", True, thread, "bronze", "long", ("collet",), "SM-114",
        ("lifts",), "not seen", ("thin-wall",), ("keep it cold",), text="the flank galled",
    )  # fmt: skip
    words = set(words_of("", row))
    written = {"sw-2", "bollard", "m64x6-6g-lh", "bronze", "long", "sm-114", "galled", "cold"}
    assert written <= words
    assert {WRITTEN + word for word in written} <= words
    computed = {"1999", "work", "metric", "64", "left", "outside", "collet", "lifts", "seen", "thin-wall"}
    assert computed <= words
    assert not {WRITTEN + word for word in computed - {"64"}} & words


def test_words_are_sorted_each_once_and_none_is_endless() -> None:
    words = words_of("b a b " + "x" * 500, ROW)
    assert list(words) == sorted(set(words))
    assert max(map(len, words)) <= LONGEST + len(WRITTEN)


def test_folding_is_done_once() -> None:
    for text in ("2½ Größe ⌀63 × — ﬁ İ ΑΣ", "İSTANBUL", "ǅ", "①", "5″"):
        assert fold(fold(text)) == fold(text)
