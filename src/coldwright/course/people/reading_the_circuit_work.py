"""How a good hand works through lab 02: the complaint, the schematic, what the instruments show, nothing else."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from coldwright.bench.unit_bench import UnitBench
from coldwright.instruments.display import Display

Answers = dict[str, str]
FANS = ("condenser fan", "evaporator fan")
NEAR_ZERO_OHM = 1.0
JOINT_ABOVE_V = 0.01
FED_ABOVE = 0.8  # of the supply: a fan that gets this and stands still is stuck


@dataclass
class Notes:
    """What a person wrote down while working."""

    shown: dict[str, Display] = field(default_factory=dict)
    component: str = ""
    wrong: str = ""
    joint: str = ""

    def value(self, name: str) -> float:
        """Number that an instrument showed, in SI.

        Parameters
        ----------
        name : str
            What was read [-]
        """
        return self.shown[name].value


class Person:
    """One person at one bench.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    reads_wired : bool
        Whether the person reads the condenser fan before it is taken off as well [-]
    """

    def __init__(self, bench: UnitBench, reads_wired: bool = False) -> None:
        self.bench, self.notes, self.reads_wired = bench, Notes(), reads_wired
        self.wiring = bench.unit.wiring
        self.names = {component.name for component in self.wiring.components}
        self.frost_free = "defrost timer" in self.names

    # ---------------------------------------------------------------- habits

    def act(self, act: str, *on: str) -> None:
        """Do an act.

        Parameters
        ----------
        act : str
            Its name [-]
        *on : str
            What on [-]
        """
        self.bench.perform(act, on)

    def read(self, act: str, *on: str) -> Display:
        """Take a reading.

        Parameters
        ----------
        act : str
            Its name [-]
        *on : str
            What on [-]
        """
        display = self.bench.perform(act, on).display
        assert display is not None
        return display

    def closed(self, *on: str) -> bool:
        """Whether a switch reads near zero ohms.

        Parameters
        ----------
        *on : str
            Its two ends [-]
        """
        return self.read("ohms", *on).value < NEAR_ZERO_OHM

    def make_safe(self) -> None:
        """Pull the plug and let every charge out."""
        self.act("isolate")
        for name in ("start capacitor", "run capacitor", "board"):
            if name in self.names:
                self.act("discharge", name)

    def prove_dead(self) -> None:
        """Try the meter, read all three pairs, try the meter again."""
        self.notes.shown["supply"] = self.read("volts ac", "outlet L", "outlet N")
        for pair in (("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E")):
            self.read("volts ac", *pair)
        self.read("volts ac", "outlet L", "outlet E")

    # ----------------------------------------------------------------- dead

    def check_dead(self) -> None:
        """Every switch in both states, every load taken off, while it is cold and unplugged."""
        self.act("zero leads")
        self._cord()
        self._thermostat()
        self._door_switch()
        if self.frost_free:
            self._timer()
            self._terminator_and_heater()
        for fan in FANS:
            self._fan(fan)

    def _found(self, component: str, wrong: str) -> None:
        if not self.notes.component:
            self.notes.component, self.notes.wrong = component, wrong

    def _cord(self) -> None:
        if not self.closed("plug L", "cord L"):
            self._found("cord", "open")

    def _thermostat(self) -> None:
        ends = ("thermostat 1", "thermostat 2")
        if not self.closed(*ends):
            self._found("thermostat", "stuck open")  # or drifted: it will be read again when it is warm
            return
        self.act("thermostat off")
        if self.closed(*ends):
            self._found("thermostat", "stuck closed")
        self.act("thermostat on")

    def _door_switch(self) -> None:
        ends = ("door switch 1", "door switch 2")
        if self.closed(*ends):
            self._found("door switch", "stuck closed")
        self.act("open door")
        if not self.closed(*ends):
            self._found("door switch", "stuck open")
        self.act("shut door")

    def _timer(self) -> None:
        notes = self.notes
        at_defrost = self.closed("timer 1", "timer 2")
        notes.shown["timer"] = self.read("ohms", "timer 1", "timer 4")
        self.act("advance timer")
        if self.closed("timer 1", "timer 2") is at_defrost:
            self._found("defrost timer", "stuck at defrost" if at_defrost else "stuck at cooling")
        else:
            self.act("advance timer")

    def _terminator_and_heater(self) -> None:
        self.notes.shown["terminator"] = self.read("ohms", "terminator 1", "terminator 2")
        if self.notes.value("terminator") > NEAR_ZERO_OHM:
            self._found("terminator", "stuck open")
        self.act("take off", "heater")
        self.notes.shown["heater"] = self.read("ohms", "heater 1", "heater 2")
        self.act("put back", "heater")
        if math.isinf(self.notes.value("heater")):
            self._found("heater", "open")

    def _fan(self, fan: str) -> None:
        if self.reads_wired and fan == "condenser fan":
            self.notes.shown["wired fan"] = self.read("ohms", f"{fan} 1", f"{fan} 2")
        self.act("take off", fan)
        self.notes.shown[fan] = self.read("ohms", f"{fan} 1", f"{fan} 2")
        self.act("put back", fan)
        if math.isinf(self.notes.value(fan)):
            self._found(fan, "open")

    # ----------------------------------------------------------------- live

    def check_live(self) -> None:
        """Plugged in: volts across two switches, and whether the fans turn."""
        self.act("plug in")
        self.notes.shown["across thermostat"] = self.read("volts ac", "thermostat 1", "thermostat 2")
        self.notes.shown["across door switch"] = self.read("volts ac", "door switch 1", "door switch 2")
        for fan in FANS:
            if not self.notes.component and self._seized(fan):
                self._found(fan, "seized")

    def _seized(self, fan: str) -> bool:
        """Whether a fan stands still at each of three looks, although it gets its volts."""
        for _ in range(3):
            if self.read("inspect", fan).text != "the blades stand still":
                return False
            self.act("wait", "10 s")
        return self.read("volts ac", f"{fan} 1", f"{fan} 2").value > FED_ABOVE * self.notes.value("supply")

    def wait_for_warmth(self) -> None:
        """Where only a warm reading can tell, unplugged for 12 hours."""
        if self.notes.component == "thermostat" and self.notes.wrong == "stuck open":
            self.make_safe()
            self.act("wait", "12 h")
            if self.closed("thermostat 1", "thermostat 2"):
                self.notes.wrong = "drifted"
        elif not self.notes.component and self.frost_free and "after each defrost" in self.bench.look():
            self.make_safe()
            self.act("wait", "12 h")
            if self.closed("terminator 1", "terminator 2"):
                self._found("terminator", "stuck closed")

    # ---------------------------------------------------------------- the joint

    def hunt_joint(self) -> None:
        """Volts from end to end of each wire with a load on; then the amps."""
        if not self._steady():
            self.make_safe()
            self.act("take off", "overload")  # a compressor that hums is no load to measure with
            self.act("plug in")
        load = "timer 1" if self.frost_free else "condenser fan 1"
        pairs = [("cord N", "condenser fan 2"), ("cord L", "thermostat 1"), ("thermostat 2", load)]
        pairs += [(end, load) for end in ("overload 1", "board L") if self._has(end) and not self.frost_free]
        pairs += [("overload 1", "condenser fan 1")] if self.frost_free else []
        for a, b in pairs:
            shown = self.read("volts ac", a, b)
            if shown.value > JOINT_ABOVE_V:
                self.notes.joint = b if a == "cord L" else a
                self.notes.shown["drop"] = shown
                self.notes.shown["amps"] = self.read("clamp", self.notes.joint)
                return

    def _has(self, terminal: str) -> bool:
        return any(terminal in c.terminals and c.name not in self.bench.state.removed for c in self.wiring.components)

    def _steady(self) -> bool:
        """Whether it runs without clicking; what is heard is written down by the bench."""
        heard = self.read("listen").text
        if "click from the compressor" in heard or "hums" in heard:
            return False
        self.act("wait", "5 min")
        return True

    # --------------------------------------------------------------- the repair

    def repair(self) -> None:
        """Change the part, prove it electrically, and show that it works."""
        self.make_safe()
        part = self.notes.component
        if part != "cord":
            self.act("take off", part)
        self.act("fit", part)
        if part == "defrost timer" and "timer stands at defrost" in self.bench.look():
            self.act("advance timer")
        if "overload" in self.bench.state.removed:
            self.act("put back", "overload")
        self._prove()
        self.act("wait", "5 min")  # let the pressures even out, or the compressor cannot start
        self._show()

    def _prove(self) -> None:
        self.read("ohms", "plug E", "cabinet metal")
        self.read("continuity", "plug L", "thermostat 1")
        if "board" in self.names:
            self.act("take off", "board")
        for plug in ("plug L", "plug N"):
            self.notes.shown[f"insulation {plug}"] = self.read("insulation", plug, "cabinet metal")
        if "board" in self.names:
            self.act("put back", "board")

    def _show(self) -> None:
        part = self.notes.component
        if part in ("heater", "terminator"):
            self.read("ohms", f"{part} 1", f"{part} 2")
            self.act("plug in")
            return
        if part == "door switch":
            self.act("open door")
        self.act("plug in")
        ends = {"cord": "cord L", "defrost timer": "timer 4" if self.notes.wrong != "stuck at cooling" else "timer 1"}
        self.read("clamp", ends.get(part, f"{part} 1"))
        if part == "door switch":
            self.act("shut door")

    # -------------------------------------------------------------- the whole job

    def job(self) -> Answers:
        """All of it, and the answers."""
        self.prove_dead()
        self.check_dead()
        self.check_live()
        self.wait_for_warmth()
        if not self.notes.component:
            self.hunt_joint()
            owner = self.wiring.owner(self.notes.joint).name
            self._found(owner, "loose joint")
        self.repair()
        if not self.notes.joint:
            self.hunt_joint()
        return self.answers()

    def answers(self) -> Answers:
        """What right reasoning draws from the notes."""
        notes, supply = self.notes, self.notes.value("supply")
        insulation = [notes.shown[f"insulation {plug}"] for plug in ("plug L", "plug N")]
        lowest = min(shown.value for shown in insulation)
        across = notes.value("across thermostat")
        no_supply = (notes.component, notes.wrong) == ("cord", "open")
        contact = "cannot tell" if no_supply else "open" if across > 0.5 * supply else "closed"
        found = {
            "after_thermostat": next(
                t for net in self.wiring.nets.values() if "thermostat 2" in net for t in net if t != "thermostat 2"
            ),
            "fan_path": "thermostat and timer" if self.frost_free else "thermostat",
            "door_switch_volts": f"{notes.value('across door switch'):.3f} V",
            "thermostat_contact": contact,
            "fan_ohms": ohms_text(notes.shown["condenser fan"]),
            "component": notes.component,
            "wrong": notes.wrong,
            "joint": notes.joint,
            "joint_volts": f"{notes.value('drop'):.3f} V",
            "joint_watts": f"{notes.value('drop') * notes.value('amps'):.4f} W",
            "insulation": "OL" if math.isinf(lowest) else f"{lowest / 1e6:.3f} Mohm",
        }
        return found | self._defrost_answers(supply)

    def _defrost_answers(self, supply: float) -> Answers:
        if not self.frost_free:
            return dict.fromkeys(("timer_joins", "terminator_cold", "heater_ohms", "heater_watts"), "none")
        notes = self.notes
        heater = notes.value("heater")
        return {
            "timer_joins": "timer 4" if notes.value("timer") < NEAR_ZERO_OHM else "timer 2",
            "terminator_cold": "closed" if notes.value("terminator") < NEAR_ZERO_OHM else "open",
            "heater_ohms": ohms_text(notes.shown["heater"]),
            "heater_watts": "0 W" if math.isinf(heater) else f"{supply**2 / heater:.2f} W",
        }


def ohms_text(shown: Display) -> str:
    """A reading of ohms as a learner types it.

    Parameters
    ----------
    shown : Display
        What the meter showed [-]
    """
    return "OL" if math.isinf(shown.value) else f"{shown.value:.3f} ohm"
