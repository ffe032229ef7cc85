"""Whether a measured capacitor is still within its class, and whether another one may take its place.

Go by the unit's wiring plate or the maker's parts list: the part that sits there may itself be a wrong one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from coldwright.electrical.capacitor import Purpose
from coldwright.electrical.capacitor_discharge import IN_ONE_MINUTE, keeps, volts_left
from coldwright.electrical.measured import Measured
from coldwright.errors import InputError
from coldwright.quantities.checks import check_farad, check_positive

ROUNDING = 1e-9  # part of a capacitance that is rounding of the computer, and no difference


class ToleranceClass(Enum):
    """How far a capacitor may be from the value printed on it: lowest and highest share, and where that comes from."""

    START_20 = (0.0, 0.20, "EIA-463, start capacitors (from memory, not sure)")
    START_25 = (0.0, 0.25, "start capacitors to VDE 0560-8 (read on a maker's page, brand withheld)")
    RUN_5 = (-0.05, 0.05, "IEC 60252-1, preferred tolerances of run capacitors (from memory)")
    RUN_6 = (-0.06, 0.06, "usual print on run capacitors in the US (read in a trade article)")
    RUN_10 = (-0.10, 0.10, "IEC 60252-1, preferred tolerances of run capacitors (from memory)")
    RUN_15 = (-0.15, 0.15, "IEC 60252-1, preferred tolerances of run capacitors (from memory)")

    @property
    def low(self) -> float:
        """Share below the printed value, zero or negative [1]."""
        return self.value[0]

    @property
    def high(self) -> float:
        """Share above the printed value [1]."""
        return self.value[1]

    @property
    def source(self) -> str:
        """Where the class comes from."""
        return self.value[2]

    def band(self, farad: float) -> tuple[float, float]:
        """Lowest and highest capacitance that the class allows.

        Parameters
        ----------
        farad : float
            Printed value, positive [F]

        Returns
        -------
        tuple of float
            Lowest and highest [F]
        """
        check_farad(farad, "the printed capacitance")
        return farad * (1.0 + self.low), farad * (1.0 + self.high)


@dataclass(frozen=True)
class Marking:
    """What is printed on a capacitor; `lowest` and `highest` in F, `bleed_ohm` None for no bleed resistor."""

    lowest: float
    highest: float
    volts: float
    purpose: Purpose
    frequencies_hz: tuple[float, ...] = (50.0, 60.0)
    bleed_ohm: float | None = None

    def __post_init__(self) -> None:
        """Refuses what is printed on no capacitor."""
        check_farad(self.lowest, "the lowest capacitance printed")
        check_farad(self.highest, "the highest capacitance printed")
        if self.lowest > self.highest:
            raise InputError(
                f"the printed range is {self.lowest * 1e6:g} µF to {self.highest * 1e6:g} µF; "
                "the lowest must come first"
            )
        check_positive("the printed voltage", self.volts, "V")
        if not isinstance(self.frequencies_hz, tuple):
            raise InputError(f"the printed frequencies are {self.frequencies_hz!r}; give a tuple such as (50.0, 60.0)")
        if not self.frequencies_hz:
            raise InputError("no frequency is printed; a capacitor is for 50 Hz, 60 Hz or both")
        for hertz in self.frequencies_hz:
            check_positive("a printed frequency", hertz, "Hz")
        if self.bleed_ohm is not None:
            check_positive("the bleed resistor", self.bleed_ohm, "Ω", "None stands for no resistor")

    @classmethod
    def of(
        cls,
        farad: float,
        tolerance: ToleranceClass,
        volts: float,
        purpose: Purpose,
        frequencies_hz: tuple[float, ...] = (50.0, 60.0),
        bleed_ohm: float | None = None,
    ) -> Marking:
        """A marking with one value and a class in place of a range.

        Parameters
        ----------
        farad : float
            Printed value, positive [F]
        tolerance : ToleranceClass
            Class [-]
        volts : float
            Rated voltage, RMS [V]
        purpose : Purpose
            Start or run [-]
        frequencies_hz : tuple of float
            Frequencies it is for [Hz]
        bleed_ohm : float, optional
            Bleed resistor across the terminals [Ω]

        Returns
        -------
        Marking
            With the lowest and highest value of the class.
        """
        return cls(*tolerance.band(farad), volts, purpose, frequencies_hz, bleed_ohm)

    @property
    def range_text(self) -> str:
        """The printed range in µF, in words."""
        return f"{self.lowest * 1e6:.4g} µF to {self.highest * 1e6:.4g} µF"


class Within(Enum):
    """Whether a capacitor is inside its range."""

    YES = "yes"
    NO = "no"
    CANNOT_TELL = "cannot tell"


def within(measured: Measured, farad: float, tolerance: ToleranceClass) -> Within:
    """Whether a measured capacitance is within its class, the meter's limit allowed for.

    Parameters
    ----------
    measured : Measured
        Reading and its limit; inf for over range [F]
    farad : float
        Printed value, positive [F]
    tolerance : ToleranceClass
        Class [-]

    Returns
    -------
    Within
        `CANNOT_TELL` where the edge of the class lies inside the meter's limit.
    """
    return within_range(measured, *tolerance.band(farad))


def within_range(measured: Measured, lowest: float, highest: float) -> Within:
    """Whether a measured capacitance is within a printed range, the meter's limit allowed for.

    Parameters
    ----------
    measured : Measured
        Reading and its limit; inf for over range [F]
    lowest, highest : float
        Printed range, positive [F]

    Returns
    -------
    Within
        `CANNOT_TELL` where an edge of the range lies inside the meter's limit.
    """
    check_farad(lowest, "the lowest capacitance printed")
    check_farad(highest, "the highest capacitance printed")
    if measured.is_open:
        return Within.NO
    low, high = measured.value - measured.limit, measured.value + measured.limit
    if lowest * (1 - ROUNDING) <= low and high <= highest * (1 + ROUNDING):
        return Within.YES
    if high < lowest * (1 - ROUNDING) or low > highest * (1 + ROUNDING):
        return Within.NO
    return Within.CANNOT_TELL


def judge_replacement(old: Marking, offered: Marking, supply_hz: float | None = None) -> list[str]:
    """Reasons why an offered capacitor must not take the place of another; empty if it fits.

    Parameters
    ----------
    old : Marking
        What belongs there, by the wiring plate or the maker's list [-]
    offered : Marking
        What is to be fitted [-]
    supply_hz : float, optional
        Frequency of the supply; every frequency that the old one is for, unless told [Hz]

    Returns
    -------
    list of str
        One sentence for each reason.

    Notes
    -----
    Same capacitance within the class, voltage the same or higher, same purpose, frequency, and a bleed resistor where
    there was one (common practice, no source). Size, terminals, temperature and class of safety are to be compared too.
    """
    if supply_hz is not None:
        check_positive("the frequency of the supply", supply_hz, "Hz")
    needed = old.frequencies_hz if supply_hz is None else (supply_hz,)
    found = (
        _purpose(old, offered),
        _capacitance(old, offered),
        _voltage(old, offered),
        _frequency(needed, offered),
        _bleed(old, offered),
    )
    return [reason for reason in found if reason]


def _purpose(old: Marking, offered: Marking) -> str:
    if old.purpose is offered.purpose:
        return ""
    if offered.purpose is Purpose.START:
        return "it is a start capacitor, made for seconds; in the place of a run capacitor it overheats and bursts"
    return "it is a run capacitor; a start capacitor is wanted"


def _capacitance(old: Marking, offered: Marking) -> str:
    slack = old.highest * ROUNDING
    if old.lowest - slack <= offered.lowest and offered.highest <= old.highest + slack:
        return ""
    text = f"it may have {offered.range_text}; {old.range_text} is wanted"
    if offered.highest < old.lowest:
        return f"{text}: too small"
    if offered.lowest > old.highest:
        return f"{text}: too large"
    return f"{text}: its range reaches outside"


def _voltage(old: Marking, offered: Marking) -> str:
    if offered.volts >= old.volts:
        return ""
    return f"it is for {offered.volts:g} V; {old.volts:g} V or more is wanted"


def _frequency(needed: tuple[float, ...], offered: Marking) -> str:
    missing = [hertz for hertz in needed if hertz not in offered.frequencies_hz]
    return f"it is not marked for {' and '.join(f'{hertz:g} Hz' for hertz in missing)}" if missing else ""


def _bleed(old: Marking, offered: Marking) -> str:
    if old.bleed_ohm is None:
        return ""
    if offered.bleed_ohm is None:
        return f"it has no bleed resistor; the old one has {old.bleed_ohm:g} Ω across its terminals"
    peak, seconds = math.sqrt(2.0) * offered.volts, IN_ONE_MINUTE.seconds
    if keeps(IN_ONE_MINUTE, peak, offered.highest, offered.bleed_ohm):
        return ""
    left = volts_left(peak, offered.highest, offered.bleed_ohm, seconds)
    return (
        f"its bleed resistor of {offered.bleed_ohm:g} Ω is too weak: {left:.0f} V may be left after {seconds:g} s, "
        f"{IN_ONE_MINUTE.volts:g} V is the most"
    )
