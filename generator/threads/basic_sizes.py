"""Sizes of threads for which no standard gives limits: the form's, as they are met at most material."""

from __future__ import annotations

from generator.language.say import say
from generator.threads.designation import Designation
from generator.threads.sizes import Range, ThreadLimits, size_line, too_coarse


def basic_limits(
    d: Designation, *, addendum: float, root: float, source: str, remarks: tuple[str, ...],
    bore: float | None = None, crest: float = 0.0, memory: tuple[str, ...] = (),
) -> ThreadLimits:
    """Basic sizes of a thread: a max outside, a min inside, and no other limit.

    major D - 2 c P;  pitch diameter D - 2 a P;  minor D - 2 b P

    Parameters
    ----------
    d : the thread
    addendum : a, height of the crest above the pitch line over the pitch
    root : b, depth of the screw's groove over the pitch
    source, remarks, memory : as in `ThreadLimits`
    bore : b of the nut, where that is less
    crest : c, what is taken off crests that would come out sharp, over the pitch

    Returns
    -------
    ThreadLimits (own unit)

    Raises
    ------
    OutsideRange
        For a pitch so coarse that no core is left.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    A sharp V of 1 in and 8 threads is 0.7835 in at the root (Rose, Modern Machine-Shop Practice):

    >>> round(1 - 2 * 0.8660254 / 8, 4)
    0.7835

    Source: geometry of the form.
    """
    places = 3 if d.unit == "mm" else 4
    pitch = float(d.pitch)
    deep = bore if d.internal and bore is not None else root
    nominal = d.nominal
    major, effective, minor = (nominal - 2 * height * pitch for height in (crest, addendum, deep))
    if minor <= 0:
        raise too_coarse(d, minor)
    sizes = [round(size, places) for size in (major, effective, minor)]
    end, letter = ("min", "D") if d.internal else ("max", "d")
    ranges = [Range(None, size) if d.internal else Range(size, None) for size in sizes]
    return ThreadLimits(
        designation=d, major=ranges[0], pitch_diameter=ranges[1], minor=ranges[2], allowance=0.0,
        major_tolerance=None, pitch_tolerance=None, engagement=None, engagement_standard=True, tabulated=True,
        remarks=remarks, source=source, from_memory=memory, places=places,
        lines=(
            size_line(
                f"major.{end}", sizes[0], f"{{{letter}}} − {2 * crest:.6g} × {{P}}", nominal, pitch,
                label=say("Major diameter, basic"),
            ) if crest else size_line(
                f"major.{end}", sizes[0], f"{{{letter}}}", nominal, label=say("Major diameter, basic")
            ),
            size_line(
                f"pitch_diameter.{end}", sizes[1], f"{{{letter}}} − {2 * addendum:.6g} × {{P}}", nominal,
                pitch, label=say("Pitch diameter, basic"),
            ),
            size_line(
                f"minor.{end}", sizes[2], f"{{{letter}}} − {2 * deep:.6g} × {{P}}", nominal, pitch,
                label=say("Minor diameter, basic"),
            ),
        ),
    )
