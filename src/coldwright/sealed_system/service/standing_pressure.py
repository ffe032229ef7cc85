"""The nitrogen test: what pressure a tight system should show at another temperature, and whether a fall is a leak.

A sealed amount of gas follows absolute pressure and absolute temperature. To take the ratio of gauge pressures, or of
°C, is the usual error.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.constants import GAS_CONSTANT
from coldwright.refrigerants.nitrogen import nitrogen_density, nitrogen_pressure
from coldwright.sealed_system.service.inputs import check_positive, check_pressure, check_temperature

NITROGEN_KG_PER_MOL = 0.02801348


class GasLaw(Enum):
    """How nitrogen is taken; the value is what to call it."""

    IDEAL = "ideal gas"
    REAL = "real gas"


def expected_pressure(
    pressure_pa: float, temperature_k: float, new_temperature_k: float, law: GasLaw = GasLaw.REAL
) -> float:
    r"""Absolute pressure that a tight system filled with nitrogen shows at another temperature.

    The ideal gas gives :math:`p_2 = p_1 T_2 / T_1`; the real gas keeps its density.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure at the start [Pa]
    temperature_k : float
        Temperature of the gas at the start [K]
    new_temperature_k : float
        Temperature of the gas now [K]
    law : GasLaw
        Ideal or real gas [-]

    Returns
    -------
    float
        Absolute pressure now [Pa]

    Raises
    ------
    InputError
        If a pressure or temperature is none that a test meets.

    Notes
    -----
    The volume is taken as fixed, and the gas as having the temperature that was measured. After filling, wait until
    it has: gas that was just let in is warm.

    Examples
    --------
    >>> round(expected_pressure(1.0e6, 298.15, 288.15, GasLaw.IDEAL))
    966460
    """
    check_pressure("the pressure at the start", pressure_pa)
    check_temperature("the temperature at the start", temperature_k)
    check_temperature("the temperature now", new_temperature_k)
    if law is GasLaw.IDEAL:
        return pressure_pa * new_temperature_k / temperature_k
    return nitrogen_pressure(nitrogen_density(pressure_pa, temperature_k), new_temperature_k)


@dataclass(frozen=True)
class HoldReading:
    """Pressure and temperature read at one moment of a test, with what each can be off by.

    When one gauge takes both readings, its steady error falls out: `pressure_limit_pa` is then what it may differ by
    from one reading to the next, not the accuracy on its dial.
    """

    pressure_pa: float
    temperature_k: float
    pressure_limit_pa: float
    temperature_limit_k: float

    def __post_init__(self) -> None:
        check_pressure("the test pressure", self.pressure_pa)
        check_temperature("the temperature at the test", self.temperature_k)
        check_positive("the limit of the pressure", self.pressure_limit_pa, "Pa", "Every gauge has one: see its class.")
        check_positive("the limit of the temperature", self.temperature_limit_k, "K", "Every thermometer has one.")


class HoldFinding(Enum):
    """What a nitrogen test shows; the value is the sentence to say."""

    LEAK = "the pressure fell by more than temperature and the instruments explain: there is a leak"
    NONE_SHOWN = "the change lies within what temperature and the instruments explain: no leak is shown"
    ROSE = (
        "the pressure rose by more than temperature and the instruments explain: was the gas still settling, the "
        "nitrogen valve not shut, or the thermometer not on the metal?"
    )


@dataclass(frozen=True)
class HoldVerdict:
    """The finding, with the pressure a tight system would show, the fall against it and the limit of that fall."""

    finding: HoldFinding
    expected_pa: float
    fall_pa: float
    limit_pa: float

    @property
    def sentence(self) -> str:
        """The finding with its numbers."""
        return (
            f"{self.finding.value} (corrected fall {self.fall_pa / 1000.0:.1f} kPa, limit "
            f"±{self.limit_pa / 1000.0:.1f} kPa)"
        )


def hold_verdict(first: HoldReading, last: HoldReading, law: GasLaw = GasLaw.REAL) -> HoldVerdict:
    """Whether the fall between two readings is a leak, given temperature and the limits of the instruments.

    Parameters
    ----------
    first : HoldReading
        At the start, when the gas had settled [-]
    last : HoldReading
        At the end [-]
    law : GasLaw
        Ideal or real gas [-]

    Returns
    -------
    HoldVerdict
        Finding, expected pressure, fall and its limit

    Notes
    -----
    The four limits are taken as independent and combined as the root of the sum of squares. "No leak is shown" is not
    "tight": `smallest_leak_shown` says what leak could still hide.
    """
    expected = expected_pressure(first.pressure_pa, first.temperature_k, last.temperature_k, law)
    fall = expected - last.pressure_pa
    limit = math.hypot(
        first.pressure_limit_pa * expected / first.pressure_pa,
        last.pressure_limit_pa,
        expected / first.temperature_k * first.temperature_limit_k,
        expected / last.temperature_k * last.temperature_limit_k,
    )
    finding = HoldFinding.NONE_SHOWN
    if fall > limit:
        finding = HoldFinding.LEAK
    elif fall < -limit:
        finding = HoldFinding.ROSE
    return HoldVerdict(finding, expected, fall, limit)


def smallest_leak_shown(limit_pa: float, volume_m3: float, temperature_k: float, seconds: float) -> float:
    """Smallest leak of nitrogen that a test of this length could have shown.

    Parameters
    ----------
    limit_pa : float
        Limit of the corrected fall, as in the verdict [Pa]
    volume_m3 : float
        Volume under pressure [m³]
    temperature_k : float
        Temperature of the gas [K]
    seconds : float
        Length of the test [s]

    Returns
    -------
    float
        Mass of nitrogen lost in a second [kg/s]
    """
    check_positive("the length of the test", seconds, "s")
    return _mass_behind(limit_pa, volume_m3, temperature_k) / seconds


def hold_time(leak_kg_per_s: float, limit_pa: float, volume_m3: float, temperature_k: float) -> float:
    """Time a test must stand before a leak of a given size shows.

    Parameters
    ----------
    leak_kg_per_s : float
        Mass of nitrogen lost in a second at test pressure [kg/s]
    limit_pa : float
        Limit of the corrected fall [Pa]
    volume_m3 : float
        Volume under pressure [m³]
    temperature_k : float
        Temperature of the gas [K]

    Returns
    -------
    float
        Time [s]
    """
    check_positive("the leak", leak_kg_per_s, "kg/s", "A leak is counted as a loss, above zero.")
    return _mass_behind(limit_pa, volume_m3, temperature_k) / leak_kg_per_s


def _mass_behind(pressure_pa: float, volume_m3: float, temperature_k: float) -> float:
    """Mass of ideal nitrogen that a change of pressure stands for."""
    check_positive("the limit of the fall", pressure_pa, "Pa")
    check_volume(volume_m3)
    check_temperature("the temperature of the gas", temperature_k)
    return pressure_pa * volume_m3 * NITROGEN_KG_PER_MOL / (GAS_CONSTANT * temperature_k)


def check_volume(volume_m3: float) -> None:
    """Raises unless a volume is one of a small sealed system, up to 100 L.

    Parameters
    ----------
    volume_m3 : float
        Volume [m³]
    """
    check_positive("the volume", volume_m3, "m³")
    if volume_m3 > 0.1:
        raise InputError(
            f"the volume is {volume_m3:g} m³; a small sealed system holds at most 0.1 m³. "
            f"Was it {volume_m3:g} L, typed where cubic metres are asked for?"
        )
