"""A large archive of an invented shop, made in memory: the same jobs for the same seed."""

from __future__ import annotations

import random
from functools import cache

from generator.archive.listed import Listed
from generator.sheet.row import ArchiveRow, DayRow, ThreadRow, TimeRow

YEARS = range(2026, 1986, -1)
LATHES = ("L1 Long lathe", "L2 Thirteen-inch lathe", "L3 Metric lathe", "L4 Bench lathe")
MATERIALS = (
    "1045 steel", "4140 steel 30 HRC", "EN8 steel", "303 stainless", "316 stainless", "bronze", "brass",
    "cast iron", "ductile iron", "6061 aluminum", "Monel", "unknown steel",
)  # fmt: skip
HOLDING = (
    ("4-jaw chuck", "live center"), ("3-jaw chuck",), ("3-jaw chuck", "steady rest"), ("collet",),
    ("4-jaw chuck", "steady rest", "through the spindle"), ("between centers",),
    ("3-jaw chuck", "soft jaws"), ("faceplate",), ("between centers", "follow rest"),
)  # fmt: skip
DUTY = (
    ("not said",), ("unknown",), ("people depend on it",), ("lifts",), ("pressure", "hot"),
    ("people depend on it", "lifts"),
)  # fmt: skip
MATES = ("on the bench", "measured, not here", "not seen", "unknown", "")
FINDINGS = tuple(f"finding-{number}" for number in range(60))
PARTS = (
    "spindle", "hinge pin", "valve stem", "gate stud", "pump shaft", "sleeve", "lens ring", "tie rod",
    "nut", "coupling", "gland", "lifting screw", "roller", "bushing", "plug", "flange bolt",
)  # fmt: skip
WORK = (
    "re-cut thread", "new, like the old one", "thread repaired", "worn end", "made to its mate",
)  # fmt: skip
WORDS = tuple(f"{a}{b}{c}" for a in ("gal", "sto", "ru", "pin") for b in ("de", "bo", "mi") for c in "lnrst")


def made_jobs(count: int, seed: int = 7) -> list[Listed]:
    """`count` jobs, the newest year first, then by folder name, as many in every year."""
    return list(_made(count, seed))


@cache
def _made(count: int, seed: int) -> tuple[Listed, ...]:
    choose = random.Random(seed)
    customers = [f"{a}{b}-{number:03}" for a in "ABDEGKMNPS" for b in "MNRST" for number in range(40)]
    threads = [_thread(choose) for _ in range(400)]
    jobs: list[Listed] = []
    for place, year in enumerate(YEARS):
        many = count // len(YEARS) + (place < count % len(YEARS))
        jobs += (_job(choose, year, number, customers, threads) for number in range(1, many + 1))
    return tuple(jobs)


def _job(
    choose: random.Random, year: int, number: int, customers: list[str], threads: list[ThreadRow]
) -> Listed:
    name = f"SW-{year % 100:02}{number:04}"
    title = f"{choose.choice(PARTS).capitalize()}, {choose.choice(WORK)}"
    slug = title.split(",")[0].lower().replace(" ", "-")
    thread = threads[int(len(threads) * choose.random() ** 2)] if choose.random() < 0.95 else None
    ready = choose.random() < 0.97
    few = choose.random() ** 3
    row = ArchiveRow(
        number=name,
        title=title,
        year=str(year),
        status=("done" if year < YEARS[0] else choose.choice(("done", "in work", "waiting")))
        if ready else "not ready to run",
        ready=ready,
        thread=thread,
        material=MATERIALS[int(len(MATERIALS) * choose.random() ** 2)],
        lathe=LATHES[int(len(LATHES) * choose.random() ** 2)],
        holding=HOLDING[int(len(HOLDING) * choose.random() ** 2)],
        customer=customers[int(len(customers) * choose.random() ** 3)],
        duty=DUTY[int(len(DUTY) * choose.random() ** 3)],
        mate=MATES[int(len(MATES) * choose.random() ** 2)],
        findings=tuple(one for place, one in enumerate(FINDINGS) if choose.random() < few / (1 + place / 3)),
        learned=("Center was only snug.",) if choose.random() < 0.1 else (),
        days=(DayRow(f"{year}-{1 + number % 12:02}-{1 + number % 28:02}", "received"),),
        times=(TimeRow("thread", 1200.0, 60.0 * choose.randint(10, 60)),),
        text=" ".join(choose.choices(WORDS, k=30)),
    )  # fmt: skip
    return Listed(f"sheets/{year}/{name}-{slug}.html", row, f"{name} {choose.getrandbits(64):016x}")


def _thread(choose: random.Random) -> ThreadRow:
    hand = "left" if choose.random() < 0.05 else "right"
    side = "inside" if choose.random() < 0.25 else "outside"
    if choose.random() < 0.5:
        size, pitch = choose.randint(6, 100), choose.choice((1.0, 1.5, 2.0, 3.0, 3.5))
        designation = f"M{size}x{pitch:g}-{'6H' if side == 'inside' else '6g'}"
        words = f"{size} mm", size / 1000, f"{pitch:g} mm", pitch / 1000
        family = "ISO metric"
    else:
        whole, eighths, count = choose.randint(0, 4), choose.randint(1, 7), choose.choice((4, 6, 8, 12, 16))
        text = f"{whole} {eighths}/8" if whole else f"{eighths}/8"
        designation = f"{text}-{count} UN-2{'B' if side == 'inside' else 'A'}"
        words = f"{text} in", (whole + eighths / 8) * 0.0254, f"{count} per inch", 0.0254 / count
        family = "Unified"
    left = "-LH" if hand == "left" else ""
    size_words, nominal, pitch_words, pitch_si = words
    return ThreadRow(designation + left, family, size_words, nominal, pitch_words, pitch_si, 1, hand, side)
