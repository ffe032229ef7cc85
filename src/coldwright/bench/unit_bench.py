"""The bench of a whole unit: what a learner can do to a plug-in cooler, and what the instruments show.

Readings stand in `unit_readings`; here stand the acts that change something.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from coldwright.appliance.operation import Operation, Passed
from coldwright.appliance.parts import Stuck
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import fitted
from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.acts import Told, stopped
from coldwright.bench.bench import SAFE_VOLTS, Bench
from coldwright.bench.hazards import Hazard
from coldwright.bench.sheet import SheetHeader, SheetLine
from coldwright.bench.unit_acts import HOLD_S, NEXT_TRY, SECONDS, WAITS, UnitTaken
from coldwright.bench.unit_readings import READINGS, UnitInstruments
from coldwright.errors import BenchError
from coldwright.instruments.display import Display
from coldwright.quantities.constants import ICE_POINT_K

HOT_K = ICE_POINT_K + 60.0  # above this bare metal burns the skin soon (from memory: EN ISO 13732-1)
COMPRESSORS = (ComponentKind.COMPRESSOR, ComponentKind.INVERTER_COMPRESSOR)
NOT_TAKEN_OFF = (ComponentKind.CABINET, ComponentKind.CORD, *COMPRESSORS)


class UnitBench(Bench):
    """One cooler on the bench with every instrument of the course.

    Parameters
    ----------
    unit : BenchUnit
        The true unit [-]
    seed : bytes
        Where each instrument stands within its accuracy is drawn from it [-]
    lead_ohm : float
        Resistance of the multimeter's leads [Ω]
    header : SheetHeader
        Whose job it is [-]
    path : Path, optional
        Job sheet to go on with, or to begin; None keeps it in memory [-]
    """

    seconds = SECONDS
    unit: BenchUnit
    taken: list[UnitTaken]

    def __init__(
        self, unit: BenchUnit, seed: bytes, lead_ohm: float, header: SheetHeader, path: Path | None = None
    ) -> None:
        super().__init__(seed, header)
        self.unit = unit
        self.parts = unit.parts
        self.state: UnitState = self.operation.settled(unit.arrival)
        self.instruments = UnitInstruments(lead_ohm, self._error)
        self.fitted: dict[str, str] = {}
        self._held: Passed | None = None
        if path is not None:
            self._open(path)

    # ------------------------------------------------------------------ acts

    def perform(self, act: str, on: tuple[str, ...] = ()) -> Told:
        """Do an act by the name it has on the job sheet.

        Parameters
        ----------
        act : str
            Name of the act, one of `unit_acts.SECONDS` [-]
        on : tuple of str
            Terminals, component, conductor, place or time [-]

        Raises
        ------
        BenchError
            If there is no such act or it cannot be done on these.
        """
        if act in READINGS:
            return self._read(act, on)
        plain: dict[str, Callable[[], Told]] = {
            "isolate": self._isolate,
            "plug in": self._plug_in,
            "open door": lambda: self._set(act, "door_open", True, "Door open."),
            "shut door": lambda: self._set(act, "door_open", False, "Door shut."),
            "thermostat off": lambda: self._set(act, "knob_on", False, "Thermostat turned off."),
            "thermostat on": lambda: self._set(act, "knob_on", True, "Thermostat turned on."),
            "advance timer": self._advance_timer,
            "new meter": self._new_meter,
            "new fuse": self._new_fuse,
            "zero leads": self._zero_leads,
        }
        if act in plain and not on:
            return plain[act]()
        with_one: dict[str, Callable[[str], Told]] = {
            "discharge": self._discharge,
            "take off": self._take_off,
            "put back": self._put_back,
            "wait": self._wait,
        }
        if act in with_one and len(on) == 1:
            return with_one[act](on[0])
        if act == "fit" and len(on) in (1, 2):
            return self._fit(on[0], on[1] if len(on) == 2 else "")
        raise BenchError(f"the bench knows no act {act!r} on {on}; the acts are {', '.join(SECONDS)}")

    def _isolate(self) -> Told:
        if not self.state.plugged:
            return Told("The plug is already pulled and locked off.")
        self._change(plugged=False)
        return self._did("isolate", "Plug pulled and locked off.")

    def _plug_in(self) -> Told:
        if self.state.plugged:
            return Told("The unit is already plugged in.")
        self._change(plugged=True)
        return self._did("plug in", "Plugged in.")

    def _set(self, act: str, what: str, value: bool, text: str) -> Told:
        if getattr(self.state, what) is value:
            return Told(f"It is so already. {text}")
        self._change(**{what: value})
        return self._did(act, text)

    def _advance_timer(self) -> Told:
        defrost = self.parts.defrost
        if defrost is None:
            raise BenchError("this unit has no defrost timer")
        if defrost.timer_stuck is not Stuck.FREE:
            return self._stuck_timer()
        self._change(timer_defrost=not self.state.timer_defrost, timer_s=0.0)
        where = "defrost" if self.state.timer_defrost else "cooling"
        return self._did("advance timer", f"Timer turned by hand until it clicks. Its mark stands at {where}.")

    def _stuck_timer(self) -> Told:
        key = ("advance timer",)
        if key not in self._known:
            where = "defrost" if self.state.timer_defrost else "cooling"
            words = f"The knob turns, but nothing clicks: the mark stays at {where}."
            self._known[key] = self._did("advance timer", words, changed=False)
        return self._known[key]

    def _discharge(self, name: str) -> Told:
        fields = {"start capacitor": "start_capacitor_v", "run capacitor": "run_capacitor_v", "board": "bus_v"}
        there = [component.name for component in self.unit.wiring.components if component.name in fields]
        if name not in there:
            raise BenchError(f"{name!r} holds no charge; what does here: {', '.join(there) or 'nothing'}")
        if self.state.plugged:
            return self._refused(("discharge", name), "the unit is still plugged in", Hazard.DISCHARGED_LIVE)
        if self._did_since_change("discharge", (name,)):
            return Told(f"The {name} is already discharged.")
        self._change(**{fields[name]: 0.0})
        return self._did("discharge", f"The {name} discharged through a resistor.", on=(name,))

    def _take_off(self, name: str) -> Told:
        component = self.unit.wiring.component(name)
        if component.kind in NOT_TAKEN_OFF:
            raise BenchError(f"the {name} stays where it is; take off the parts that are wired to it")
        if name in self.state.removed:
            return Told(f"The {name} is already off.")
        if self.state.plugged:
            return self._refused(("take off", name), "the unit is still plugged in", Hazard.TOUCHED_LIVE_PART)
        hazards = self._touch(name)
        hot = component.kind is ComponentKind.PTC and self.state.ptc_k > HOT_K
        note = f"the {name} is still hot: let it cool" if hot else ""
        self._change(removed=self.state.removed | {name})
        self._did("take off", "", hazards, on=(name,), display=stopped(note))
        return Told(f"The {name} is off; its terminals are bare.{f' But {note}.' if note else ''}", hazards=hazards)

    def _put_back(self, name: str) -> Told:
        self.unit.wiring.component(name)
        if name not in self.state.removed:
            return Told(f"The {name} is in its place.")
        if self.state.plugged:
            return self._refused(("put back", name), "the unit is still plugged in", Hazard.TOUCHED_LIVE_PART)
        hazards = self._touch(name)
        self._change(removed=self.state.removed - {name})
        return self._did("put back", f"The {name} is back in its place.", hazards, on=(name,))

    def _fit(self, name: str, spare: str) -> Told:
        component = self.unit.wiring.component(name)
        if component.kind in COMPRESSORS:
            raise BenchError("The compressor is changed in the shop, not on this bench.")
        spares = self.unit.spares_for(name)
        if not spares:
            raise BenchError(f"there is no spare for the {name} here; spares: {', '.join(self.unit.spares)}")
        chosen = spare or next(iter(spares))
        if chosen not in spares:
            raise BenchError(f"there is no spare {spare!r} for the {name}; there are: {', '.join(spares)}")
        in_one_act = component.kind is ComponentKind.CORD  # it never lies off by itself
        if in_one_act and name in self.fitted:
            return Told(f"The {name} is new already.")
        if name not in self.state.removed and not in_one_act:
            raise BenchError(f"the old {name} is still in its place; take it off first")
        if self.state.plugged:
            return self._refused(("fit", name), "the unit is still plugged in", Hazard.TOUCHED_LIVE_PART)
        self.parts = fitted(self.parts, self.unit, name, chosen)
        self.fitted[name] = chosen
        self._change(removed=self.state.removed - {name}, **self.unit.cold_part(name))
        on = (name, chosen) if spare else (name,)
        return self._did("fit", f"Fitted: {name}, {chosen}.", on=on)

    def _wait(self, how_long: str) -> Told:
        if how_long not in WAITS:
            raise BenchError(f"you can wait {', '.join(WAITS)}; {how_long!r} is none of them")
        if how_long == NEXT_TRY:
            return self._wait_for_try()
        self._let(WAITS[how_long])
        return self._did("wait", f"Waited {how_long}.", on=(how_long,))

    def _wait_for_try(self) -> Told:
        if not self.state.plugged:
            raise BenchError("the unit is not plugged in, so it will not try to start")
        passed, tries = 0, False
        while passed < WAITS[NEXT_TRY] and not tries:
            self._let(1)
            passed += 1
            tries = self.powered and self.state.powered_s < 2
        kept = "it had power all along" if self.powered else "it did not try to start"
        return self._did(
            "wait", "The compressor tries to start." if tries else f"Ten minutes, and {kept}.", on=(NEXT_TRY,)
        )

    def _new_meter(self) -> Told:
        if not self.instruments.meter.ruined:
            return Told("The meter works; keep it.")
        self.instruments.fetch_meter()
        return self._did("new meter", "Another multimeter on the bench. Its leads are not zeroed yet.")

    def _new_fuse(self) -> Told:
        if not self.instruments.meter.fuse_blown:
            return Told("The meter's fuse is whole.")
        self.instruments.meter.replace_fuse()
        return self._did("new fuse", "A new fuse of the same rating in the meter.")

    def _zero_leads(self) -> Told:
        if self.instruments.meter.ruined:
            return Told("The meter shows ----: it is ruined. Take another.")
        if self.instruments.meter.is_zeroed:
            return Told("The leads are already zeroed.")
        shown = self.instruments.zero_leads()
        return self._did("zero leads", f"Tips together: {shown.text}. Taken off from now on.", display=shown)

    # --------------------------------------------------------------- looking

    def look(self) -> str:
        """What a person standing at the bench sees."""
        words = [self.unit.describe()]
        words.append("The unit is plugged in." if self.state.plugged else "The plug is pulled and locked off.")
        words.append("The door is open." if self.state.door_open else "The door is shut.")
        if self.state.removed:
            words.append(f"Taken off: {', '.join(sorted(self.state.removed))}.")
        if self.fitted:
            words.append(f"Fitted new: {', '.join(f'{name} ({spare})' for name, spare in self.fitted.items())}.")
        if self.parts.defrost is not None:
            words.append(
                f"The mark of the defrost timer stands at {'defrost' if self.state.timer_defrost else 'cooling'}."
            )
        return "\n".join(words)

    @property
    def circuit(self) -> UnitCircuit:
        """The circuit as it is now."""
        return UnitCircuit(self.unit.wiring, self.parts, self.state)

    @property
    def plugged(self) -> bool:
        """Whether the unit is plugged in."""
        return self.state.plugged

    @property
    def powered(self) -> bool:
        """Whether the compressor has power now."""
        return self.operation.is_powered(self.state)

    @property
    def operation(self) -> Operation:
        """What runs the unit as time passes."""
        return Operation(self.unit.wiring, self.parts, self.unit.room_k, self.unit.phase)

    # ---------------------------------------------------------------- inside

    def _read(self, act: str, on: tuple[str, ...]) -> Told:
        reading = READINGS[act]
        reading.check(self, on)
        return self._reading((act, *on), lambda: reading.take(self, on), reading.words(on))

    def hold(self, conductor: str) -> Passed:
        """Plug in and watch the first seconds with an instrument on hold.

        Parameters
        ----------
        conductor : str
            Conductor whose current is watched [-]
        """
        self._change(plugged=True)
        self._known.clear()
        passed = self.operation.advance(self.state, HOLD_S, conductor)
        self.state = passed.state
        self.spend(HOLD_S)
        return passed

    def hear(self, seconds: float) -> Passed:
        """Let time pass and give what was heard.

        Parameters
        ----------
        seconds : float
            How long [s]
        """
        passed = self.operation.advance(self.state, seconds)
        self.state = passed.state
        self._known.clear()
        return passed

    def _let(self, seconds: float) -> None:
        if seconds > 0:
            self.state = self.operation.advance(self.state, seconds).state
        self.at += int(seconds)

    def _pass(self, seconds: int) -> None:
        self._let(max(0, seconds - self._spent))
        self.at += min(seconds, self._spent)
        self._spent = 0

    _spent = 0  # simulated seconds that an act has used already

    def spend(self, seconds: int) -> None:
        """Note that a reading has let time pass by itself.

        Parameters
        ----------
        seconds : int
            How long [s]
        """
        self._spent = seconds

    def _change(self, **changes: Any) -> None:
        after = replace(self.state, **changes)
        keep = {key for key in changes if key.endswith("_v")}
        if not keep:
            after = self.operation.switched(self.state, after)
        self.state = self.operation.settled(after)

    def _refused(self, key: tuple[str, ...], why: str, hazard: Hazard) -> Told:
        if key not in self._known:
            self._known[key] = self._did(key[0], f"Stopped: {why}.", (hazard,), on=key[1:], changed=False)
        return self._known[key]

    def _did_since_change(self, act: str, on: tuple[str, ...]) -> bool:
        for line in reversed(self.lines):
            if line.act == act and line.on == on and not line.hazards:
                return True
            if line.act in ("plug in", "inrush", "lowest volts"):
                return False
        return False

    def _touch(self, name: str) -> tuple[Hazard, ...]:
        """Hands on a part: a charged capacitor in reach of it gives its charge to the hand."""
        held = {"start capacitor": "start_capacitor_v", "run capacitor": "run_capacitor_v", "board": "bus_v"}
        reach = held.get(name)
        beside = {"relay": "start_capacitor_v"}.get(name)
        for field in (reach, beside):
            if field is not None and abs(getattr(self.state, field)) > SAFE_VOLTS:
                self._change(**{field: 0.0})
                return (Hazard.TOUCHED_CHARGED,)
        return ()

    def _still_shows(self, key: tuple[str, ...]) -> bool:
        """Only the reading just taken still stands; two more minutes of listening are always new."""
        if key == ("listen",):
            return False
        last = self.lines[-1] if self.lines else None
        return last is not None and (last.act, *last.on) == key

    def _state(self) -> tuple[UnitState, bool]:
        return self.state, self.instruments.meter.is_zeroed

    def _take(self, line: SheetLine, display: Display, before: tuple[UnitState, bool]) -> UnitTaken:
        return UnitTaken(line, display, *before)
