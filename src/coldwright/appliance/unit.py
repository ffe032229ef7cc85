"""One unit as it stands on the bench: its model, its true parts with a fault or none, and the state it came in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from coldwright.appliance.cooler import Cooler
from coldwright.appliance.operation import Operation
from coldwright.appliance.parts import Defrost, Parts
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FIELDS, UnitFault, with_fault
from coldwright.appliance.wiring import Wiring
from coldwright.quantities.constants import ICE_POINT_K

Spare = Callable[[Parts], Parts]
LIKE_THE_PLATE = "as the plate says"


@dataclass(frozen=True)
class BenchUnit:
    """The true unit. `healthy` are its parts before the fault; `phase` what a capacitor keeps of the peak."""

    cooler: Cooler
    healthy: Parts
    fault: UnitFault
    room_k: float
    arrival: UnitState
    phase: float = 0.9
    complaint: str = ""
    spares: Mapping[str, Mapping[str, Spare]] = field(default_factory=dict)

    @property
    def wiring(self) -> Wiring:
        """How it is wired."""
        return self.cooler.wiring

    @property
    def parts(self) -> Parts:
        """Its true parts, with the fault."""
        return with_fault(self.healthy, self.fault)

    @property
    def plate(self) -> Plate:
        """What the nameplate says."""
        return plate_of(self.cooler)

    def describe(self) -> str:
        """Complaint and nameplate, in lines."""
        words = [self.complaint] if self.complaint else []
        return "\n".join([*words, *self.plate.lines(self.cooler)])

    def spares_for(self, component: str) -> Mapping[str, Spare]:
        """Spares that can be fitted in place of a component, by name.

        Parameters
        ----------
        component : str
            Name of the component [-]
        """
        return self.spares.get(component) or ({LIKE_THE_PLATE: self._like_the_plate(component)})

    def _like_the_plate(self, component: str) -> Spare:
        new = self.cooler.parts
        name = FIELDS.get(component)
        if name is not None:
            marked = name if name in new.marked else None
            return lambda parts: replace(
                parts,
                **{name: getattr(new, name)},
                marked={**parts.marked, marked: new.marked[marked]} if marked else parts.marked,
            )
        if component in new.fans:
            return lambda parts: replace(parts, fans={**parts.fans, component: new.fans[component]})
        if component == "lamp":
            return lambda parts: replace(parts, lamp_ohm=new.lamp_ohm)
        if component in ("heater", "terminator", "defrost timer") and new.defrost is not None:
            return lambda parts: replace(parts, defrost=self._defrost_part(parts, component))
        return lambda parts: parts

    def _defrost_part(self, parts: Parts, component: str) -> Defrost:
        new, old = self.cooler.parts.defrost, parts.defrost
        assert new is not None
        assert old is not None
        if component == "heater":
            return replace(old, heater_ohm=new.heater_ohm, insulation_ohm=new.insulation_ohm)
        if component == "terminator":
            return replace(old, terminator=new.terminator)
        return replace(old, timer_stuck=new.timer_stuck)

    def cold_part(self, component: str) -> dict[str, object]:
        """What of the state a new part brings with it: cold, empty, closed.

        Parameters
        ----------
        component : str
            Name of the component [-]
        """
        fresh: dict[str, dict[str, object]] = {
            "overload": {"overload_k": self.room_k, "overload_open": False},
            "PTC": {"ptc_k": self.room_k},
            "start capacitor": {"start_capacitor_v": 0.0},
            "run capacitor": {"run_capacitor_v": 0.0},
            "relay": {"contact_closed": False},
        }
        return fresh.get(component, {})


@dataclass(frozen=True)
class Plate:
    """Figures of a nameplate: amps and watts running at working load, amps with the rotor locked."""

    running_a: float
    locked_a: float
    watts: float

    def lines(self, cooler: Cooler) -> list[str]:
        """The plate in lines.

        Parameters
        ----------
        cooler : Cooler
            The model [-]
        """
        parts = cooler.parts
        lines = [f"Cooler {cooler.model}, {cooler.volts:.0f} V {cooler.hertz:.0f} Hz, {cooler.refrigerant}."]
        lines.append(f"Wiring: {cooler.wiring.title}.")
        if cooler.is_inverter:
            return [
                *lines,
                f"Board input {self.watts:.0f} W. Each pair of pins {parts.inverter_pair_ohm:.1f} Ω at 20 °C.",
            ]
        motor = parts.motor
        assert motor is not None
        lines.append(
            f"Compressor: runs at {self.running_a:.1f} A, {self.watts:.0f} W; locked rotor {self.locked_a:.0f} A. "
            f"Run winding {motor.run_ohm:.1f} Ω, start winding {motor.start_ohm:.1f} Ω at 20 °C."
        )
        for which, (farad, volts) in parts.marked.items():
            lines.append(f"{which.replace('_', ' ').capitalize()}: {farad * 1e6:.0f} µF, {volts:.0f} V a.c.")
        if parts.defrost is not None:
            lines.append(f"Defrost heater: {cooler.volts**2 / parts.defrost.heater_ohm:.0f} W.")
        return lines


_plates: dict[str, Plate] = {}


def plate_of(cooler: Cooler) -> Plate:
    """The nameplate of a model: what its healthy unit does at rated volts, once settled.

    Parameters
    ----------
    cooler : Cooler
        The model [-]
    """
    if cooler.model not in _plates:
        _plates[cooler.model] = _worked_out(cooler)
    return _plates[cooler.model]


def _worked_out(cooler: Cooler) -> Plate:
    parts = replace(cooler.parts, supply=replace(cooler.parts.supply, wiring_ohm=0.01))
    if cooler.is_inverter:
        assert parts.board is not None
        return Plate(0.0, 0.0, parts.board.watts)
    room = ICE_POINT_K + 25.0
    started = Operation(cooler.wiring, parts, room).advance(replace(arrival_state(room), plugged=True), 600.0).state
    fans = frozenset(parts.fans) | {"lamp"}
    run = UnitCircuit(cooler.wiring, parts, replace(started, removed=fans))
    locked = UnitCircuit(
        cooler.wiring, parts, replace(arrival_state(room), plugged=True, removed=fans, contact_closed=True)
    )
    return Plate(abs(run.component_current("overload")), abs(locked.component_current("overload")), run.power()[0])


def arrival_state(room_k: float, cabinet_k: float | None = None) -> UnitState:
    """A unit that has stood unplugged for hours.

    Parameters
    ----------
    room_k : float
        Temperature of the room [K]
    cabinet_k : float, optional
        Temperature in the cabinet; that of a warm cabinet if left out [K]
    """
    cabinet = room_k if cabinet_k is None else cabinet_k
    return UnitState(0.0, room_k, room_k, room_k, room_k, cabinet, cabinet)
