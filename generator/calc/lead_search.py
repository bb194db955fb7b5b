"""What a lathe has for a lead: the plate alone, change gears, the closest there is, or the gear to buy.

    Setting            what change gears are put to: the leadscrew itself, or an entry of a gearbox plate
    Geared             a lead that a setting and a train give, exact or with its error
    Found, search      exact ones, else the closest of each size and the gear that would make it exact
    beside             the entries of a plate next finer and next coarser than a lead
    equivalent_diameter   what an error of lead does to a thread's fit
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calc.gear_trains import ChangeGears, Train
from generator.calc.wanted_lead import WantedLead
from generator.language.say import figure, say
from generator.si import Angle, Length


@dataclass(frozen=True)
class Setting:
    """What change gears are put to.

    `lead` is cut with drivers over driven of 1, mm; None where other gears cannot be put to it. `standard` is
    the lead with the gears that stand there as a rule, mm: an entry of a gearbox plate has one, a bare
    leadscrew has none. `words` name the entry.
    """

    lead: Fraction | None
    words: str = ""
    standard: Fraction | None = None


@dataclass(frozen=True)
class Geared:
    """A lead as it is cut: with `train` at `setting`, or by the setting alone where `train` is None."""

    wanted: WantedLead
    setting: Setting
    train: Train | None

    @property
    def lead(self) -> Fraction:
        """The lead that is cut, mm: lead of the setting × drivers ÷ driven."""
        base = self.setting.standard if self.train is None else self.setting.lead
        assert base is not None, "a bare leadscrew needs a train, and a setting without a lead has none"
        return base * (self.train.ratio if self.train else 1)

    @property
    def exact(self) -> bool:
        """True when the lead is the wanted one and no other; never for a lead with pi in it."""
        return self.wanted.is_exactly(self.lead)

    @property
    def error(self) -> float:
        """How much too long the lead is, as a share of the wanted one; negative when too short."""
        return self.wanted.error(self.lead)

    def over(self, length: Length) -> Length:
        """How far the thread has run off after this length along it.

        Examples
        --------
        80/63 for 127/100 is 125 parts in a million short (arithmetic), 0.003 mm after 25 mm:

        >>> from generator.calc.wanted_lead import lead_of_length
        >>> short = Geared(lead_of_length(Fraction(127, 100)), Setting(Fraction(1)), Train((80, 63)))
        >>> round(short.error * 1e6, 1), round(short.over(0.025) * 1000, 4)
        (-125.0, -0.0031)
        """
        return self.error * length

    def off(self) -> str:
        """The error of lead in words, in percent and in parts in a million.

        Examples
        --------
        >>> from generator.calc.wanted_lead import lead_of_length
        >>> Geared(lead_of_length(Fraction(127, 100)), Setting(Fraction(1)), Train((80, 63))).off()
        '0.0125 % (125 ppm) too short'
        """
        percent, ppm = abs(self.error) * 100, abs(self.error) * 1e6
        millionths = figure(ppm, ".3g" if ppm < 1000 else ".0f")
        if self.error > 0:
            return say("{percent:.3g} % ({millionths} ppm) too long", percent=percent, millionths=millionths)
        return say("{percent:.3g} % ({millionths} ppm) too short", percent=percent, millionths=millionths)

    def describe(self) -> str:
        """The gears and the entry, in the words of a sheet.

        Examples
        --------
        >>> from generator.calc.wanted_lead import lead_of_length
        >>> wanted = lead_of_length(Fraction(1))
        >>> Geared(wanted, Setting(Fraction(127, 40), "8 threads per inch"), Train((40, 127))).describe()
        '40 drives 127, plate on 8 threads per inch'
        """
        if self.train is None:
            return self.setting.words
        if not self.setting.words:
            return self.train.describe()
        return say("{train}, plate on {entry}", train=self.train.describe(), entry=self.setting.words)


@dataclass(frozen=True)
class Found:
    """What there is for a lead.

    `exact`: the plate alone where it has the lead, else trains, the best first. Where it is empty, `closest`
    holds for each number of gears the closest lead, as long as more gears come closer, the closest first;
    `to_buy` the smallest gear that would make the lead exact and `with_it` how, both None where no single
    gear does.
    """

    exact: tuple[Geared, ...] = ()
    closest: tuple[Geared, ...] = ()
    to_buy: int | None = None
    with_it: Geared | None = None


def search(
    wanted: WantedLead, settings: Sequence[Setting], gears: ChangeGears | None, most: int = 4
) -> Found:
    """All ways in which a lathe comes to a lead, or as near as it can: ``lead set × drivers ÷ driven``.

    Parameters
    ----------
    wanted : the lead
    settings : what trains can be put to: the leadscrew, or the entries of the plate
    gears : the change gears, or None for a lathe that has none
    most : how many exact ways to name

    Returns
    -------
    See `Found`; empty when there is nothing to set.

    Notes
    -----
    Exact, in fractions. No range.

    Examples
    --------
    >>> from generator.calc.gear_trains import change_gears
    >>> from generator.calc.wanted_lead import lead_of_length
    >>> screw = [Setting(Fraction(127, 40))]
    >>> search(lead_of_length(Fraction(2)), screw, change_gears([20, 40, 80, 127])).exact[0].describe()
    '80 drives 127'
    >>> found = search(lead_of_length(Fraction(2)), screw, change_gears([20, 40, 63, 80]))
    >>> found.exact, found.to_buy
    ((), 127)

    Source
    ------
    Lead = lead of the leadscrew × drivers ÷ driven: Jones, Turning and Boring (1914), change gears.
    """
    alone = [Geared(wanted, one, None) for one in settings if one.standard is not None]
    exact = [geared for geared in alone if geared.exact]
    geared_on = [one for one in settings if one.lead is not None]
    ratios = [wanted.length / one.lead for one in geared_on if one.lead is not None]
    if not exact and gears is not None and ratios and not wanted.times_pi:
        exact = [Geared(wanted, geared_on[at], train) for at, train in gears.exact(ratios, most)]
    if exact:
        return Found(tuple(exact[:most]))

    closest = sorted(alone, key=lambda geared: abs(geared.error))[:1]
    if gears is None or not ratios:
        return Found(closest=tuple(closest))
    for pairs in range(1, gears.pairs_tried + 1):
        near = gears.closest(ratios, pairs)
        if near is not None:
            geared = Geared(wanted, geared_on[near[0]], near[1])
            if not closest or abs(geared.error) < abs(closest[-1].error):
                closest.append(geared)
    lacking = None if wanted.times_pi else gears.lacking(ratios)
    if lacking is None:
        return Found(closest=tuple(reversed(closest)))
    teeth, at, train = lacking
    return Found((), tuple(reversed(closest)), teeth, Geared(wanted, geared_on[at], train))


def beside(lead: Fraction, settings: Sequence[Setting]) -> tuple[str, ...]:
    """The entries of a plate next finer and next coarser than a lead.

    Parameters
    ----------
    lead : mm
    settings : the entries of the plate

    Returns
    -------
    None, one or two entries as they read, the finer first.

    Examples
    --------
    >>> plate = [Setting(None, "1 mm", Fraction(1)), Setting(None, "2 mm", Fraction(2))]
    >>> beside(Fraction("1.3"), plate), beside(Fraction(3), plate)
    (('1 mm', '2 mm'), ('2 mm',))
    """
    entries = [(one.standard, one.words) for one in settings if one.standard is not None]
    finer = max((entry for entry in entries if entry[0] < lead), default=None)
    coarser = min((entry for entry in entries if entry[0] > lead), default=None)
    return tuple(entry[1] for entry in (finer, coarser) if entry)


def equivalent_diameter(error: Length, half_angle: Angle) -> Length:
    """How much an error of lead over the engagement takes off the fit on the pitch diameter.

    ``δd2 = |δP| × cot(half angle)``: 1.7321 δP at 60°, 1.9210 δP at 55°, 3.8667 δP at 29°.

    A thread of wrong lead touches its mate at the two ends of the engagement only, as if the pitch diameter
    of an external thread were so much larger, or that of an internal one so much smaller.

    Parameters
    ----------
    error : how far the lead has run off over the engagement, m
    half_angle : half the included angle of the thread, rad

    Returns
    -------
    Equivalent change of the pitch diameter, m.

    Notes
    -----
    For threads of equal flank angles. No range given in the source.

    Examples
    --------
    >>> [round(equivalent_diameter(1.0, math.radians(half)), 4) for half in (30, 27.5)]
    [1.7321, 1.921]

    Source
    ------
    National Physical Laboratory, Notes on Screw Gauges, error of pitch in relation to pitch diameter;
    FED-STD-H28; both from memory.
    """
    return abs(error) / math.tan(half_angle)
