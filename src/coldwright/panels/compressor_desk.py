"""The desk of the compressor bench: its panel, and each of its acts by name."""

from __future__ import annotations

from coldwright.bench.acts import Told
from coldwright.bench.compressor_bench import CompressorBench
from coldwright.panels.desk import Desk, Panel


class CompressorDesk(Desk):
    """One compressor on the bench. Shown in a notebook, it is the panel; each act can be called by name as well.

    Parameters
    ----------
    bench : CompressorBench
        The bench [-]
    """

    bench: CompressorBench

    def _make_panel(self) -> Panel:
        from coldwright.panels.probe_panel import ProbePanel

        return ProbePanel(self.bench)

    def isolate(self) -> Told:
        """Pull the plug and lock it off."""
        return self._did(self.bench.isolate())

    def plug_in(self) -> Told:
        """Take the lock off and plug the unit in."""
        return self._did(self.bench.plug_in())

    def discharge(self) -> Told:
        """Discharge the capacitor through a resistor."""
        return self._did(self.bench.discharge())

    def disconnect(self) -> Told:
        """Pull the connector off the three pins."""
        return self._did(self.bench.disconnect())

    def reconnect(self) -> Told:
        """Put the connector back on the three pins."""
        return self._did(self.bench.reconnect())

    def break_vacuum(self) -> Told:
        """Let dry nitrogen into the sealed system."""
        return self._did(self.bench.break_vacuum())

    def let_stand(self) -> Told:
        """Let the unit stand for twelve hours."""
        return self._did(self.bench.let_stand())

    def new_meter(self) -> Told:
        """Put a ruined multimeter away and take another."""
        return self._did(self.bench.new_meter())

    def zero_leads(self) -> Told:
        """Touch the meter's tips together and zero what shows."""
        return self._did(self.bench.zero_leads())

    def ohms(self, a: str | int, b: str | int) -> Told:
        """Ohms between two terminals.

        Parameters
        ----------
        a, b : str or int
            Terminals that the red and the black tip go on [-]
        """
        return self._did(self.bench.ohms(a, b))

    def volts_ac(self, a: str | int, b: str | int) -> Told:
        """Alternating volts between two terminals.

        Parameters
        ----------
        a, b : str or int
            Terminals that the red and the black tip go on [-]
        """
        return self._did(self.bench.volts_ac(a, b))

    def volts_dc(self, a: str | int, b: str | int) -> Told:
        """Direct volts between two terminals.

        Parameters
        ----------
        a, b : str or int
            Terminals that the red and the black tip go on [-]
        """
        return self._did(self.bench.volts_dc(a, b))

    def insulation(self, pin: str | int) -> Told:
        """Insulation resistance from a pin to the shell at 500 V d.c.

        Parameters
        ----------
        pin : str or int
            Pin 1, 2 or 3 [-]
        """
        return self._did(self.bench.insulation(pin))

    def temperature(self, place: str = "shell") -> Told:
        """Temperature of the shell or of the room.

        Parameters
        ----------
        place : str
            "shell" or "room" [-]
        """
        return self._did(self.bench.temperature(place))
