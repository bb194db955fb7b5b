"""The files of the site that are made from the rows of the jobs: only those whose key is another."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from generator.archive.listed import Content
from generator.language.spoken import spoken
from generator.site.frame import Frame
from generator.site.kept import Cache, Stored, seal
from generator.site.program_key import program_key, word


def write_contents(contents: Iterable[Content], cache: Cache, frame: Frame, site: Path) -> dict[str, str]:
    """Let each stand in the site, those with a title in the frame; names, with their files in the cache.

    Raises
    ------
    OSError
        When one cannot be written.
    """
    kept, program = _kept(cache), word(program_key(), spoken().code)
    stands: dict[str, Stored] = {}
    for content in contents:
        key = word(program, content.key, frame.word if content.title else "")
        before = kept.get(content.name)
        if before is not None and before[0] == key and cache.stands(before[1]):
            stands[content.name] = before[1]
        else:
            stands[content.name] = _made(content, key, cache, frame)
    for folder in {os.path.dirname(f"{site}/{name}") for name in stands}:
        os.makedirs(folder, exist_ok=True)
    for name, stored in stands.items():
        cache.link(stored, f"{site}/{name}")
    with cache.writing() as database:
        database.executemany("DELETE FROM content WHERE name = ?", [(name,) for name in kept.keys() - stands])
    cache.save()
    return {name: stored.name for name, stored in stands.items()}


def _kept(cache: Cache) -> dict[str, tuple[str, Stored]]:
    with cache.writing() as database:
        rows = database.execute("SELECT name, key, file, size, written, seal FROM content").fetchall()
    return {row[0]: (row[1], Stored(*row[2:5])) for row in rows if row[5] == seal(*row[:5])}


def _made(content: Content, key: str, cache: Cache, frame: Frame) -> Stored:
    data = content.make().encode("utf-8")
    if content.title:
        data, _ = frame.around(content.title, data)
    named = word(content.name, key)
    stored = cache.store(f"{named[:2]}/{named}", data)
    row = (content.name, key, *stored)
    with cache.writing() as database:
        database.execute("INSERT OR REPLACE INTO content VALUES (?, ?, ?, ?, ?, ?)", (*row, seal(*row)))
    return stored
