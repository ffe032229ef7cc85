"""The compressor bench: what a learner can do to the windings of one compressor, and what it shows."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from coldwright.appliance.compressor import PINS, TERMINALS, BenchCircuit, BenchCompressor
from coldwright.bench.acts import METER_HAZARDS, SECONDS, Taken, Told, stopped
from coldwright.bench.bench import SAFE_VOLTS, Bench
from coldwright.bench.hazards import Hazard
from coldwright.bench.sheet import SheetHeader, SheetLine
from coldwright.errors import BenchError
from coldwright.instruments.display import Display
from coldwright.instruments.insulation_tester import InsulationTester
from coldwright.instruments.multimeter import Function, Multimeter
from coldwright.instruments.thermometer import read_temperature

PLACES = ("shell", "room")


class CompressorBench(Bench):
    """One unit on the bench with a multimeter, an insulation tester and a thermometer.

    Parameters
    ----------
    unit : BenchCompressor
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
    unit: BenchCompressor

    def __init__(
        self, unit: BenchCompressor, seed: bytes, lead_ohm: float, header: SheetHeader, path: Path | None = None
    ) -> None:
        super().__init__(seed, header)
        self.unit = unit
        self._lead_ohm = lead_ohm
        self._meters = 0
        self.meter = self._fetch_meter()
        self.tester = InsulationTester(lambda r: self._error(f"insulation {r}"))
        self.plugged = not unit.under_vacuum  # whoever evacuated it had pulled the plug
        self.connected = True
        self.under_vacuum = unit.under_vacuum
        self.capacitor_v = unit.live_capacitor_v if self.plugged else unit.capacitor_v
        self._last_k, self._moved_at = unit.arrival_k, 0
        if path is not None:
            self._open(path)

    # ------------------------------------------------------------------ acts

    def isolate(self) -> Told:
        """Pull the plug and lock it off."""
        if not self.plugged:
            return Told("The plug is already pulled and locked off.")
        self._move_plug(plugged=False)
        self.capacitor_v = self.unit.capacitor_v
        return self._did("isolate", "Plug pulled and locked off.")

    def plug_in(self) -> Told:
        """Take the lock off and plug the unit in."""
        if self.plugged:
            return Told("The unit is already plugged in.")
        hazards = (Hazard.ENERGISED_UNDER_VACUUM,) if self.under_vacuum and self.connected else ()
        self._move_plug(plugged=True)
        self.capacitor_v = self.unit.live_capacitor_v
        return self._did("plug in", "Plugged in.", hazards)

    def discharge(self) -> Told:
        """Discharge the capacitor through a resistor, and hold it there."""
        if not self.plugged and abs(self.capacitor_v) == 0:
            return Told("The capacitor is already discharged.")
        if self.plugged:
            return self._stopped_live("discharge")
        self.capacitor_v = 0.0
        return self._did("discharge", "Capacitor discharged through a resistor.")

    def disconnect(self) -> Told:
        """Pull the connector off the three pins."""
        if not self.connected:
            return Told("The connector is already off the pins.")
        if self.plugged:
            return self._stopped_live("disconnect")
        hazards = self._touch()
        self.connected = False
        return self._did("disconnect", "Connector off; the three pins are bare.", hazards)

    def reconnect(self) -> Told:
        """Put the connector back on the three pins."""
        if self.connected:
            return Told("The connector is already on the pins.")
        if self.plugged:
            return self._stopped_live("reconnect")
        hazards = self._touch()
        self.connected = True
        return self._did("reconnect", "Connector back on the pins.", hazards)

    def break_vacuum(self) -> Told:
        """Let dry nitrogen into the sealed system until it is at the pressure of the room."""
        if not self.under_vacuum:
            return Told("The sealed system is not under vacuum.")
        self.under_vacuum = False
        return self._did("break vacuum", "Dry nitrogen let in; the sealed system is at room pressure.")

    def let_stand(self) -> Told:
        """Let the unit stand for twelve hours."""
        if self.plugged and abs(self.winding_k - self.unit.arrival_k) < 0.01:
            return Told("The unit is plugged in: the compressor stays as hot as it is.")
        if not self.plugged and abs(self.winding_k - self.unit.room_k) < 0.01:
            return Told("The compressor has already cooled to the room.")
        return self._did("let stand", "The unit stood for twelve hours.")

    def new_meter(self) -> Told:
        """Put the ruined multimeter away and take another."""
        if not self.meter.ruined:
            return Told("The meter works; keep it.")
        self.meter = self._fetch_meter()
        return self._did("new meter", "Another multimeter on the bench. Its leads are not zeroed yet.")

    def zero_leads(self) -> Told:
        """Touch the meter's tips together on ohms and zero what shows."""
        if self.meter.ruined:
            return Told("The meter shows ----: it is ruined. Take another.")
        if self.meter.is_zeroed:
            return Told("The leads are already zeroed.")
        self.meter.function = Function.OHMS
        shown = self.meter.zero_leads()
        return self._did("zero leads", f"Tips together: {shown.text}. Taken off from now on.", display=shown)

    # -------------------------------------------------------------- readings

    def ohms(self, a: str | int, b: str | int) -> Told:
        """Ohms between two terminals.

        Parameters
        ----------
        a, b : str or int
            Two terminals; pins as numbers too [-]
        """
        return self._meter_reading(Function.OHMS, str(a), str(b))

    def volts_ac(self, a: str | int, b: str | int) -> Told:
        """Alternating volts between two terminals.

        Parameters
        ----------
        a, b : str or int
            Two terminals; pins as numbers too [-]
        """
        return self._meter_reading(Function.VOLTS_AC, str(a), str(b))

    def volts_dc(self, a: str | int, b: str | int) -> Told:
        """Direct volts between two terminals.

        Parameters
        ----------
        a, b : str or int
            Two terminals, the red tip on `a`; pins as numbers too [-]
        """
        return self._meter_reading(Function.VOLTS_DC, str(a), str(b))

    def insulation(self, pin: str | int) -> Told:
        """Insulation resistance from a pin to the shell at 500 V d.c.

        Parameters
        ----------
        pin : str or int
            Pin 1, 2 or 3 [-]
        """
        pin = str(pin)
        if pin not in PINS:
            raise BenchError(
                f"the insulation test goes from a pin to the shell; {pin!r} is no pin, they are 1, 2 and 3"
            )

        def read() -> tuple[Display, tuple[Hazard, ...]]:
            if self.under_vacuum:
                return stopped("stopped: vacuum in the shell"), (Hazard.INSULATION_TEST_UNDER_VACUUM,)
            if self.plugged:
                return stopped("stopped: the unit is plugged in"), (Hazard.INSULATION_TEST_ON_LIVE,)
            if self.connected and self.unit.plate.is_inverter:
                return stopped("stopped: board connected"), (Hazard.INSULATION_TEST_ON_ELECTRONICS,)
            return self.tester.read(self.circuit, pin, "shell"), ()

        return self._reading(("insulation", pin, "shell"), read, f"500 V d.c., pin {pin} to shell")

    def temperature(self, place: str = "shell") -> Told:
        """Temperature of the compressor's shell or of the room.

        Parameters
        ----------
        place : str
            "shell" or "room" [-]
        """
        if place not in PLACES:
            raise BenchError(f"the thermometer can be put on the shell or in the room, not on {place!r}")

        def read() -> tuple[Display, tuple[Hazard, ...]]:
            true_k = self.winding_k if place == "shell" else self.unit.room_k
            return read_temperature(true_k, self._error("temperature")), ()

        return self._reading(("temperature", place), read, f"Temperature of the {place}")

    # --------------------------------------------------------------- looking

    def look(self) -> str:
        """What a person standing at the bench sees."""
        unit = self.unit
        kind = "an inverter board with a large capacitor" if unit.plate.is_inverter else "a start capacitor in its clip"
        words = [
            unit.plate.describe(),
            "The unit is plugged in." if self.plugged else "The plug is pulled and locked off.",
            f"Beside the compressor sits {kind}; its terminals are 'cap a' and 'cap b'.",
            "A condenser fan hangs on the same cord, across L and N.",
            "The connector is on pins 1, 2 and 3." if self.connected else "Pins 1, 2 and 3 are bare.",
        ]
        if self.under_vacuum:
            words.append("A gauge on the process tube shows a deep vacuum: someone has just evacuated the system.")
        return "\n".join(words)

    @property
    def winding_k(self) -> float:
        """Temperature of the windings now [K]."""
        return self.unit.winding_k(self._last_k, self.at - self._moved_at, self.plugged)

    @property
    def circuit(self) -> BenchCircuit:
        """The circuit as it is now."""
        return BenchCircuit(self.unit, self.winding_k, self.plugged, self.connected, self.capacitor_v)

    # ---------------------------------------------------------------- inside

    def _fetch_meter(self) -> Multimeter:
        self._meters += 1
        number = self._meters
        return Multimeter(self._lead_ohm, lambda f, r: self._error(f"meter {number} {f.value} {r}"))

    def _move_plug(self, plugged: bool) -> None:
        self._last_k, self._moved_at, self.plugged = self.winding_k, self.at, plugged

    def _stopped_live(self, act: str) -> Told:
        if (act,) not in self._known:
            hazards = (Hazard.TOUCHED_LIVE,)
            self._known[(act,)] = self._did(act, "Stopped: the unit is still plugged in.", hazards, changed=False)
        return self._known[(act,)]

    def _touch(self) -> tuple[Hazard, ...]:
        charged = abs(self.capacitor_v) > SAFE_VOLTS
        if charged:
            self.capacitor_v = 0.0
        return (Hazard.TOUCHED_CHARGED,) if charged else ()

    def _meter_reading(self, function: Function, a: str, b: str) -> Told:
        for terminal in (a, b):
            if terminal not in TERMINALS:
                raise BenchError(f"there is no terminal {terminal!r} here; they are {', '.join(TERMINALS)}")
        if a == b:
            raise BenchError(f"both tips are on {a}; choose two terminals. To zero the leads, use 'zero leads'")

        def read() -> tuple[Display, tuple[Hazard, ...]]:
            self.meter.function = function
            display, events = self.meter.read(self.circuit, a, b)
            hazards = [METER_HAZARDS[event] for event in events]
            if function is Function.OHMS and self.plugged and Hazard.OHMS_ON_LIVE not in hazards:
                hazards.insert(0, Hazard.OHMS_ON_LIVE)  # whatever stands between these two tips: the unit is live
            return display, tuple(hazards)

        return self._reading((function.value, a, b), read, f"{function.value}, {a} to {b}")

    def _state(self) -> tuple[float, bool]:
        return self.winding_k, self.meter.is_zeroed

    def _take(self, line: SheetLine, display: Display, before: tuple[float, bool]) -> Taken:
        at_k, zeroed = before
        return Taken(line, display, at_k, zeroed, self.plugged, self.connected, self.capacitor_v)

    def perform(self, act: str, on: tuple[str, ...] = ()) -> Told:
        """Do an act by the name it has on the job sheet.

        Parameters
        ----------
        act : str
            Name of the act [-]
        on : tuple of str
            Terminals, pin or place [-]

        Raises
        ------
        BenchError
            If there is no such act or it cannot be done on these.
        """
        plain: dict[str, Callable[[], Told]] = {
            "isolate": self.isolate,
            "plug in": self.plug_in,
            "discharge": self.discharge,
            "disconnect": self.disconnect,
            "reconnect": self.reconnect,
            "break vacuum": self.break_vacuum,
            "let stand": self.let_stand,
            "new meter": self.new_meter,
            "zero leads": self.zero_leads,
        }
        if act in plain and not on:
            return plain[act]()
        if act in ("ohms", "volts ac", "volts dc") and len(on) == 2:
            return self._meter_reading(Function(act), *on)
        if act == "insulation" and len(on) == 2 and on[1] == "shell":
            return self.insulation(on[0])
        if act == "temperature" and len(on) == 1:
            return self.temperature(on[0])
        raise BenchError(f"the bench knows no act {act!r} on {on}")
