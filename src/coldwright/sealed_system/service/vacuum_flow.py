"""How gas flows at low pressure: through hoses and the capillary, into the pump, and in through a leak.

Amounts of gas are told as pressure times volume [Pa·m³], flows as [Pa·m³/s], as is usual in vacuum work.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.errors import InputError
from coldwright.quantities.checks import check_positive
from coldwright.quantities.constants import GAS_CONSTANT


@dataclass(frozen=True)
class Gas:
    """A gas at low pressure near 20 °C: molar mass in kg/mol and viscosity in Pa·s."""

    name: str
    molar_mass: float
    viscosity: float


AIR = Gas("air", 0.028965, 1.82e-5)
NITROGEN = Gas("nitrogen", 0.028013, 1.76e-5)
STEAM = Gas("water vapour", 0.018015, 0.97e-5)
R134A = Gas("R-134a", 0.102032, 1.16e-5)
R600A = Gas("R-600a", 0.058122, 0.74e-5)
"""Viscosities at 20 °C and low pressure, from memory; tests hold them to an independent library."""


@dataclass(frozen=True)
class Tube:
    """A round tube: bore and length in m."""

    bore_m: float
    length_m: float

    def __post_init__(self) -> None:
        check_positive("the bore of the tube", self.bore_m, "m")
        check_positive("the length of the tube", self.length_m, "m")
        if self.bore_m > 0.1:
            raise InputError(
                f"the bore of the tube is {self.bore_m:g} m; it must be at most 0.1 m. Was it typed in mm?"
            )

    @property
    def volume_m3(self) -> float:
        """Volume inside [m³]."""
        return 0.25 * math.pi * self.bore_m**2 * self.length_m


@dataclass(frozen=True)
class Pump:
    """A vacuum pump: its speed in m³/s well above its ultimate pressure, and that pressure in Pa."""

    speed_m3_per_s: float
    ultimate_pa: float

    def __post_init__(self) -> None:
        check_positive("the speed of the pump", self.speed_m3_per_s, "m³/s")
        check_positive("the ultimate pressure of the pump", self.ultimate_pa, "Pa")
        if self.speed_m3_per_s > 0.1:
            raise InputError(
                f"the speed of the pump is {self.speed_m3_per_s:g} m³/s; a service pump has at most 0.1 m³/s. "
                "Was it typed in litres or cubic feet per minute?"
            )


QUARTER_INCH_HOSE = Tube(0.0048, 1.5)
THREE_EIGHTHS_HOSE = Tube(0.0087, 1.5)
VALVE_CORE = Tube(0.0020, 0.015)
"""Illustrative bores: a core left in the valve counts as a short tube of 2 mm."""


def mixed(gases: tuple[Gas, ...], shares: tuple[float, ...]) -> Gas:
    """A gas that flows as a mixture does, roughly: both figures by share of molecules.

    Parameters
    ----------
    gases : tuple of Gas
        What it is made of [-]
    shares : tuple of float
        Share of the pressure of each, together 1 [-]
    """
    pairs = tuple(zip(gases, shares, strict=True))
    return Gas("mixture", sum(g.molar_mass * s for g, s in pairs), sum(g.viscosity * s for g, s in pairs))


def tube_conductance(tube: Tube, gas: Gas, mean_pa: float, temperature_k: float) -> float:
    r"""Conductance of a tube from viscous to molecular flow, by Knudsen's formula.

    .. math::
        C = \frac{\pi d^4 \bar p}{128 \eta l} + \frac{d^3}{6 l} \sqrt{\frac{2 \pi R T}{M}} \,
        \frac{1 + K}{1 + 1.24 K}, \qquad K = \frac{d \bar p}{\eta} \sqrt{\frac{M}{R T}}

    In the second part, the molecular one, the length is l + 4d/3, which allows for the mouth of a short tube.

    Parameters
    ----------
    tube : Tube
        Bore and length [-]
    gas : Gas
        What flows [-]
    mean_pa : float
        Mean of the absolute pressures at the ends, zero or more [Pa]
    temperature_k : float
        Temperature of the gas [K]

    Returns
    -------
    float
        Flow in Pa·m³/s for each Pa of difference [m³/s]

    Notes
    -----
    Laminar, no choking: a capillary that lets 1 bar out into a vacuum is choked at its very end, which takes less than
    1 % of the flow. A hose on the first second of a fast pump may be turbulent; the pump sets the pace then.

    References
    ----------
    .. [1] W. Umrath (ed.), *Fundamentals of Vacuum Technology*, Leybold, 1.5, equation 1.26 (from memory).
    """
    bore, length, eta = tube.bore_m, tube.length_m, gas.viscosity
    thermal = GAS_CONSTANT * temperature_k / gas.molar_mass
    viscous = math.pi * bore**4 * mean_pa / (128.0 * eta * length)
    knudsen = bore * mean_pa / (eta * math.sqrt(thermal))
    molecular = bore**3 / (6.0 * (length + 4.0 * bore / 3.0)) * math.sqrt(2.0 * math.pi * thermal)
    return viscous + molecular * (1.0 + knudsen) / (1.0 + 1.24 * knudsen)


def line_conductance(line: tuple[Tube, ...], gas: Gas, mean_pa: float, temperature_k: float) -> float:
    """Conductance of tubes one after the other: exact in viscous and in molecular flow, close between.

    Parameters
    ----------
    line : tuple of Tube
        Tubes from end to end, at least one [-]
    gas : Gas
        What flows [-]
    mean_pa : float
        Mean of the absolute pressures at the ends of the line [Pa]
    temperature_k : float
        Temperature of the gas [K]

    Returns
    -------
    float
        Conductance [m³/s]
    """
    return 1.0 / sum(1.0 / tube_conductance(tube, gas, mean_pa, temperature_k) for tube in line)


def pump_speed(pump: Pump, inlet_pa: float) -> float:
    r"""Speed of a pump at a pressure: full high up, nothing at its ultimate pressure.

    .. math:: S = S_0 (1 - p_u / p)

    Parameters
    ----------
    pump : Pump
        The pump [-]
    inlet_pa : float
        Absolute pressure at its inlet, above zero [Pa]

    Returns
    -------
    float
        Speed, never below zero [m³/s]
    """
    return pump.speed_m3_per_s * max(0.0, 1.0 - pump.ultimate_pa / inlet_pa)


def orifice_flow(area_m2: float, upstream_pa: float, downstream_pa: float, temperature_k: float) -> float:
    r"""Flow of air through a small hole; choked, and then constant, below 53 % of the pressure before it.

    .. math:: q = A p \sqrt{\gamma R T / M} \, (2 / (\gamma + 1))^{(\gamma + 1) / (2 (\gamma - 1))}

    is the choked flow.

    Parameters
    ----------
    area_m2 : float
        Effective area of the hole, zero or more [m²]
    upstream_pa : float
        Absolute pressure before it [Pa]
    downstream_pa : float
        Absolute pressure behind it, no higher [Pa]
    temperature_k : float
        Temperature of the air [K]

    Returns
    -------
    float
        Flow at that temperature [Pa·m³/s]

    Notes
    -----
    A real leak is mostly a crack, whose flow is a little different; against a vacuum it is steady just the same.
    """
    gamma = 1.4
    ratio = downstream_pa / upstream_pa
    if ratio >= 1.0:
        return 0.0
    thermal = GAS_CONSTANT * temperature_k / AIR.molar_mass
    if ratio <= (2.0 / (gamma + 1.0)) ** (gamma / (gamma - 1.0)):
        form = math.sqrt(gamma) * (2.0 / (gamma + 1.0)) ** ((gamma + 1.0) / (2.0 * (gamma - 1.0)))
    else:
        form = math.sqrt(2.0 * gamma / (gamma - 1.0) * (ratio ** (2.0 / gamma) - ratio ** ((gamma + 1.0) / gamma)))
    return area_m2 * upstream_pa * math.sqrt(thermal) * form
