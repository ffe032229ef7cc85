"""How recovery runs over time: pressure, cold, what comes out, and what the oil still holds and gives back later.

The system is one volume with one temperature for metal and refrigerant, and oil that holds refrigerant. Liquid that
boils cools the metal, so the pressure sags; the room warms it. The oil lets go slowly: after the hose is shut the
pressure rises again. Times are indicative: they show which hose, which way and which step helps, not minutes to go by.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from coldwright.errors import InputError
from coldwright.sealed_system.service.gas_flow import Hose
from coldwright.sealed_system.service.inputs import check_charge, check_positive, check_temperature
from coldwright.sealed_system.service.recovery_columns import COLUMN_LEAST_K, Saturation, saturation_columns
from coldwright.sealed_system.service.recovery_way import Inside, RecoveryMachine, Way, floor_pressure, outflow
from coldwright.sealed_system.service.standing_pressure import check_volume

WARM_OIL_K = 30.0  # oil above the room where the compressor runs or the shell is heated; illustrative
STILL_OIL_S, STIRRED_OIL_S = (
    1200.0,
    240.0,
)  # time constants of oil that stands, and that is warm and stirred; illustrative
LARGEST_SHARE_OF_STEP = 0.05  # of the vapour in one step
RECORD_S = 5.0


@dataclass(frozen=True)
class RecoverySystem:
    """A system to empty: refrigerant, volume, metal that cools with it, warmth from the room, and its oil.

    `oil_share` is the refrigerant in the solution where its vapour is saturated. All but the charge are illustrative
    until they come from the maker.
    """

    refrigerant: str
    volume_m3: float
    metal_j_per_k: float = 4000.0
    room_w_per_k: float = 4.0
    oil_kg: float = 0.18
    oil_share: float = 0.20

    def __post_init__(self) -> None:
        check_volume(self.volume_m3)
        check_positive("the heat capacity of the metal", self.metal_j_per_k, "J/K")
        check_positive("the warmth from the room", self.room_w_per_k, "W/K")
        if not self.oil_kg >= 0.0:
            raise InputError(f"the oil is {self.oil_kg:g} kg; it must be zero or more")
        if not 0.0 <= self.oil_share < 0.9:
            raise InputError(f"the share in the oil is {self.oil_share:g}; it must be from 0 to 0.9. Was it per cent?")


@dataclass(frozen=True)
class Moment:
    """What is where at one moment. Masses in kg, pressure absolute in Pa."""

    seconds: float
    free_kg: float
    in_oil_kg: float
    recovered_kg: float
    temperature_k: float
    pressure_pa: float


@dataclass(frozen=True)
class RecoveryRun:
    """Moments of a run, the first and the last among them."""

    moments: tuple[Moment, ...]

    @property
    def last(self) -> Moment:
        """How it ended; the start of a next run."""
        return self.moments[-1]

    def time_until(self, recovered_kg: float) -> float | None:
        """Time until a mass has come out.

        Parameters
        ----------
        recovered_kg : float
            Mass [kg]

        Returns
        -------
        float | None
            Time, or None if the run did not get there [s]
        """
        return next((m.seconds for m in self.moments if m.recovered_kg >= recovered_kg), None)


@dataclass(frozen=True)
class Work:
    """How it is done: hose and way (None for shut), the room, the unit's compressor where it runs, a heated shell."""

    room_k: float
    way: Way | None = None
    hose: Hose | None = None
    compressor: RecoveryMachine | None = None
    shell_heated: bool = False

    def __post_init__(self) -> None:
        check_temperature("the temperature of the room", self.room_k)
        if (self.way is None) != (self.hose is None):
            raise InputError("a way without a hose, or a hose without a way: name both, or neither for a shut system")

    @property
    def oil_k(self) -> float:
        """Temperature of the oil [K]."""
        return self.room_k + (WARM_OIL_K if self.shell_heated or self.compressor else 0.0)

    @property
    def oil_time_s(self) -> float:
        """Time constant with which the oil lets go [s]."""
        return STIRRED_OIL_S if self.shell_heated or self.compressor else STILL_OIL_S


def _pressure(system: RecoverySystem, saturation: Saturation, free_kg: float, temperature_k: float) -> float:
    return saturation.vapour_pressure_of(free_kg / system.volume_m3, temperature_k)


def _oil_holds(system: RecoverySystem, saturation: Saturation, pressure_pa: float, oil_k: float) -> float:
    share = system.oil_share * min(1.0, pressure_pa / saturation.pressure(oil_k))
    return system.oil_kg * share / (1.0 - share)


def at_rest(system: RecoverySystem, charge_kg: float, room_k: float) -> Moment:
    """A system that has stood in the room: pressure at rest, and the charge shared between the volume and the oil.

    Parameters
    ----------
    system : RecoverySystem
        Volume, metal and oil [-]
    charge_kg : float
        What is in it [kg]
    room_k : float
        Temperature of the room [K]

    Returns
    -------
    Moment
        Start of a run

    Notes
    -----
    The liquid's own volume is left out: a tenth of a litre in a few litres.
    """
    check_charge("the charge", charge_kg)
    check_temperature("the temperature of the room", room_k)
    saturation = saturation_columns(system.refrigerant)
    low, high = 0.0, charge_kg
    for _ in range(80):
        free = (low + high) / 2.0
        held = _oil_holds(system, saturation, _pressure(system, saturation, free, room_k), room_k)
        low, high = (free, high) if free + held < charge_kg else (low, free)
    free = (low + high) / 2.0
    return Moment(0.0, free, charge_kg - free, 0.0, room_k, _pressure(system, saturation, free, room_k))


def _step(system: RecoverySystem, saturation: Saturation, work: Work, now: Moment, longest_s: float) -> Moment:
    vapour = min(now.free_kg, system.volume_m3 * saturation.density(now.temperature_k))
    seconds, out = longest_s, 0.0
    if work.way is not None and work.hose is not None:
        inside = Inside(now.pressure_pa, now.temperature_k, work.room_k)
        flow = outflow(work.way, work.hose, work.compressor, inside, now.recovered_kg, saturation)
        if flow > 0.0:
            floor = floor_pressure(work.way, work.compressor, now.recovered_kg, saturation)
            to_go = now.free_kg - system.volume_m3 * saturation.vapour_density_at(floor, now.temperature_k)
            seconds = min(longest_s, LARGEST_SHARE_OF_STEP * vapour / flow)
            out = to_go * -math.expm1(-flow * seconds / to_go) if to_go > 0.0 else 0.0
    gap = now.in_oil_kg - _oil_holds(system, saturation, now.pressure_pa, work.oil_k)
    let_go = max(gap * -math.expm1(-seconds / work.oil_time_s), out - now.free_kg)
    wet = now.free_kg > vapour
    boiled = min(max(0.0, out - let_go), now.free_kg - vapour) if wet else 0.0
    warmed = system.room_w_per_k * (work.room_k - now.temperature_k) * seconds
    cooled = boiled * saturation.latent_heat(now.temperature_k)
    temperature = max(COLUMN_LEAST_K, now.temperature_k + (warmed - cooled) / system.metal_j_per_k)
    free = now.free_kg + let_go - out
    return Moment(
        now.seconds + seconds,
        free,
        now.in_oil_kg - let_go,
        now.recovered_kg + out,
        temperature,
        _pressure(system, saturation, free, temperature),
    )


def run_recovery(
    system: RecoverySystem, work: Work, start: Moment, seconds: float, longest_step_s: float = 2.0
) -> RecoveryRun:
    """How a system empties, or how it recovers its pressure while it is shut.

    Parameters
    ----------
    system : RecoverySystem
        Volume, metal and oil [-]
    work : Work
        Hose, way, room and compressor; without a way the system stands shut [-]
    start : Moment
        From `at_rest` or the last moment of a run [-]
    seconds : float
        How long [s]
    longest_step_s : float
        Longest step of time; steps are shorter where vapour leaves fast [s]

    Returns
    -------
    RecoveryRun
        A moment every 5 s and the last

    Notes
    -----
    Left out: the heat that boils vapour into the volume itself while the liquid warms (about a tenth of what the metal
    takes), liquid that is carried along, and the capillary tube, which holds back what stands on its other side.
    """
    check_positive("the length of the run", seconds, "s")
    check_positive("the longest step", longest_step_s, "s")
    saturation = saturation_columns(system.refrigerant)
    now = replace(start, seconds=0.0)
    moments = [now]
    while now.seconds < seconds * (1.0 - 1e-12):
        now = _step(system, saturation, work, now, min(longest_step_s, seconds - now.seconds))
        if now.seconds - moments[-1].seconds >= RECORD_S or now.seconds >= seconds * (1.0 - 1e-12):
            moments.append(now)
    return RecoveryRun(tuple(moments))
