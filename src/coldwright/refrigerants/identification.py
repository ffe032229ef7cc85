"""Which refrigerant can be in a system, from its pressure at rest.

At rest, all of it at one temperature and some liquid left, a system stands at the refrigerant's saturation pressure.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from itertools import combinations

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import Refrigerant, refrigerant_named, refrigerants
from coldwright.refrigerants.coolprop import fluid_of
from coldwright.refrigerants.ranges import shown_pressure, shown_temperature
from coldwright.refrigerants.saturation import BELOW_CRITICAL_K, bubble_pressure, dew_pressure

LEAST_K, MOST_K = 223.15, 343.15  # -50 °C to 70 °C: where systems stand at rest


@dataclass(frozen=True)
class Candidate:
    """A refrigerant and the band of pressure it may stand at, the uncertain temperature allowed for [Pa absolute]."""

    name: str
    low_pa: float
    high_pa: float


@dataclass(frozen=True)
class Identification:
    """What the pressure at rest says: the refrigerants that fit, all that were tried, and a sentence."""

    fits: tuple[Candidate, ...]
    tried: tuple[Candidate, ...]
    sentence: str

    @property
    def names(self) -> tuple[str, ...]:
        """Names of those that fit."""
        return tuple(each.name for each in self.fits)

    @property
    def ambiguous(self) -> bool:
        """Whether more than one fits."""
        return len(self.fits) > 1


class AtRest(Enum):
    """What the pressure at rest says about the refrigerant on the nameplate."""

    FITS = "fits"
    HIGH = "too high"
    LOW = "too low"


def _check(pressure_pa: float, temperature_k: float, u_pressure_pa: float, u_temperature_k: float) -> None:
    if not 0 < pressure_pa < 1e7:
        raise InputError(
            f"the pressure at rest is {pressure_pa:g} Pa; an absolute pressure is above 0 and none here reaches "
            "100 bar. Was it a gauge pressure, or another unit?"
        )
    if not LEAST_K <= temperature_k <= MOST_K:
        raise InputError(
            f"the temperature at rest is {temperature_k:g} K; it must be from {LEAST_K:g} K to {MOST_K:g} K (-50 °C to "
            "70 °C). Was it in °C or °F?"
        )
    if not 0 <= u_pressure_pa < pressure_pa:
        raise InputError(
            f"the uncertainty of the pressure is {u_pressure_pa:g} Pa; it must be 0 or more and below the pressure, "
            f"{pressure_pa:g} Pa"
        )
    if not 0 <= u_temperature_k <= 10:
        raise InputError(
            f"the uncertainty of the temperature is {u_temperature_k:g} K; it must be from 0 K to 10 K: above that the "
            "system is not at one temperature yet, so wait"
        )


def _candidate(refrigerant: Refrigerant, temperature_k: float, u_temperature_k: float) -> Candidate | None:
    """Band from dew at the coldest to bubble at the warmest; None where the warmest is above the critical point."""
    fluid = fluid_of(refrigerant.name)
    warmest, coldest = temperature_k + u_temperature_k, temperature_k - u_temperature_k
    if warmest > fluid.critical_k - BELOW_CRITICAL_K:
        return None
    name = refrigerant.name
    return Candidate(name, dew_pressure(name, coldest), bubble_pressure(name, warmest))


def _sides(candidate: Candidate, pressure_pa: float, u_pressure_pa: float) -> AtRest:
    if pressure_pa - u_pressure_pa > candidate.high_pa:
        return AtRest.HIGH
    return AtRest.LOW if pressure_pa + u_pressure_pa < candidate.low_pa else AtRest.FITS


def candidates(
    pressure_pa: float, temperature_k: float, u_pressure_pa: float, u_temperature_k: float
) -> Identification:
    """Refrigerants that can be in a system at rest, from its pressure and temperature.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, the same in the whole system [Pa]
    temperature_k : float
        Temperature, the same in the whole system [K]
    u_pressure_pa : float
        How far the pressure may be off [Pa]
    u_temperature_k : float
        How far the temperature may be off [K]

    Returns
    -------
    Identification
        Those that fit, with what the pressure does not tell [-]

    Raises
    ------
    InputError
        If a value is not one that a system at rest can have.

    Notes
    -----
    A blend stands between its dew and its bubble pressure, by how much of it is liquid. A pressure is no proof: air
    raises it, and without liquid it lies below saturation, so a mixture or a part-empty system can look like another
    refrigerant.
    """
    _check(pressure_pa, temperature_k, u_pressure_pa, u_temperature_k)
    tried = tuple(
        found for each in refrigerants() if (found := _candidate(each, temperature_k, u_temperature_k)) is not None
    )
    fits = tuple(each for each in tried if _sides(each, pressure_pa, u_pressure_pa) is AtRest.FITS)
    at = f"{shown_pressure(pressure_pa)} at {shown_temperature(temperature_k)}"
    return Identification(fits, tried, _sentence(at, tuple(each.name for each in fits)))


def _sentence(at: str, names: tuple[str, ...]) -> str:
    if not names:
        return (
            f"{at} fits none that the course knows: there is air in it, or a mixture, or no liquid is left, or the "
            "system is not at one temperature yet"
        )
    burns = [name for name in names if refrigerant_named(name).is_flammable]
    caution = f" {' and '.join(burns)} burns: work as with a flammable refrigerant until you know." if burns else ""
    if len(names) > 1:
        return (
            f"{at} fits {', '.join(names[:-1])} and {names[-1]}: the pressure at rest cannot tell them apart. Go by "
            "the nameplate, the oil and the compressor's label, try at another temperature, or have it analysed."
            f"{caution}"
        )
    return (
        f"{at} fits {names[0]}, if it is one refrigerant, free of air and with liquid left. The pressure alone is no "
        f"proof: compare the nameplate.{caution}"
    )


def ambiguous_pairs(temperature_k: float, u_pressure_pa: float, u_temperature_k: float) -> tuple[tuple[str, str], ...]:
    """Pairs of refrigerants that a pressure at rest cannot surely tell apart at a temperature.

    Parameters
    ----------
    temperature_k : float
        Temperature of the whole system [K]
    u_pressure_pa : float
        How far a pressure may be off [Pa]
    u_temperature_k : float
        How far the temperature may be off [K]

    Returns
    -------
    tuple[tuple[str, str], ...]
        Names, two by two: some pressure reading fits both [-]

    Raises
    ------
    InputError
        If a value is not one that a system at rest can have.
    """
    _check(2.0 * max(u_pressure_pa, 1.0), temperature_k, u_pressure_pa, u_temperature_k)
    bands = [band for each in refrigerants() if (band := _candidate(each, temperature_k, u_temperature_k))]
    return tuple(
        (one.name, other.name)
        for one, other in combinations(bands, 2)
        if one.low_pa - other.high_pa <= 2 * u_pressure_pa and other.low_pa - one.high_pa <= 2 * u_pressure_pa
    )


def against_nameplate(
    refrigerant: str, pressure_pa: float, temperature_k: float, u_pressure_pa: float, u_temperature_k: float
) -> tuple[AtRest, str]:
    """Whether the pressure at rest is that of the refrigerant on the nameplate, and what it means where it is not.

    Parameters
    ----------
    refrigerant : str
        Name on the nameplate [-]
    pressure_pa : float
        Absolute pressure, the same in the whole system [Pa]
    temperature_k : float
        Temperature, the same in the whole system [K]
    u_pressure_pa : float
        How far the pressure may be off [Pa]
    u_temperature_k : float
        How far the temperature may be off [K]

    Returns
    -------
    tuple[AtRest, str]
        Fits, too high or too low; and a sentence [-]

    Raises
    ------
    InputError
        If a value is not one that a system at rest can have, or the refrigerant is above its critical temperature.
    """
    _check(pressure_pa, temperature_k, u_pressure_pa, u_temperature_k)
    found = refrigerant_named(refrigerant)
    expected = _candidate(found, temperature_k, u_temperature_k)
    if expected is None:
        raise InputError(
            f"at {shown_temperature(temperature_k)} {found.name} is too near its critical temperature of "
            f"{shown_temperature(found.critical_k)} or above it: no pressure at rest is known. Let the system cool down"
        )
    side = _sides(expected, pressure_pa, u_pressure_pa)
    band = f"{expected.low_pa / 1e5:.2f} to {expected.high_pa / 1e5:.2f} bar absolute"
    means = {
        AtRest.FITS: "as it should; that is no proof that it is this refrigerant",
        AtRest.HIGH: "too high: air in it, another refrigerant or a mixture, or a part of the system is warmer",
        AtRest.LOW: "too low: no liquid is left, another refrigerant, or a part of the system is colder",
    }[side]
    return side, f"{found.name} stands at {band}; {shown_pressure(pressure_pa)} is {means}"
