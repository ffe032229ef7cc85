"""The desk of the bench of a whole unit: its panel, and the common acts by name."""

from __future__ import annotations

from coldwright.bench.acts import Told
from coldwright.bench.unit_bench import UnitBench
from coldwright.panels.desk import Desk, Panel
from coldwright.panels.unit_compare import compared
from coldwright.panels.words import say


class UnitDesk(Desk):
    """One cooler on the bench. Shown in a notebook, it is the panel; each common act can be called by name as well.

    Every other act of the bench goes through `do`, by the name it has on the job sheet.

    Parameters
    ----------
    bench : UnitBench
        The bench [-]
    """

    bench: UnitBench

    def _make_panel(self) -> Panel:
        from coldwright.panels.unit_panel import UnitPanel

        return UnitPanel(self.bench)

    def compare(self, predicted: object) -> None:
        """Print what was predicted beside the last reading on the job sheet.

        Parameters
        ----------
        predicted : object
            Such as "230 V"; blank for no prediction yet [-]
        """
        say(compared(predicted, self.bench.taken))

    # ------------------------------------------------------------------ acts

    def isolate(self) -> Told:
        """Pull the plug and lock it off."""
        return self.do("isolate")

    def plug_in(self) -> Told:
        """Take the lock off and plug the unit in."""
        return self.do("plug in")

    def discharge(self, capacitor: str) -> Told:
        """Discharge a capacitor through a resistor.

        Parameters
        ----------
        capacitor : str
            Such as "start capacitor"; an inverter's "board" too [-]
        """
        return self.do("discharge", capacitor)

    def take_off(self, component: str) -> Told:
        """Take a component off, so that its terminals are bare.

        Parameters
        ----------
        component : str
            Such as "relay" [-]
        """
        return self.do("take off", component)

    def put_back(self, component: str) -> Told:
        """Put a component back in its place.

        Parameters
        ----------
        component : str
            Such as "relay" [-]
        """
        return self.do("put back", component)

    def fit(self, component: str, spare: str = "") -> Told:
        """Fit a spare in place of a component that was taken off.

        Parameters
        ----------
        component : str
            Such as "relay" [-]
        spare : str
            Which spare; the first one if left out [-]
        """
        return self.do("fit", component, spare) if spare else self.do("fit", component)

    def wait(self, how_long: str) -> Told:
        """Let time pass.

        Parameters
        ----------
        how_long : str
            Such as "5 min", or "next try" for the next try to start [-]
        """
        return self.do("wait", how_long)

    def zero_leads(self) -> Told:
        """Touch the meter's tips together and zero what shows."""
        return self.do("zero leads")

    # ------------------------------------------------------------ multimeter

    def ohms(self, a: str, b: str) -> Told:
        """Ohms between two terminals.

        Parameters
        ----------
        a, b : str
            Terminals that the red and the black tip go on [-]
        """
        return self.do("ohms", a, b)

    def continuity(self, a: str, b: str) -> Told:
        """Whether two terminals are joined, by the meter's beep.

        Parameters
        ----------
        a, b : str
            Terminals that the red and the black tip go on [-]
        """
        return self.do("continuity", a, b)

    def volts_ac(self, a: str, b: str) -> Told:
        """Alternating volts between two terminals.

        Parameters
        ----------
        a, b : str
            Terminals that the red and the black tip go on [-]
        """
        return self.do("volts ac", a, b)

    def volts_ac_low_impedance(self, a: str, b: str) -> Told:
        """Alternating volts on the input that loads the wires, so that a ghost voltage falls away.

        Parameters
        ----------
        a, b : str
            Terminals that the red and the black tip go on [-]
        """
        return self.do("volts ac low impedance", a, b)

    def volts_dc(self, a: str, b: str) -> Told:
        """Direct volts between two terminals.

        Parameters
        ----------
        a, b : str
            Terminals that the red and the black tip go on [-]
        """
        return self.do("volts dc", a, b)

    def capacitance(self, a: str, b: str) -> Told:
        """Capacitance between two terminals.

        Parameters
        ----------
        a, b : str
            Terminals that the red and the black tip go on [-]
        """
        return self.do("capacitance", a, b)

    def lowest_volts(self) -> Told:
        """Plug the unit in and keep the lowest volts at the plug while it starts."""
        return self.do("lowest volts")

    # ------------------------------------------------- clamp and power meter

    def clamp(self, conductor: str) -> Told:
        """Amps in the wire that the clamp goes round.

        Parameters
        ----------
        conductor : str
            Terminal at the end of the wire, or "cord" for the whole cord [-]
        """
        return self.do("clamp", conductor)

    def inrush(self, conductor: str) -> Told:
        """Plug the unit in and keep the highest amps of the start.

        Parameters
        ----------
        conductor : str
            Terminal at the end of the wire, or "cord" for the whole cord [-]
        """
        return self.do("inrush", conductor)

    def watts(self) -> Told:
        """Watts that the unit takes, by the power meter at its plug."""
        return self.do("watts")

    def power_factor(self) -> Told:
        """Watts as a share of volts times amps, by the power meter at the plug."""
        return self.do("power factor")

    def kilowatt_hours(self) -> Told:
        """Energy that the power meter at the plug has counted."""
        return self.do("kilowatt-hours")

    def start_test(self) -> Told:
        """Start the compressor on a test cord for 3 s, with the devices bypassed."""
        return self.do("start test")

    # ---------------------------------------------------------------- others

    def insulation(self, a: str, b: str) -> Told:
        """Insulation resistance between two terminals at 500 V d.c.

        Parameters
        ----------
        a, b : str
            Two terminals, such as "plug L" and "cabinet metal" [-]
        """
        return self.do("insulation", a, b)

    def temperature(self, place: str) -> Told:
        """Temperature of a place.

        Parameters
        ----------
        place : str
            Such as "shell" or "cabinet" [-]
        """
        return self.do("temperature", place)

    def inspect(self, component: str) -> Told:
        """What can be seen of a component.

        Parameters
        ----------
        component : str
            Such as "relay" [-]
        """
        return self.do("inspect", component)

    def listen(self) -> Told:
        """What is heard in two minutes."""
        return self.do("listen")
