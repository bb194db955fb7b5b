"""Invented jobs for the benchmarks: stepped, tapered, hollow work, held in every way that holds long work."""

from __future__ import annotations

import random

HELD = (
    "chuck: {jaws: 3, grip: 3}", "chuck: {jaws: 4, grip: 3, key_torque: 90 lbf ft}, steady: {at: auto}",
    "chuck: {jaws: 3, grip: 2}, center: live", "centers: {dog: 1}, center: dead",
    "chuck: {jaws: 6, grip: 2, soft_jaws: yes}, steady: {at: auto}, center: live",
    "chuck: {jaws: 4, grip: 2}, center: live, follow_rest: yes",
)


def stepped_job(seed: int) -> str:
    """The text of a job: three to six sections, of which the last two are turned and the last is threaded."""
    draw = random.Random(seed)
    held = HELD[seed % len(HELD)]
    bore = draw.choice((0.0, 0.0, 0.75, 1.0)) if held.startswith("chuck") else 0.0
    hollow = f", bore: {bore}" if bore else ""
    size, work = draw.choice((3.0, 3.5, 4.0)), []
    for number in range(draw.randint(1, 4)):
        smaller = round(size - draw.choice((0.125, 0.25)), 3)
        taper = number > 0 and draw.random() < 0.3
        end = f", od_end: {smaller}" if taper else ""
        work.append(f"  - {{length: {draw.randint(5, 12)}, od: {size}{end}{hollow}, surface: turned}}\n")
        size = smaller
    last = draw.choice((2.0, 2.25))
    lengths = draw.randint(4, 9), draw.randint(4, 6)
    work += [
        f"  - {{length: {length}, od: {od}{hollow}}}\n"
        for length, od in zip(lengths, (size, last), strict=True)
    ]
    return (
        f"job: T-{seed}\ntitle: Stepped shaft\nunits: inch\nlathe: long-bed\nmaterial: 1045 steel\n"
        f"material_known_by: stamp\nwork:\n{''.join(work)}holding: {{{held}}}\nmate: unknown\n"
        f"duty: {{said: turns, by: customer, load: 2000 lbf}}\n"
        f"limits: {{diameter: 0.002}}\nheat: {{cutting: 30 F}}\noperations:\n"
        f"  - turn: {{diameter: {size}, length: {lengths[0]}, from_diameter: {size + 0.125}, "
        f"from_end: {lengths[1]}}}\n"
        f"  - turn: {{diameter: {last}, length: {lengths[1]}, from_diameter: {size + 0.125}}}\n"
        "  - relief: {width: 3/8, radius: 1/16}\n  - chamfer: {end: right, angle: 45}\n"
        f"  - thread: {{designation: {'2' if last == 2 else '2 1/4'}-8 UN-2A, length: 2 1/2, tool: V1}}\n"
    )
