"""A compressor by its maker's ten coefficients (AHRI 540, EN 12900), in the units that the maker fitted them in."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.quantities.units import BTU, POUND


class MapTemperature(Enum):
    """Unit of the two temperatures that a map is fitted in: EN 12900 takes °C, older AHRI sheets °F."""

    CELSIUS = "°C"
    FAHRENHEIT = "°F"

    def of(self, kelvin: float) -> float:
        """Temperature in the map's unit.

        Parameters
        ----------
        kelvin : float
            Temperature [K]
        """
        celsius = kelvin - ICE_POINT_K
        return celsius if self is MapTemperature.CELSIUS else celsius * 1.8 + 32.0


class MapResult(Enum):
    """Unit of what a map gives; the value is the unit's name and its size in SI."""

    WATT = ("W", 1.0)
    KILOGRAM_PER_HOUR = ("kg/h", 1 / 3600)
    GRAM_PER_SECOND = ("g/s", 1e-3)
    POUND_PER_HOUR = ("lb/h", float(POUND) / 3600)
    BTU_PER_HOUR = ("Btu/h", float(BTU) / 3600)
    AMPERE = ("A", 1.0)

    @property
    def unit(self) -> str:
        """Name of the unit."""
        return self.value[0]

    @property
    def si(self) -> float:
        """One of it in SI."""
        return self.value[1]


@dataclass(frozen=True)
class Envelope:
    """Where the maker tested: lowest and highest evaporating and condensing dew temperature, in the map's unit."""

    evaporating: tuple[float, float]
    condensing: tuple[float, float]

    def __post_init__(self) -> None:
        for name in ("evaporating", "condensing"):
            low, high = getattr(self, name)
            if not low < high:
                raise InputError(f"the envelope's {name} span is {low:g} to {high:g}; it must rise. Were they swapped?")


@dataclass(frozen=True)
class CompressorMap:
    """Ten coefficients C1 to C10 in the order of the standard, their units and the envelope they hold in."""

    what: str
    coefficients: tuple[float, ...]
    temperature: MapTemperature
    result: MapResult
    envelope: Envelope

    def __post_init__(self) -> None:
        if len(self.coefficients) != 10:
            raise InputError(f"the map of {self.what} has {len(self.coefficients)} coefficients; the form has ten")
        if not all(map(math.isfinite, self.coefficients)):
            raise InputError(f"a coefficient of the map of {self.what} is no finite number")

    def in_map_unit(self, evaporating_k: float, condensing_k: float) -> float:
        r"""What the map gives, in its own unit.

        .. math:: X = C_1 + C_2 S + C_3 D + C_4 S^2 + C_5 S D + C_6 D^2 + C_7 S^3 + C_8 D S^2 + C_9 S D^2 + C_{10} D^3

        Parameters
        ----------
        evaporating_k, condensing_k : float
            Dew temperatures at suction and discharge pressure, S and D [K]

        Returns
        -------
        float
            Flow, power, capacity or current [map's unit]

        Raises
        ------
        InputError
            If a temperature is outside the envelope.

        Notes
        -----
        It holds for the suction superheat, or return gas temperature, of the maker's test alone.

        References
        ----------
        .. [1] AHRI Standard 540 and EN 12900, the ten-term form (from memory; the order of the terms was also read in
           the source of an open heat-pump model).
        """
        s = self._within("evaporating", evaporating_k, self.envelope.evaporating)
        d = self._within("condensing", condensing_k, self.envelope.condensing)
        terms = (1.0, s, d, s * s, s * d, d * d, s**3, d * s * s, s * d * d, d**3)
        return sum(c * term for c, term in zip(self.coefficients, terms, strict=True))

    def in_si(self, evaporating_k: float, condensing_k: float) -> float:
        """What the map gives, in kg/s, W or A.

        Parameters
        ----------
        evaporating_k, condensing_k : float
            Dew temperatures at suction and discharge pressure [K]

        Returns
        -------
        float
            Flow, power, capacity or current [SI]

        Raises
        ------
        InputError
            If a temperature is outside the envelope.
        """
        return self.in_map_unit(evaporating_k, condensing_k) * self.result.si

    def _within(self, name: str, kelvin: float, span: tuple[float, float]) -> float:
        value, unit = self.temperature.of(kelvin), self.temperature.value
        low, high = span
        if low - 1e-9 <= value <= high + 1e-9:
            return value
        slip = ". Was it in °C in place of K?" if -100 < kelvin < 100 else ""
        raise InputError(
            f"{name} temperature is {value:.1f} {unit}; the map of {self.what} holds from {low:g} {unit} to {high:g} "
            f"{unit} and says nothing beyond{slip}"
        )


def flow_at_other_suction(mapped: float, tested_density: float, real_density: float, share: float = 0.75) -> float:
    r"""Mass flow with suction gas of another density than in the maker's test.

    .. math:: \dot m = \dot m_{map} \left[1 + F \left(\frac{\rho}{\rho_{map}} - 1\right)\right]

    Parameters
    ----------
    mapped : float
        Flow that the map gives [any]
    tested_density, real_density : float
        Of the suction gas in the test and here [kg/m³]
    share : float
        F, how much of the change reaches the cylinder [-]

    Returns
    -------
    float
        Flow here [as given]

    Raises
    ------
    InputError
        If a density is not positive or the share is not from 0 to 1.

    References
    ----------
    .. [1] A. E. Dabiri, C. K. Rice, *A compressor simulation model with corrections for the level of suction gas
       superheat*, ASHRAE Transactions 87 (1981) (from memory; F = 0.75 was also read in the source of an open model).
    """
    for name, value in (("tested", tested_density), ("real", real_density)):
        if not 0 < value < math.inf:
            raise InputError(f"the {name} suction density is {value:g} kg/m³; it must be above zero and finite")
    if not 0 <= share <= 1:
        raise InputError(f"the share F is {share:g}; it must be from 0 to 1")
    return mapped * (1 + share * (real_density / tested_density - 1))
