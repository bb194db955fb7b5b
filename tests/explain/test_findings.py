"""Every finding is explained, and nothing is that no module finds any more."""

from __future__ import annotations

from fnmatch import fnmatchcase

from generator.explain.findings import finding_entries
from generator.explain.sentences import all_said
from generator.explain.written import finding_texts
from generator.sheet.harm import HARM

TEXTS = finding_texts()


def test_every_finding_is_explained_and_none_that_is_gone() -> None:
    """`tests/sheet/test_harm.py` holds the ids of the table to those of the sources."""
    assert [id for id in HARM if not any(fnmatchcase(id, name) for name in TEXTS)] == []
    assert [name for name in TEXTS if not any(fnmatchcase(id, name) for id in HARM)] == []


def test_an_entry_says_why_what_to_do_and_how_grave_it_is() -> None:
    for entry in finding_entries().values():
        assert entry.levels, entry.id
        assert entry.why.endswith((".", "?")), entry.id
        assert entry.do.endswith((".", "?")), entry.id
        assert entry.source


def test_what_a_finding_says_is_read_from_the_sources() -> None:
    """One that nobody put together from words: its sentence stands in the module that finds it."""
    entries = finding_entries()
    assert any("less than a third of what stands out" in one for one in entries["grip-short"].sentences)
    spoken = [entry for entry in entries.values() if entry.sentences]
    assert len(spoken) > 0.75 * len(entries)
    assert entries["chuck-speed"].levels == ("stop",)
    assert entries["grip-low"].levels == ("stop", "check")


def test_levels_by_hand_only_where_the_sources_have_none() -> None:

    said = all_said()
    needless = [id for id, text in TEXTS.items() if text.levels and id in said and said[id].levels]
    assert needless == []
