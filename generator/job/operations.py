"""The operations of a job file, one model for each, and the entry that holds one of them.

In reading order: what every operation may say, the cuts (face, center drill, turn, taper, bore, drill,
groove, chamfer, knurl, part off, polish), the relief, the thread, Operation. Whatever is left out is
computed from the work, the lathe and the material. The line under each key is what an editor and the
error messages show for it.
"""

from __future__ import annotations

from typing import Annotated, Any, Final, Literal, Self

from pydantic import Field, model_validator

from generator.errors import BadDesignation
from generator.job.fields import (
    Angle,
    Count,
    CountOrZero,
    FeedPerRev,
    Length,
    LengthOrZero,
    Line,
    Number,
    SpindleSpeed,
    Strict,
    SurfaceSpeed,
    Text,
    ThreadDesignation,
    Time,
    Units,
    Word,
    YesNo,
)
from generator.job.written import refused
from generator.language.say import say
from generator.threads.designation import Designation, Side
from generator.threads.registry import parse_designation

THREAD_ALONE: Final = frozenset({"thread", "relief"})  # a list of these only has no order worth the name


class Settings(Strict):
    """What any operation may say about how it is run; what it leaves out is computed."""

    tool: Line | None = None
    """A tool of the shop's tools file."""
    spindle: SpindleSpeed | None = None
    """A spindle step of the lathe, chosen by the shop."""
    speed: SurfaceSpeed | None = None
    """Surface speed to stay below."""
    hold: Text | None = None
    """What to measure or have decided before going on: a hold point."""
    time: Time | None = None
    """Time it is known to take, instead of the computed one."""
    note: Text | None = None
    """Anything to be said about it."""


class Cut(Settings):
    """An operation that is neither the relief nor the thread."""

    end: Annotated[Literal["left", "right"], Word] | None = None
    """End of the work: left is the chuck, right the tailstock."""
    length: Length | None = None
    """Length of the cut."""
    diameter: Length | None = None
    """Diameter it is cut to."""
    from_diameter: Length | None = None
    """Diameter before the cut, where the work's own does not say it."""
    depth: Length | None = None
    """Depth of the cut."""
    width: Length | None = None
    """Width of the cut."""
    from_end: LengthOrZero | None = None
    """Where it is, from the tailstock end of the work."""
    angle: Angle | None = None
    """Angle of the cut."""
    feed: FeedPerRev | None = None
    """Feed, from those the lathe has."""
    cut: Length | None = None
    """Largest cut of a pass, radial."""
    finish: LengthOrZero | None = None
    """Last cut, radial; 0 for no finishing cut."""

    @model_validator(mode="before")
    @classmethod
    def _bare(cls, written: Any) -> Any:
        """`- face:` with nothing after it is the operation alone."""
        return {} if isinstance(written, str) and not written.strip() else written


class Face(Cut):
    """Face an end."""

    stock: Length | None = None
    """How much comes off the end."""


class Turn(Cut):
    """Turn a diameter; `band` is one for the steady rest."""

    band: YesNo = False
    """This is the band that the steady rest runs on."""


class Taper(Cut):
    """Turn a taper: two diameters and a length, or a diameter and a named taper or angle."""

    diameter_end: Length | None = None
    """Small end, where `diameter` is the large one."""
    named: Line | None = None
    """A standard taper, such as Morse 3."""
    per_foot: Length | None = None
    """Taper on diameter in one foot."""
    by: Annotated[Literal["compound", "tailstock", "attachment"], Word] | None = None
    """How it is turned; chosen from what the lathe has where not given."""


class Bore(Cut):
    """Bore to a diameter; `seal` is a bore that a seal ring runs or sits in."""

    seal: YesNo = False
    """A seal ring passes through or sits in it."""


class Drill(Cut):
    """Drill a hole along the axis, or across the work where `across` says so."""

    through: YesNo = False
    """The hole goes through."""
    across: YesNo = False
    """The hole goes across the work and is drilled at another machine."""
    ream: YesNo = False
    """Reamed to its diameter after drilling."""


class Chamfer(Cut):
    """Chamfer an end or edge; `lead_in` is one that a seal ring has to pass."""

    lead_in: YesNo = False
    """A seal ring has to pass it: slow angle, edge rounded."""
    inside: YesNo = False
    """On the edge of the bore."""


class Knurl(Cut):
    """Knurl a length."""

    pitch: Length | None = None
    """Pitch of the knurl."""
    pattern: Annotated[Literal["straight", "diamond"], Word] | None = None
    """Pattern of the knurl."""


class Infeed(Strict):
    """How the tool goes in: straight, or along the compound set over from the cross-slide direction."""

    method: Annotated[Literal["compound", "plunge"], Word] = "compound"
    """Along the compound, or straight in."""
    angle: Angle | None = None
    """Compound angle from the cross-slide direction."""


class Thread(Settings):
    """Cut a thread; hand, pitch, tpi, class, starts, units beside its designation are checked against it."""

    designation: ThreadDesignation
    """Thread designation, such as 2-8 UN-2A or M16x2-6g."""
    inside: YesNo | None = None
    """The thread is in a bore, where its designation does not say so by its class."""
    length: Length
    """Length of full thread."""
    from_end: LengthOrZero | None = None
    """Where it starts, from the tailstock end of the work."""
    fit: Annotated[Literal["wires", "mate", "gauge"], Word] = "wires"
    """What decides that it fits."""
    hand: Annotated[Literal["right", "left"], Word] | None = None
    """Hand, if said beside the designation."""
    pitch: Length | None = None
    """Pitch, if said beside the designation."""
    tpi: Number | None = None
    """Threads in one inch, if said beside the designation."""
    class_: Line | None = Field(default=None, alias="class")
    """Class of fit, if said beside the designation."""
    starts: Count | None = None
    """Number of starts, if said beside the designation."""
    units: Units | None = None
    """Unit of this thread, where it is not the file's."""
    engagement: Length | None = None
    """Length of engagement the limits are to be worked for."""
    plating: Length | None = None
    """Thickness of the plating or coating that it gets afterwards, such as 8 um."""
    run_out: Length | None = None
    """Length over which the thread fades out at its chuck end, where it has no relief."""
    load_flank: Annotated[Literal["chuck", "tailstock"], Word] | None = None
    """End that the flanks which carry the load look at, of a thread with unlike flanks."""
    blank: Length | None = None
    """Diameter as measured before threading."""
    infeed: Infeed = Infeed()
    """How the tool goes in."""
    first_cut: Length | None = None
    """Radial depth of the first cut."""
    last_cut: Length | None = None
    """Radial depth of the last cut."""
    spring_passes: CountOrZero | None = None
    """Passes without new depth at the end."""
    wire: Length | None = None
    """Wire to measure over."""

    @model_validator(mode="after")
    def _one_side(self) -> Self:
        """Class and `inside` must not say different sides."""
        try:
            self.read()
        except BadDesignation as error:
            raise refused(("inside", str(error))) from None
        return self

    @property
    def side(self) -> Side | None:
        """What stands beside the designation on where the thread is."""
        return None if self.inside is None else "internal" if self.inside else "external"

    def read(self) -> Designation:
        """The thread that the designation and the side beside it name."""
        return parse_designation(self.designation, self.side)


class Relief(Settings):
    """Cut the thread relief, next to the thread on its chuck side."""

    width: Length
    """Width along the work."""
    diameter: Length | None = None
    """Diameter at its bottom."""
    radius: LengthOrZero | None = None
    """Radius in its corners."""


class Operation(Strict):
    """One entry of `operations`: exactly one of these keys."""

    face: Face | None = None
    """Face an end."""
    center_drill: Cut | None = None
    """Center drill an end."""
    turn: Turn | None = None
    """Turn a diameter."""
    taper: Taper | None = None
    """Turn a taper."""
    bore: Bore | None = None
    """Bore to a diameter."""
    drill: Drill | None = None
    """Drill a hole."""
    groove: Cut | None = None
    """Cut a groove that is not the thread relief."""
    chamfer: Chamfer | None = None
    """Chamfer an end."""
    knurl: Knurl | None = None
    """Knurl a length."""
    part_off: Cut | None = None
    """Part off."""
    polish: Cut | None = None
    """Polish a length."""
    relief: Relief | None = None
    """Cut the thread relief."""
    thread: Thread | None = None
    """Cut a thread."""

    @model_validator(mode="before")
    @classmethod
    def _one_key(cls, written: Any) -> Any:
        """An entry is one operation; its order in the list is the order of work."""
        if isinstance(written, dict) and len(written) != 1:
            names = say(" and ").join(str(key) for key in list(written)[:3]) or say("nothing")
            raise refused(
                ("", say("has {names} in one entry: give each operation a dash of its own", names=names))
            )
        return written

    @property
    def name(self) -> str:
        """The key that was written: face, turn, thread …"""
        return next(iter(self.model_fields_set))

    @property
    def given(self) -> Cut | Relief | Thread:
        """What stands under that key."""
        entry: Cut | Relief | Thread = getattr(self, self.name)
        return entry


