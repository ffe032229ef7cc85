"""Gas through a hose: isothermal flow with friction, up to the most that the hose lets through."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.errors import InputError
from coldwright.quantities.constants import GAS_CONSTANT
from coldwright.sealed_system.service.inputs import check_positive

MOST_ROUNDS, SETTLED = 40, 1e-4  # rounds that settle friction and flow, each at least halving the gap
LAMINAR_BELOW, TURBULENT_ABOVE = 2100.0, 4000.0
CORE_DISCHARGE = 0.7  # of a valve core seen as an orifice; illustrative


@dataclass(frozen=True)
class Hose:
    """A service hose: its length and bore, and the opening of a valve core left in, if there is one [m]."""

    length_m: float
    bore_m: float
    core_m: float | None = None

    def __post_init__(self) -> None:
        check_positive("the length of the hose", self.length_m, "m")
        check_positive("the bore of the hose", self.bore_m, "m")
        if self.bore_m > 0.05:
            raise InputError(
                f"the bore of the hose is {self.bore_m:g} m; service hoses are below 0.05 m. "
                f"Was it {self.bore_m:g} mm, typed where metres are asked for?"
            )
        if self.core_m is not None:
            check_positive("the opening of the valve core", self.core_m, "m")

    @property
    def area_m2(self) -> float:
        """Cross-section of the bore [m²]."""
        return math.pi / 4.0 * self.bore_m**2

    @property
    def core_loss(self) -> float:
        """Loss coefficient of the core, counted on the speed in the bore [-]."""
        if self.core_m is None:
            return 0.0
        return ((self.bore_m / self.core_m) ** 2 / CORE_DISCHARGE) ** 2


def choked_ratio(loss: float) -> float:
    """Outlet over inlet pressure below which the flow no longer grows: where (1 - r²) / r² = loss - 2 ln r.

    Parameters
    ----------
    loss : float
        Friction of the pipe and of what is in it, f L / D + K, positive [-]

    Returns
    -------
    float
        Pressure ratio [-]
    """
    check_positive("the loss", loss, "")
    square = 1.0 + loss  # 1 / r², found by putting it in again; each round divides the error by it
    for _ in range(60):
        last, square = square, 1.0 + loss + math.log(square)
        if square - last <= 1e-12 * square:
            break
    return 1.0 / math.sqrt(square)


def isothermal_flow(
    inlet_pa: float, outlet_pa: float, specific_gas_constant: float, temperature_k: float, loss: float, area_m2: float
) -> float:
    r"""Mass flow of gas through a pipe that keeps its temperature.

    .. math:: \dot m = A \sqrt{\frac{p_1^2 - p_2^2}{R T \, (f L / D + K + 2 \ln (p_1 / p_2))}}

    Parameters
    ----------
    inlet_pa, outlet_pa : float
        Absolute pressures; below the choking pressure the outlet no longer matters [Pa]
    specific_gas_constant : float
        Gas constant over molar mass [J/(kg K)]
    temperature_k : float
        Temperature of the gas [K]
    loss : float
        Friction of the pipe and of what is in it, f L / D + K, positive [-]
    area_m2 : float
        Cross-section [m²]

    Returns
    -------
    float
        Mass flow, zero if the outlet is at or above the inlet [kg/s]
    """
    if outlet_pa >= inlet_pa:
        return 0.0
    ratio = max(outlet_pa / inlet_pa, choked_ratio(loss))
    flux = (1.0 - ratio**2) / (specific_gas_constant * temperature_k * (loss - 2.0 * math.log(ratio)))
    return area_m2 * inlet_pa * math.sqrt(flux)


def friction_factor(reynolds: float) -> float:
    """Darcy friction factor of a smooth pipe: laminar, then by Blasius, and a straight line between them.

    Parameters
    ----------
    reynolds : float
        Reynolds number, positive [-]

    Returns
    -------
    float
        Friction factor [-]
    """
    check_positive("the Reynolds number", reynolds, "")
    if reynolds <= LAMINAR_BELOW:
        return 64.0 / reynolds
    if reynolds >= TURBULENT_ABOVE:
        return 0.3164 / reynolds**0.25
    way = (reynolds - LAMINAR_BELOW) / (TURBULENT_ABOVE - LAMINAR_BELOW)
    return (1.0 - way) * 64.0 / LAMINAR_BELOW + way * 0.3164 / TURBULENT_ABOVE**0.25


def hose_flow(
    hose: Hose, inlet_pa: float, outlet_pa: float, molar_mass: float, temperature_k: float, viscosity: float
) -> float:
    """Mass flow of gas through a service hose.

    Parameters
    ----------
    hose : Hose
        Length, bore and core [-]
    inlet_pa, outlet_pa : float
        Absolute pressures [Pa]
    molar_mass : float
        Of the gas [kg/mol]
    temperature_k : float
        Temperature of the gas [K]
    viscosity : float
        Of the gas [Pa s]

    Returns
    -------
    float
        Mass flow, zero if the outlet is at or above the inlet [kg/s]

    Notes
    -----
    Ideal gas in a smooth hose, down to some 100 Pa; below that single molecules flow.
    """
    constant = GAS_CONSTANT / molar_mass
    flow, friction = 0.0, 0.03
    for _ in range(MOST_ROUNDS):
        loss = friction * hose.length_m / hose.bore_m + hose.core_loss
        last, flow = flow, isothermal_flow(inlet_pa, outlet_pa, constant, temperature_k, loss, hose.area_m2)
        if abs(flow - last) <= SETTLED * flow:
            break
        friction = friction_factor(flow * hose.bore_m / (hose.area_m2 * viscosity))
    return flow
