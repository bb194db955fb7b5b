"""What the setup drawing shows along the bed: all that travels where there is least room, all that stands."""

from __future__ import annotations

from math import isfinite

from generator.calc.reach import Level, Obstacle
from generator.job.lathe_parts import Head
from generator.sheet.drawn import ReachScene
from generator.sheet.obstacles import (
    BED,
    CARRIAGE,
    CENTER,
    COMPOUND,
    FOLLOW_REST,
    QUILL,
    STEADY,
    TAILSTOCK,
    TOOL,
)
from generator.sheet.plans import ReachPlan
from generator.si import Length


def reach_scene(head: Head | None, plan: ReachPlan | None) -> ReachScene | None:
    """The place with the least room; None when nothing is compared."""
    if plan is None or plan.tightest is None or plan.tool_at is None:
        return None
    tight, at = plan.tightest, plan.tool_at
    sign = -1 if tight.side == "left" else 1
    quill = _obstacle(plan, QUILL, CENTER)
    tailstock = _obstacle(plan, TAILSTOCK, BED)
    front = tailstock.start if tailstock else None
    return ReachScene(
        tool_at=at,
        nose=-head.length.si if head and head.length else None,
        carriage=_part(plan, CARRIAGE, at),
        holder=_part(plan, TOOL, at),
        compound=_part(plan, COMPOUND, at),
        follow_rest=_part(plan, FOLLOW_REST, at),
        fingers=_room(_obstacle(plan, STEADY, CENTER)),
        base=_room(_obstacle(plan, STEADY, BED)),
        quill=quill.start if quill else (front - plan.quill_out if front is not None else None),
        tailstock=front,
        part=tight.part,
        obstacle=tight.obstacle,
        edge=tight.edge + sign * tight.reach,
        face=tight.face,
        clearance=tight.clearance,
        cut=plan.cut,
    )


def _part(plan: ReachPlan, name: str, at: Length) -> tuple[Length, Length] | None:
    """Room that a part takes with the tool's point at a place; a side that is not known ends at the point."""
    part = next((one for one in plan.parts if one.name == name), None)
    if part is None or (part.left is None and part.right is None):
        return None
    left = at - part.left if part.left is not None else at
    right = at + part.right if part.right is not None else at
    return (left, right) if left < right else None


def _obstacle(plan: ReachPlan, name: str, level: Level) -> Obstacle | None:
    return next((one for one in plan.obstacles if one.name == name and one.level == level), None)


def _room(obstacle: Obstacle | None) -> tuple[Length, Length] | None:
    if obstacle is None or not (isfinite(obstacle.start) and isfinite(obstacle.end)):
        return None
    return (obstacle.start, obstacle.end) if obstacle.start < obstacle.end else None
