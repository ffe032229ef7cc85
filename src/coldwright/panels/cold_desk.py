"""The desk of the bench of a cooler with its sealed system: its panel, and the acts on the cold side by name."""

from __future__ import annotations

from coldwright.bench.acts import Told
from coldwright.bench.cold_acts import PURGED
from coldwright.bench.cold_bench import ColdBench
from coldwright.panels.desk import Panel
from coldwright.panels.unit_compare import KINDS, compared
from coldwright.panels.unit_desk import UnitDesk
from coldwright.panels.words import say
from coldwright.quantities import Kind

COLD_KINDS = {
    **KINDS,
    "gauge": Kind.PRESSURE_GAUGE,
    "barometer": Kind.PRESSURE_ABSOLUTE,
    "probe": Kind.TEMPERATURE,
    "scale": Kind.MASS,
}


class ColdDesk(UnitDesk):
    """One cooler with its sealed system on the bench.

    Shown in a notebook, it is the panel; each common act can be called by name as well. Acts that only a kind of bench
    has go through `do`.

    Parameters
    ----------
    bench : ColdBench
        The bench [-]
    """

    bench: ColdBench

    def _make_panel(self) -> Panel:
        from coldwright.panels.cold_panel import ColdPanel

        return ColdPanel(self.bench)

    def compare(self, predicted: object) -> None:
        """Print what was predicted beside the last reading on the job sheet.

        Parameters
        ----------
        predicted : object
            Such as "35 psig"; blank for no prediction yet [-]
        """
        say(compared(predicted, self.bench.taken, COLD_KINDS))

    # ------------------------------------------------------------- gauge set

    def join_gauges(self, hoses: str = PURGED) -> Told:
        """Join the gauge hoses to both ports.

        Parameters
        ----------
        hoses : str
            "purged" or "not purged" [-]
        """
        return self.do("join gauges", hoses)

    def take_off_gauges(self) -> Told:
        """Take the gauge hoses off, and put the caps on the ports."""
        return self.do("take off gauges")

    def gauge(self, side: str) -> Told:
        """Pressure above the air, by one of the gauges.

        Parameters
        ----------
        side : str
            "low side" or "high side" [-]
        """
        return self.do("gauge", side)

    def barometer(self) -> Told:
        """Pressure of the air at this place."""
        return self.do("barometer")

    # ------------------------------------------------------- probe and frost

    def probe(self, place: str) -> Told:
        """Temperature of a place, by the clip probe left on it for two minutes.

        Parameters
        ----------
        place : str
            Such as "suction line" or "air in the cabinet" [-]
        """
        return self.do("probe", place)

    def frost(self) -> Told:
        """How far the frost goes on the evaporator and the suction line."""
        return self.do("frost line")

    # ------------------------------------- cylinder, scale, recovery and door

    def add(self, refrigerant: str, grams: str) -> Told:
        """Let refrigerant in on the low side, as vapour.

        Parameters
        ----------
        refrigerant : str
            Name on the cylinder, such as "R-134a" [-]
        grams : str
            How much, such as "5 g" [-]
        """
        return self.do("add", refrigerant, grams)

    def recover(self, grams: str) -> Told:
        """Recover refrigerant into a cylinder.

        Parameters
        ----------
        grams : str
            How much, such as "5 g", or "all" [-]
        """
        return self.do("recover", grams)

    def tare(self) -> Told:
        """Put the cylinder on the scale and set it to zero."""
        return self.do("tare")

    def scale(self) -> Told:
        """What the scale shows."""
        return self.do("scale")

    def open_door(self) -> Told:
        """Open the door."""
        return self.do("open door")

    def shut_door(self) -> Told:
        """Shut the door."""
        return self.do("shut door")
