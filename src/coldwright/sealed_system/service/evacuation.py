"""Pressures in a system that is pumped down or stands closed: at the pump, on the near side, behind the capillary.

A gauge at the pump shows what the pump has, not what the system has. Water boils off only as fast as heat comes to it;
pumped too fast it freezes. Wear eye protection, never start a compressor under vacuum and never test its insulation
there. Local codes, the maker's instructions and licensed practice come first.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.errors import InputError
from coldwright.quantities.constants import GAS_CONSTANT, ICE_POINT_K
from coldwright.refrigerants.water import water_vapour_pressure
from coldwright.sealed_system.service.stiff_steps import states_at
from coldwright.sealed_system.service.vacuum_flow import STEAM, Tube, line_conductance, mixed, orifice_flow, pump_speed
from coldwright.sealed_system.service.vacuum_system import GASES, Rig, Side, VacuumState, VacuumSystem

LIQUID_J, ICE_J, STEAM_J = 4186.0, 2100.0, 1860.0  # J/(kg K)
MELTING_J, BOILING_J = 333.6e3, 2500.9e3  # J/kg at 0 °C; the four from memory
_AIR, _NITROGEN, _WATER, _REFRIGERANT = range(len(GASES))
_FEW_KG = 1e-7  # below this the patch dries up and gives less
_MOST_S = 7 * 86400.0


@dataclass(frozen=True)
class VacuumRecord:
    """How an evacuation or a hold went: times in s, absolute pressures in Pa, water left in kg, its temperature in K.

    `states` holds the whole state at each time.
    """

    seconds: np.ndarray
    states: tuple[VacuumState, ...]

    @property
    def end(self) -> VacuumState:
        """State at the end."""
        return self.states[-1]

    @property
    def near_pa(self) -> np.ndarray:
        """Pressure on the near side, shape (n,) [Pa]."""
        return np.array([state.near_pa for state in self.states])

    @property
    def far_pa(self) -> np.ndarray:
        """Pressure behind the capillary, shape (n,) [Pa]."""
        return np.array([state.far_pa for state in self.states])

    @property
    def pump_pa(self) -> np.ndarray:
        """Pressure that a gauge at the pump sees, shape (n,) [Pa]."""
        return np.array([state.pump_pa for state in self.states])

    @property
    def water_kg(self) -> np.ndarray:
        """Water and ice left, shape (n,) [kg]."""
        return np.array([state.water_kg for state in self.states])


def evacuate(system: VacuumSystem, state: VacuumState, rig: Rig, seconds: float, readings: int = 61) -> VacuumRecord:
    """Pressures while the pump runs.

    Parameters
    ----------
    system : VacuumSystem
        The system [-]
    state : VacuumState
        State at the start [-]
    rig : Rig
        Pump and hoses [-]
    seconds : float
        How long, above zero, up to a week [s]
    readings : int
        Times to tell, evenly, from start to end, at least 2 [-]

    Raises
    ------
    InputError
        If the time or the number of readings is outside these bounds.
    """
    return _run(system, state, rig, True, seconds, readings)


def hold(
    system: VacuumSystem, state: VacuumState, seconds: float, rig: Rig | None = None, readings: int = 61
) -> VacuumRecord:
    """Pressures while everything is closed: the decay test.

    Parameters
    ----------
    system : VacuumSystem
        The system [-]
    state : VacuumState
        State at the start [-]
    seconds : float
        How long, above zero, up to a week [s]
    rig : Rig, optional
        Hoses that stay on, valve at the pump shut; None if the system itself is shut off [-]
    readings : int
        Times to tell, evenly, from start to end, at least 2 [-]

    Raises
    ------
    InputError
        If the time or the number of readings is outside these bounds.
    """
    return _run(system, state, rig, False, seconds, readings)


def _run(
    system: VacuumSystem, state: VacuumState, rig: Rig | None, pumping: bool, seconds: float, readings: int
) -> VacuumRecord:
    if not 0 < seconds <= _MOST_S:
        raise InputError(f"the time is {seconds:g} s; it must be above 0 s and at most a week ({_MOST_S:g} s)")
    if readings < 2:
        raise InputError(f"the number of readings is {readings}; it must be at least 2, one at the start and the end")
    times = np.linspace(0.0, seconds, readings)
    floor = np.array([0.02] * (3 * len(GASES)) + [1e-7, 0.05, 1e-6])
    rates = _Rates(system, rig, pumping)
    found = states_at(rates, _packed(system, state), times.tolist(), floor)
    return VacuumRecord(times, (state, *(_unpacked(system, row) for row in found[1:])))


def _packed(system: VacuumSystem, state: VacuumState) -> np.ndarray:
    # the joules of the wet patch count from ice at -273.15 °C, so that they are never below zero
    joule = state.water_kg * _joule_of_water(state.wet_k) + system.wet_j_per_k * state.wet_k
    return np.array([*state.near, *state.far, *state.manifold, state.water_kg, joule, state.dissolved_kg])


def _unpacked(system: VacuumSystem, row: np.ndarray) -> VacuumState:
    near, far, manifold = (tuple(float(pa) for pa in row[place : place + 4]) for place in (0, 4, 8))
    water = float(row[12])
    wet_k = _wet_temperature(water, float(row[13]), system.wet_j_per_k)
    return VacuumState(near, far, manifold, water, wet_k, float(row[14]))


def _joule_of_water(kelvin: float) -> float:
    """Heat in a kg of ice or water, from ice at 0 K on [J/kg]."""
    return ICE_J * kelvin if kelvin < ICE_POINT_K else _MELTED_J + LIQUID_J * (kelvin - ICE_POINT_K)


_FROZEN_J = ICE_J * ICE_POINT_K
_MELTED_J = _FROZEN_J + MELTING_J


def _wet_temperature(water_kg: float, joule: float, metal: float) -> float:
    """Temperature of the wet patch with its metal from the heat in both; it stands at 0 °C while ice forms [K]."""
    frozen = water_kg * _FROZEN_J + metal * ICE_POINT_K
    if joule <= frozen:
        return max(joule / (water_kg * ICE_J + metal), 50.0)
    melted = frozen + water_kg * MELTING_J
    return ICE_POINT_K + max(0.0, joule - melted) / (water_kg * LIQUID_J + metal)


class _Rates:
    """Change of the packed state per second."""

    def __init__(self, system: VacuumSystem, rig: Rig | None, pumping: bool) -> None:
        self.system, self.rig, self.pumping = system, rig, pumping
        self.volumes = (system.near_m3, system.far_m3, rig.volume_m3 if rig else 1.0)
        self.edges: list[tuple[int, int, tuple[Tube, ...]]] = [(0, 1, (system.capillary,))]
        if rig:
            self.edges += [(place, 2, line) for place, line in ((0, rig.near_line), (1, rig.far_line)) if line]

    def __call__(self, state: np.ndarray) -> np.ndarray:
        nodes = [state[place : place + 4].tolist() for place in (0, 4, 8)]
        flows = [[0.0] * 4 for _ in nodes]
        for one, other, line in self.edges:
            self._along(nodes, flows, one, other, line)
        self._leak(nodes, flows)
        if self.pumping and self.rig:
            total = sum(nodes[2])
            if total > 0:
                share = pump_speed(self.rig.pump, total)
                flows[2] = [flow - share * pa for flow, pa in zip(flows[2], nodes[2], strict=True)]
        water, heat = self._wet(nodes, flows, float(state[12]), float(state[13]))
        oil = self._oil(nodes, flows, float(state[14]))
        gases = [flow / v for row, v in zip(flows, self.volumes, strict=True) for flow in row]
        return np.array([*gases, water, heat, oil])

    def _along(
        self, nodes: list[list[float]], flows: list[list[float]], one: int, other: int, line: tuple[Tube, ...]
    ) -> None:
        totals = sum(nodes[one]), sum(nodes[other])
        source, drain = (one, other) if totals[0] >= totals[1] else (other, one)
        total = max(totals)
        if total <= 0:
            return
        shares = tuple(pa / total for pa in nodes[source])
        conductance = line_conductance(line, mixed(self.system.gases, shares), 0.5 * sum(totals), self.system.wall_k)
        flow = conductance * abs(totals[0] - totals[1])
        for place, share in enumerate(shares):
            flows[source][place] -= flow * share
            flows[drain][place] += flow * share

    def _leak(self, nodes: list[list[float]], flows: list[list[float]]) -> None:
        system = self.system
        if system.leak_m2 == 0:
            return
        place = 0 if system.leak_side is Side.NEAR else 1
        inside = sum(nodes[place])
        flows[place][_AIR] += orifice_flow(system.leak_m2, system.atmosphere_pa, inside, system.wall_k)
        if inside > system.atmosphere_pa:
            out = orifice_flow(system.leak_m2, inside, system.atmosphere_pa, system.wall_k)
            flows[place] = [flow - out * pa / inside for flow, pa in zip(flows[place], nodes[place], strict=True)]

    def _wet(
        self, nodes: list[list[float]], flows: list[list[float]], water_kg: float, joule: float
    ) -> tuple[float, float]:
        """Change of water [kg/s] and of the heat in the wet patch [W]; its vapour goes to its side."""
        system = self.system
        place = 0 if system.water_side is Side.NEAR else 1
        kelvin = _wet_temperature(water_kg, joule, system.wet_j_per_k)
        heat = system.wet_w_per_k * (system.wall_k - kelvin)
        if water_kg == 0 and nodes[place][_WATER] == 0:
            return 0.0, heat
        over = water_vapour_pressure(kelvin) - nodes[place][_WATER]
        thermal = GAS_CONSTANT * kelvin / STEAM.molar_mass
        rate = system.wet_m2 * over / np.sqrt(2.0 * np.pi * thermal)
        if rate > 0:
            rate *= water_kg / (water_kg + _FEW_KG)
        flows[place][_WATER] += rate * GAS_CONSTANT * system.wall_k / STEAM.molar_mass
        # vapour leaves with the heat of ice or water, melting and boiling included
        leaving = _MELTED_J + BOILING_J + STEAM_J * (kelvin - ICE_POINT_K)
        return -rate, heat - rate * leaving

    def _oil(self, nodes: list[list[float]], flows: list[list[float]], dissolved_kg: float) -> float:
        system = self.system
        if system.oil_kg == 0:
            return 0.0
        settled = system.oil_kg * nodes[0][_REFRIGERANT] / system.henry_pa
        out = (dissolved_kg - settled) / system.oil_s
        flows[0][_REFRIGERANT] += out * GAS_CONSTANT * system.wall_k / system.refrigerant.molar_mass
        return -out
