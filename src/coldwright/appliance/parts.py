"""The true parts of one unit: every number that its readings come from. A fault changes these and nothing else."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from coldwright.appliance.cold_parts import ColdSide
from coldwright.electrical.capacitor import Capacitor
from coldwright.electrical.motor_types import MotorParameters
from coldwright.electrical.overload import Overload
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay, SolidStateSwitch
from coldwright.errors import InputError
from coldwright.quantities.checks import (
    check_farad,
    check_kelvin,
    check_not_negative,
    check_ohms,
    check_positive,
    check_wire,
)

StartDevice = CurrentRelay | PotentialRelay | SolidStateSwitch | Ptc


class Stuck(Enum):
    """How a switch is stuck."""

    FREE = "free"
    OPEN = "stuck open"
    CLOSED = "stuck closed"


class FanCondition(Enum):
    """What a small fan does."""

    TURNS = "turns"
    OPEN = "winding open"
    SEIZED = "seized"


@dataclass(frozen=True)
class Supply:
    """What the outlet gives: RMS volts, hertz, ohms of the house wiring; and the volts that the unit is rated for."""

    volts: float
    hertz: float
    wiring_ohm: float
    rated_volts: float

    def __post_init__(self) -> None:
        for name, value, unit in (("supply", self.volts, "V"), ("supply's frequency", self.hertz, "Hz")):
            check_positive(f"the {name}", value, unit)
        check_positive("the resistance of the house wiring", self.wiring_ohm, "Ω")
        check_positive("the rated volts of the unit", self.rated_volts, "V")


@dataclass(frozen=True)
class Cord:
    """Resistance of each conductor from the plug to the unit [Ω]; inf where it is broken."""

    live_ohm: float = 0.08
    neutral_ohm: float = 0.08
    earth_ohm: float = 0.08

    def __post_init__(self) -> None:
        for name in ("live", "neutral", "earth"):
            check_wire(f"the cord's {name} conductor", getattr(self, f"{name}_ohm"))


@dataclass(frozen=True)
class Thermostat:
    """Cabinet temperatures at which it closes and opens [K], and whether it is stuck."""

    close_k: float
    open_k: float
    stuck: Stuck = Stuck.FREE

    def __post_init__(self) -> None:
        check_kelvin("the temperature that the thermostat closes at", self.close_k)
        check_kelvin("the temperature that the thermostat opens at", self.open_k)
        if not self.open_k < self.close_k:
            raise InputError(
                f"the thermostat opens at {self.open_k:g} K and closes at {self.close_k:g} K; it must open at the "
                "lower of the two. Were they swapped?"
            )

    def next_closed(self, closed: bool, cabinet_k: float) -> bool:
        """Whether the contact is closed at a cabinet temperature.

        Parameters
        ----------
        closed : bool
            Whether it was closed before [-]
        cabinet_k : float
            Temperature at its bulb [K]
        """
        if self.stuck is not Stuck.FREE:
            return self.stuck is Stuck.CLOSED
        return cabinet_k > self.open_k if closed else cabinet_k >= self.close_k


@dataclass(frozen=True)
class Fan:
    """A shaded-pole fan: watts and amps at the rated volts, ohms of its winding, and what it does.

    Seized it takes `stalled` times the amps, as motors of this kind do (common practice, no source: 1.2 to 1.5).
    """

    watts: float
    amps: float
    winding_ohm: float
    condition: FanCondition = FanCondition.TURNS
    stalled: float = 1.35

    def __post_init__(self) -> None:
        for name, value, unit in (
            ("watts", self.watts, "W"),
            ("amps", self.amps, "A"),
            ("ohms", self.winding_ohm, "Ω"),
        ):
            check_positive(f"the fan's {name}", value, unit)
        check_positive("the fan's amps when seized, as a share of its amps,", self.stalled, "")

    def impedance(self, volts: float) -> complex:
        """Impedance at the supply's frequency [Ω].

        Parameters
        ----------
        volts : float
            Rated volts [V]
        """
        factor = self.stalled if self.condition is FanCondition.SEIZED else 1.0
        apparent = volts / self.amps
        cosine = min(1.0, self.watts / (volts * self.amps))
        return complex(apparent * cosine, apparent * math.sqrt(1 - cosine**2)) / factor


@dataclass(frozen=True)
class Windings:
    """What is wrong with the windings: factor on the turns left (None for open), path to the shell, a seized rotor."""

    run_left: float | None = 1.0
    start_left: float | None = 1.0
    insulation_ohm: float = 500e6
    ground_ohm: float = math.inf
    seized: bool = False

    def __post_init__(self) -> None:
        for name, left in (("run", self.run_left), ("start", self.start_left)):
            if left is not None:
                check_positive(f"the share of the {name} winding's turns that are left", left, "")
        check_ohms("the insulation of the windings", self.insulation_ohm)
        check_ohms("the path from the windings to the shell", self.ground_ohm)


@dataclass(frozen=True)
class Load:
    """Torque the compressor asks for: with pressures equal, and at working pressures [N·m]."""

    equal_nm: float
    working_nm: float
    build_s: float = 60.0
    equalise_s: float = 90.0

    def __post_init__(self) -> None:
        check_not_negative("the torque against equal pressures", self.equal_nm, "N·m")
        check_positive("the torque at working pressures", self.working_nm, "N·m")
        check_positive("the time that pressures take to build up", self.build_s, "s")
        check_positive("the time that pressures take to equalise", self.equalise_s, "s")
        if self.equal_nm > self.working_nm:
            raise InputError(
                f"the torque against equal pressures is {self.equal_nm:g} N·m, above the {self.working_nm:g} N·m at "
                "working pressures; it must be the smaller of the two. Were they swapped?"
            )


@dataclass(frozen=True)
class Defrost:
    """Defrost timer, heater and terminator. Times in seconds of timer motor running."""

    heater_ohm: float
    insulation_ohm: float = 200e6
    cooling_s: float = 6 * 3600.0
    defrost_s: float = 1500.0
    timer_ohm: float = 3600.0
    timer_stuck: Stuck = Stuck.FREE  # open: stays at cooling; closed: stays at defrost
    terminator_close_k: float = 268.0
    terminator_open_k: float = 283.0
    terminator: Stuck = Stuck.FREE

    def __post_init__(self) -> None:
        check_ohms("the defrost heater", self.heater_ohm)
        check_ohms("the insulation of the defrost heater", self.insulation_ohm)
        check_positive("the cooling time of the defrost timer", self.cooling_s, "s")
        check_positive("the defrost time of the defrost timer", self.defrost_s, "s")
        check_ohms("the motor of the defrost timer", self.timer_ohm)
        check_kelvin("the temperature that the terminator closes at", self.terminator_close_k)
        check_kelvin("the temperature that the terminator opens at", self.terminator_open_k)
        if not self.terminator_close_k < self.terminator_open_k:
            raise InputError(
                f"the terminator closes at {self.terminator_close_k:g} K and opens at {self.terminator_open_k:g} K; it "
                "must close at the lower of the two. Were they swapped?"
            )


@dataclass(frozen=True)
class Board:
    """An inverter board as far as a meter goes: bus capacitor and its bleed resistor."""

    bus_farad: float
    bleed_ohm: float
    watts: float

    def __post_init__(self) -> None:
        check_farad(self.bus_farad, "the board's bus capacitor")
        check_positive("the board's bleed resistor", self.bleed_ohm, "Ω")
        check_positive("the board's input", self.watts, "W")


@dataclass(frozen=True)
class Heat:
    """Heat of the compressor: capacities [J/K], conductances [W/K]; illustrative."""

    winding_j_per_k: float = 350.0
    shell_j_per_k: float = 3500.0
    winding_w_per_k: float = 5.0
    shell_w_per_k: float = 1.3
    idle_fan_factor: float = 0.6  # on the shell's conductance where the condenser fan stands still

    def __post_init__(self) -> None:
        for name, unit in (("j_per_k", "J/K"), ("w_per_k", "W/K")):
            for part in ("winding", "shell"):
                check_positive(f"{part}_{name} of the compressor", getattr(self, f"{part}_{name}"), unit)
        check_positive("idle_fan_factor of the compressor", self.idle_fan_factor, "")

    @property
    def winding_s(self) -> float:
        """Time constant of the winding towards the shell [s]."""
        return self.winding_j_per_k / self.winding_w_per_k


@dataclass(frozen=True)
class Parts:
    """All parts of one unit. None where the wiring has no such part."""

    supply: Supply
    cord: Cord
    thermostat: Thermostat
    door_switch: Stuck
    lamp_ohm: float
    fans: Mapping[str, Fan]
    overload: Overload | None
    start_device: StartDevice | None
    start_capacitor: Capacitor | None
    run_capacitor: Capacitor | None
    motor: MotorParameters | None
    windings: Windings
    load: Load
    heat: Heat = Heat()
    defrost: Defrost | None = None
    board: Board | None = None
    inverter_pair_ohm: float = 0.0
    loose: Mapping[str, float] = field(default_factory=dict)  # terminal to ohms of its joint
    marked: Mapping[str, tuple[float, float]] = field(default_factory=dict)  # what is printed on a capacitor: F, V
    cold: ColdSide | None = None  # sealed system and cabinet, where they are worked out
