"""A cycle at work: mass flow from displacement or from capacity, and the watts that follow."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.errors import InputError
from coldwright.sealed_system.cycle_states import Cycle, check_share

MOST_SWEPT_M3 = 1e-3  # a litre for each turn: far beyond any small hermetic compressor


@dataclass(frozen=True)
class Duty:
    """A cycle with its mass flow."""

    cycle: Cycle
    mass_flow_kg_per_s: float

    @property
    def capacity_w(self) -> float:
        """Heat taken up in the evaporator [W]."""
        return self.mass_flow_kg_per_s * self.cycle.refrigerating_effect

    @property
    def power_w(self) -> float:
        """Work of the compressor, its motor's loss left out [W]."""
        return self.mass_flow_kg_per_s * self.cycle.work

    @property
    def condenser_w(self) -> float:
        """Heat given off between compressor and condenser outlet [W]."""
        return self.mass_flow_kg_per_s * self.cycle.condenser_heat

    @property
    def suction_m3_per_s(self) -> float:
        """Vapour that the compressor takes in, at suction state [m³/s]."""
        return self.mass_flow_kg_per_s / self.cycle.suction.density_kg_per_m3

    def displacement(self, volumetric_efficiency: float) -> float:
        """Displacement of the compressor that this flow needs.

        Parameters
        ----------
        volumetric_efficiency : float
            Volume taken in over volume swept [-]

        Returns
        -------
        float
            Volume swept in a second [m³/s]
        """
        check_share("volumetric efficiency", volumetric_efficiency)
        return self.suction_m3_per_s / volumetric_efficiency


def duty_from_flow(cycle: Cycle, mass_flow_kg_per_s: float) -> Duty:
    """The cycle with a known mass flow.

    Parameters
    ----------
    cycle : Cycle
        Closed cycle [-]
    mass_flow_kg_per_s : float
        Refrigerant that goes round [kg/s]

    Raises
    ------
    InputError
        If the flow is not positive.
    """
    return Duty(cycle, _positive("mass flow", mass_flow_kg_per_s, "kg/s"))


def duty_from_capacity(cycle: Cycle, capacity_w: float) -> Duty:
    """The cycle with the mass flow that a cooling capacity asks for.

    Parameters
    ----------
    cycle : Cycle
        Closed cycle [-]
    capacity_w : float
        Heat to be taken up in the evaporator [W]

    Raises
    ------
    InputError
        If the capacity is not positive.
    """
    return Duty(cycle, _positive("capacity", capacity_w, "W") / cycle.refrigerating_effect)


def duty_from_displacement(cycle: Cycle, displacement_m3_per_s: float, volumetric_efficiency: float) -> Duty:
    """The cycle with the mass flow that a compressor moves.

    Parameters
    ----------
    cycle : Cycle
        Closed cycle [-]
    displacement_m3_per_s : float
        Volume swept in a second [m³/s]
    volumetric_efficiency : float
        Volume taken in over volume swept [-]

    Raises
    ------
    InputError
        If the displacement is not positive or the efficiency is no share.
    """
    check_share("volumetric efficiency", volumetric_efficiency)
    swept = _positive("displacement", displacement_m3_per_s, "m³/s")
    return Duty(cycle, swept * volumetric_efficiency * cycle.suction.density_kg_per_m3)


def displacement_rate(swept_m3: float, turns_hz: float) -> float:
    """Volume that a compressor sweeps in a second.

    Parameters
    ----------
    swept_m3 : float
        Volume swept in one turn, below a litre [m³]
    turns_hz : float
        Turns of the shaft in a second [Hz]

    Returns
    -------
    float
        Displacement [m³/s]

    Raises
    ------
    InputError
        If a value is not positive, or the volume was in cm³.

    Examples
    --------
    >>> round(displacement_rate(5e-6, 48.0) * 1e6)
    240
    """
    _positive("swept volume", swept_m3, "m³")
    if swept_m3 > MOST_SWEPT_M3:
        raise InputError(f"swept volume is {swept_m3:g} m³; it must be below {MOST_SWEPT_M3:g} m³. Was it in cm³?")
    return swept_m3 * _positive("turns in a second", turns_hz, "Hz")


def clearance_efficiency(cycle: Cycle, clearance: float) -> float:
    r"""Volumetric efficiency that the gas left in the clearance allows.

    .. math:: \eta_v = 1 - c \left(\frac{v_1}{v_2} - 1\right)

    Parameters
    ----------
    cycle : Cycle
        Closed cycle [-]
    clearance : float
        Volume left at the end of the stroke, over the volume swept [-]

    Returns
    -------
    float
        Most that volume taken in over volume swept can be [-]

    Raises
    ------
    InputError
        If the clearance is no share, or so large that nothing is taken in.

    Notes
    -----
    Gas expands again as it was compressed, without loss. Leaks and the heat of the shell take more.

    References
    ----------
    .. [1] W. F. Stoecker, J. W. Jones, *Refrigeration and Air Conditioning*, 2nd edition, chapter 11 (from memory).
    """
    check_share("clearance", clearance, zero_too=True)
    volumes = cycle.ideal_discharge.density_kg_per_m3 / cycle.suction.density_kg_per_m3
    found = 1 - clearance * (volumes - 1)
    if not found > 0:
        raise InputError(
            f"a clearance of {clearance:g} at a pressure ratio of {cycle.pressure_ratio:.1f} takes in nothing: the gas "
            "that stays behind fills the whole stroke"
        )
    return found


def _positive(name: str, value: float, unit: str) -> float:
    if not 0 < value < math.inf:
        raise InputError(f"{name} is {value:g} {unit}; it must be above zero and finite")
    return value
