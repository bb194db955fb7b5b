"""Jobs far larger than those of the demo, as files: routes of many operations, logs of many entries."""

from __future__ import annotations

from pathlib import Path

SHOP = Path(__file__).parents[2] / "jobs" / "_shop"
HEAD = """\
job: {name}
title: Stepped spindle with a clamp thread
customer: SM-990
received: 2026-05-11
status: in work
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {{length: 14, od: 2 1/4, bore: 1 1/8, surface: turned}}
  - {{length: 5, od: 2, bore: 1 1/8}}
holding: {{chuck: {{jaws: 3, grip: 2}}, steady: {{at: 11}}, hold_back: yes}}
limits: {{wall: 0.250}}
mate: {{part: clamp ring, thread: {thread}B, engagement: 1 1/2, on_bench: yes}}
duty: {{said: Clamps the head of a bollard; a rope pulls on it., by: customer, load: 9000 lbf}}
operations:
  - face: {{end: right, stock: 1/32}}
  - turn: {{diameter: 2, length: 5, from_diameter: 2 1/4}}
{more}  - relief: {{width: 3/16, radius: 0.031}}
  - chamfer: {{end: right, angle: 45}}
  - thread: {{designation: {thread}A, length: 1 3/4, fit: wires, tool: V1}}
"""
TURN = "  - turn: {{diameter: 2, length: {length}, from_diameter: 2 1/64, from_end: {place}}}\n"
ENTRY = """\
- at: 2026-{month:02d}-{day:02d} {hour:02d}:10
  by: machinist 1
  operation: thread
  pass: {number}
  dial: {dial:.3f}
  measured: {{over_wires: {size:.4f}, with: micrometer 2-3 in}}
  note: Chips long and blue at the far end, and the lower fingers of the steady rest were set again.
"""


def large_job(folder: Path, operations: int = 5, entries: int = 0, thread: str = "2-8 UN-2") -> Path:
    """A job file in a folder of its own below `folder`, with as many operations, and entries in its log."""
    home = folder / f"L-{operations}-{entries}-large"
    home.mkdir(parents=True)
    turned = "".join(
        TURN.format(length=f"{number % 7 + 1}/8", place=f"{number % 4 + 1} 1/4")
        for number in range(operations - 5)
    )
    path = home / "job.yml"
    path.write_text(HEAD.format(name=home.name[:-6], more=turned, thread=thread), encoding="utf-8")
    if entries:
        log = (
            ENTRY.format(
                month=number // 168 + 6, day=number // 6 % 28 + 1, hour=number % 6 * 2 + 7,
                number=number % 20 + 1, dial=0.022 + 0.003 * (number % 20), size=2.09 - 0.003 * (number % 20),
            )
            for number in range(entries)
        )
        path.with_name("log.yml").write_text("".join(log), encoding="utf-8")
    return path
