"""The one door to CoolProp: an equation of state for each refrigerant and thread, with our zero for enthalpy.

CoolProp is imported on first use. Its global reference state is never touched: the offset is worked out here, so that
saturated liquid (bubble point) at 0 °C has 200 kJ/kg and 1 kJ/(kg K). Its exceptions never reach a person.
"""

from __future__ import annotations

import math
import threading
from enum import Enum
from typing import Any, NamedTuple

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.catalogue import Refrigerant, refrigerant_named

ENTHALPY_AT_ICE_POINT = 200e3  # saturated liquid [J/kg]
ENTROPY_AT_ICE_POINT = 1e3  # saturated liquid [J/(kg K)]
R22_LIQUID = (-10.70594, 3.738166, -2.007822, 5.813607)
"""ln(Pa s) = a + b τ^⅓ + c τ + d τ², τ = 1 - T/T_c: our fit to the VDI Heat Atlas, 200 K to 350 K, within 0.8 %."""
R22_VAPOUR_SHARE = 1 / 1.10  # CoolProp's saturated vapour is 6 to 11 % above the VDI Heat Atlas
_OF_THIS_THREAD = threading.local()


class Side(Enum):
    """Which phase a state is looked for in; the value is CoolProp's word."""

    LIQUID = "liquid"
    VAPOUR = "gas"
    EITHER = "not_imposed"


class Point(NamedTuple):
    """A point of one phase, in SI."""

    pressure: float
    temperature: float
    enthalpy: float
    entropy: float
    density: float
    cp: float


class Transport(NamedTuple):
    """What flow and heat transfer need of saturated liquid and vapour at one pressure, in SI."""

    liquid_viscosity: float
    vapour_viscosity: float
    surface_tension: float


class Fluid:
    """Equation of state of one refrigerant, to be used by one thread.

    Parameters
    ----------
    refrigerant : Refrigerant
        The refrigerant [-]
    """

    def __init__(self, refrigerant: Refrigerant) -> None:
        import CoolProp.CoolProp as library

        self.refrigerant = refrigerant
        self._library = library
        self._state: Any = library.AbstractState("HEOS", refrigerant.coolprop_name)
        self.critical_pressure_pa: float = self._state.p_critical()
        self.critical_k: float = self._state.T_critical()
        self.least_k: float = self._state.Tmin()
        self.most_k: float = self._state.Tmax()
        self.most_pressure_pa: float = self._state.pmax()
        self._enthalpy_offset = self._entropy_offset = 0.0
        zero = self.at_boiling_temperature(ICE_POINT_K, 0.0)
        self._enthalpy_offset = ENTHALPY_AT_ICE_POINT - zero.enthalpy
        self._entropy_offset = ENTROPY_AT_ICE_POINT - zero.entropy
        self.least_pressure_pa = self.at_boiling_temperature(self.least_k, 0.0).pressure
        self.least_dew_pa = self.at_boiling_temperature(self.least_k, 1.0).pressure

    def at_quality(self, pressure: float, quality: float) -> Point:
        """Bubble point (quality 0) or dew point (quality 1) at a pressure.

        Parameters
        ----------
        pressure : float
            Absolute pressure [Pa]
        quality : float
            0 or 1 [-]

        Returns
        -------
        Point
            The saturated phase [-]
        """
        return self._updated(Side.EITHER, "PQ_INPUTS", pressure, quality)

    def at_boiling_temperature(self, temperature: float, quality: float) -> Point:
        """Bubble point (quality 0) or dew point (quality 1) at a temperature.

        Parameters
        ----------
        temperature : float
            Temperature [K]
        quality : float
            0 or 1 [-]

        Returns
        -------
        Point
            The saturated phase [-]
        """
        return self._updated(Side.EITHER, "QT_INPUTS", quality, temperature)

    def ends(self, pressure: float) -> tuple[Point | None, Point | None]:
        """Bubble and dew point at a pressure; None where there is none, or the equation does not reach so low.

        Parameters
        ----------
        pressure : float
            Absolute pressure [Pa]

        Returns
        -------
        tuple[Point | None, Point | None]
            Saturated liquid and saturated vapour [-]
        """
        if pressure >= self.critical_pressure_pa:
            return None, None
        bubble = self.at_quality(pressure, 0.0) if pressure >= self.least_pressure_pa else None
        dew = self.at_quality(pressure, 1.0) if pressure >= self.least_dew_pa else None
        return bubble, dew

    def at_temperature(self, pressure: float, temperature: float, side: Side = Side.EITHER) -> Point:
        """Point at a pressure and temperature.

        Parameters
        ----------
        pressure : float
            Absolute pressure [Pa]
        temperature : float
            Temperature [K]
        side : Side
            The phase, where it is known [-]

        Returns
        -------
        Point
            The point [-]
        """
        return self._updated(side, "PT_INPUTS", pressure, temperature)

    def at_enthalpy(self, pressure: float, enthalpy: float, side: Side = Side.EITHER) -> Point:
        """Point at a pressure and enthalpy, outside the two-phase region.

        Parameters
        ----------
        pressure : float
            Absolute pressure [Pa]
        enthalpy : float
            Specific enthalpy, with our zero [J/kg]
        side : Side
            The phase, where it is known [-]

        Returns
        -------
        Point
            The point [-]
        """
        return self._updated(side, "HmassP_INPUTS", enthalpy - self._enthalpy_offset, pressure)

    def at_entropy(self, pressure: float, entropy: float, side: Side = Side.EITHER) -> Point:
        """Point at a pressure and entropy, outside the two-phase region.

        Parameters
        ----------
        pressure : float
            Absolute pressure [Pa]
        entropy : float
            Specific entropy, with our zero [J/(kg K)]
        side : Side
            The phase, where it is known [-]

        Returns
        -------
        Point
            The point [-]
        """
        return self._updated(side, "PSmass_INPUTS", pressure, entropy - self._entropy_offset)

    def transport(self, pressure: float) -> Transport:
        """Viscosities and surface tension at saturation.

        Parameters
        ----------
        pressure : float
            Absolute pressure [Pa]

        Returns
        -------
        Transport
            Viscosities [Pa s] and surface tension [N/m]

        Notes
        -----
        CoolProp 8's liquid R-22 is 13 to 23 % too thin, so a fit to the VDI Heat Atlas stands in for it; its vapour is
        taken a tenth lower. The rest is CoolProp's own.
        """
        self.at_quality(pressure, 1.0)
        vapour = self._asked("viscosity")
        wet = self.at_quality(pressure, 0.0)
        liquid, tension = self._asked("viscosity"), self._asked("surface_tension")
        if self.refrigerant.name == "R-22":
            a, b, c, d = R22_LIQUID
            tau = 1.0 - wet.temperature / self.critical_k
            thick = math.exp(a + b * tau ** (1 / 3) + c * tau + d * tau**2)
            return Transport(thick, vapour * R22_VAPOUR_SHARE, tension)
        return Transport(liquid, vapour, tension)

    def _asked(self, name: str) -> float:
        try:
            return float(getattr(self._state, name)())
        except ValueError as error:
            raise InputError(
                f"there is no {name.replace('_', ' ')} of {self.refrigerant.name} for this state"
            ) from error

    def _updated(self, side: Side, inputs: str, one: float, other: float) -> Point:
        state = self._state
        try:
            state.specify_phase(getattr(self._library, f"iphase_{side.value}"))
            state.update(getattr(self._library, inputs), one, other)
            return Point(
                state.p(),
                state.T(),
                state.hmass() + self._enthalpy_offset,
                state.smass() + self._entropy_offset,
                state.rhomass(),
                state.cpmass(),
            )
        except ValueError as error:
            raise InputError(self.outside()) from error

    def outside(self) -> str:
        """What is said of a state that the equation does not cover."""
        return (
            f"this state of {self.refrigerant.name} lies outside what its equation of state covers: "
            f"{self.least_k - ICE_POINT_K:.0f} °C to {self.most_k - ICE_POINT_K:.0f} °C, up to "
            f"{self.most_pressure_pa / 1e5:.0f} bar"
        )


def fluid_of(refrigerant: str) -> Fluid:
    """Equation of state of a refrigerant; made once in each thread and kept.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    Fluid
        The equation, for use in this thread [-]
    """
    kept: dict[str, Fluid] = _OF_THIS_THREAD.__dict__.setdefault("fluids", {})
    if refrigerant not in kept:
        found = refrigerant_named(refrigerant)
        if found.name not in kept:
            kept[found.name] = Fluid(found)
        kept[refrigerant] = kept[found.name]
    return kept[refrigerant]
