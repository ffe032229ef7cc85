"""A compressor in its cooler, as far as a meter on the bench can tell: windings, protector, wiring, heat.

The compressor arrives hot from its last tries to start. Plugged in it stays at that temperature; unplugged it cools
towards the room. Temperatures follow one time constant, so that any state can be worked out from when the plug was
last moved.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from coldwright.appliance.faults import FaultKind, WindingFault
from coldwright.appliance.nameplate import CompressorPlate
from coldwright.electrical.network import Branch, Network, Source
from coldwright.electrical.windings import REFERENCE_K, resistance_at
from coldwright.errors import InputError
from coldwright.quantities.checks import (
    check_finite,
    check_flag,
    check_kelvin,
    check_not_negative,
    check_ohms,
    check_positive,
)
from coldwright.quantities.constants import ICE_POINT_K

PINS = ("1", "2", "3")
TERMINALS = ("L", "N", "earth", *PINS, "shell", "cap a", "cap b")
CONTACT_OHM = 1e-3
PROTECTOR_RESETS_K = ICE_POINT_K + 60.0  # common practice, no source: internal protectors reset near 60 °C


@dataclass(frozen=True)
class BenchCompressor:
    """The true unit that a learner measures.

    Resistances are those of the healthy windings at 20 °C; `common`, `run` and `start` name the pins, which an
    inverter compressor uses for its three equal windings. `capacitor_v` is the voltage that stays on the capacitor
    when the plug is pulled.
    """

    plate: CompressorPlate
    run_ohm: float
    start_ohm: float
    common: str
    run: str
    start: str
    fault: WindingFault
    insulation_ohm: float
    room_k: float
    arrival_k: float
    cooling_s: float
    capacitor_v: float
    fan_ohm: float
    under_vacuum: bool = False
    protector_tripped: bool = False

    def __post_init__(self) -> None:
        """Refuses a compressor that cannot be, by name, value and rule."""
        check_positive("the run winding of the compressor", self.run_ohm, "Ω")
        check_positive("the start winding of the compressor", self.start_ohm, "Ω")
        if sorted((self.common, self.run, self.start)) != list(PINS):
            raise InputError(
                f"common, run and start of the compressor are pins {self.common!r}, {self.run!r} and {self.start!r}; "
                f"they must be {', '.join(PINS)}, each once"
            )
        check_ohms("the insulation of the compressor", self.insulation_ohm)
        check_kelvin("the room's temperature", self.room_k)
        check_kelvin("the temperature that the compressor arrives with", self.arrival_k)
        check_positive("the time constant of the compressor's cooling", self.cooling_s, "s")
        check_not_negative("the voltage on the compressor's capacitor", self.capacitor_v, "V")
        check_positive("the condenser fan of the compressor", self.fan_ohm, "Ω")
        check_flag("under_vacuum of the compressor", self.under_vacuum)
        check_flag("protector_tripped of the compressor", self.protector_tripped)

    @property
    def live_capacitor_v(self) -> float:
        """Direct voltage on the capacitor while the unit is plugged in [V].

        An inverter board rectifies the supply into its capacitor. A start capacitor sees alternating voltage, and none
        once the start contact is open.
        """
        return math.sqrt(2) * self.plate.supply_v if self.plate.is_inverter else 0.0

    def winding_k(self, last_k: float, seconds: float, plugged: bool) -> float:
        """Temperature of the windings some time after the plug was moved.

        Parameters
        ----------
        last_k : float
            Temperature when the plug was last moved [K]
        seconds : float
            Time since then [s]
        plugged : bool
            Whether the unit has been plugged in since then [-]
        """
        target = self.arrival_k if plugged else self.room_k
        return target + (last_k - target) * math.exp(-seconds / self.cooling_s)

    def protector_open(self, winding_k: float) -> bool:
        """Whether the internal protector is open.

        Parameters
        ----------
        winding_k : float
            Temperature of the windings [K]
        """
        tripped = self.protector_tripped and winding_k > PROTECTOR_RESETS_K
        return tripped or self.fault.kind is FaultKind.OPEN_PROTECTOR

    def windings(self, winding_k: float) -> list[Branch]:
        """The branches inside the shell.

        Parameters
        ----------
        winding_k : float
            Temperature of the windings [K]
        """
        ground = min(self.insulation_ohm, self.fault.ground_ohm)
        inside: list[Branch] = []
        if self.plate.is_inverter:
            phase = resistance_at(self.run_ohm / 2, REFERENCE_K, winding_k)
            inside += [Branch(f"winding {p}", "star", p, phase, self.plate.run_inductance_h / 2) for p in PINS]
            return [*inside, Branch("insulation", "star", "shell", ground)]
        if not self.protector_open(winding_k):
            inside.append(Branch("internal protector", self.common, "join", CONTACT_OHM))
        rows = (
            ("run", self.run, self.run_ohm, self.plate.run_inductance_h),
            ("start", self.start, self.start_ohm, self.plate.start_inductance_h),
        )
        for winding, pin, ohm, henry in rows:
            factor = self.fault.winding_factor(winding)
            if factor is not None:
                hot = resistance_at(ohm * factor, REFERENCE_K, winding_k)
                inside.append(Branch(f"{winding} winding", "join", pin, hot, henry))
            inside.append(Branch(f"{winding} winding insulation", pin, "shell", 2 * ground))
        return inside

    def pair_resistances(self, winding_k: float) -> dict[tuple[str, str], float]:
        """Resistance of each pair of pins with the connector off [Ω]; inf for no path.

        The way over two insulations is no path: it is what the insulation tester is for.

        Parameters
        ----------
        winding_k : float
            Temperature of the windings [K]
        """
        copper = [b for b in self.windings(winding_k) if "insulation" not in b.name]
        net = Network(copper, extra_nodes=PINS)
        return {pair: net.resistance(*pair) for pair in combinations(PINS, 2)}

    def lowest_insulation(self, winding_k: float) -> float:
        """Lowest resistance from any pin to the shell, connector off [Ω].

        Parameters
        ----------
        winding_k : float
            Temperature of the windings [K]
        """
        net = Network(self.windings(winding_k), extra_nodes=(*PINS, "shell"))
        return min(net.resistance(pin, "shell") for pin in PINS)


@dataclass(frozen=True)
class BenchCircuit:
    """The circuit of one moment, as an instrument sees it."""

    unit: BenchCompressor
    winding_k: float
    plugged: bool
    connected: bool
    capacitor_v: float

    def __post_init__(self) -> None:
        """Refuses a moment that cannot be, by name, value and rule."""
        check_kelvin("the temperature of the windings", self.winding_k)
        check_flag("plugged of the bench", self.plugged)
        check_flag("connected of the bench", self.connected)
        check_finite("the voltage on the capacitor", self.capacitor_v, "V")

    @property
    def network(self) -> Network:
        """The netlist of this moment."""
        plate = self.unit.plate
        branches = [*self.unit.windings(self.winding_k), Branch("earth wire", "earth", "shell", 0.1)]
        branches.append(Branch("condenser fan", "L", "N", self.unit.fan_ohm, 0.4))
        if self.connected and plate.is_inverter:
            branches += [Branch(f"board input {pin}", pin, "cap b", 220e3) for pin in PINS]
        elif self.connected:
            branches += [
                Branch("common lead", "L", self.unit.common, 0.05),
                Branch("run lead and relay coil", self.unit.run, "N", 0.3),
                Branch("start lead", self.unit.start, "cap a", 0.05),
            ]
        sources = []
        if abs(self.capacitor_v) > 0:
            sources.append(Source("charged capacitor", "cap a", "cap b", self.capacitor_v, 0.0, resistance=1.0))
        if self.plugged:
            branches.append(Branch("neutral to earth", "N", "earth", 0.2))
            sources.append(Source("supply", "L", "N", plate.supply_v, plate.frequency_hz, resistance=0.4))
        return Network(branches, sources, extra_nodes=TERMINALS)

    def terminals(self) -> tuple[str, ...]:
        """Terminals that a probe can reach."""
        return TERMINALS

    def resistance(self, a: str, b: str) -> float:
        """Direct-current resistance between two terminals [Ω]; inf for no path.

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        """
        return self.network.resistance(a, b)

    def ac_voltage(self, a: str, b: str, load_ohm: float) -> float:
        """RMS alternating voltage between two terminals with a meter across them [V].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        load_ohm : float
            Resistance of the meter [Ω]
        """
        return abs(self.network.voltage(a, b, self.unit.plate.frequency_hz, load_ohm)) if self.plugged else 0.0

    def dc_voltage(self, a: str, b: str, load_ohm: float) -> float:
        """Direct voltage from `b` to `a` with a meter across them [V].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        load_ohm : float
            Resistance of the meter [Ω]
        """
        return self.network.voltage(a, b, 0.0, load_ohm).real
