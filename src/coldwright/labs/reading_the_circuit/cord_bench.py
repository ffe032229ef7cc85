"""The bench of this lab: that of a whole unit, on which the cord can be changed as well."""

from __future__ import annotations

from coldwright.appliance.unit_faults import fitted
from coldwright.bench.acts import Told
from coldwright.bench.hazards import Hazard
from coldwright.bench.unit_bench import UnitBench

CORD = "cord"


class CordBench(UnitBench):
    """One cooler on the bench. "fit cord" changes the cord in one act, since it never lies off by itself."""

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
        return self._fit_cord() if (act, on) == ("fit", (CORD,)) else super().perform(act, on)

    def _fit_cord(self) -> Told:
        if CORD in self.fitted:
            return Told("The cord is new already.")
        if self.state.plugged:
            return self._refused(("fit", CORD), "the unit is still plugged in", Hazard.TOUCHED_LIVE_PART)
        spare = next(iter(self.unit.spares_for(CORD)))
        self.parts = fitted(self.parts, self.unit, CORD, spare)
        self.fitted[CORD] = spare
        self._change()
        return self._did("fit", f"Fitted: {CORD}, {spare}.", on=(CORD,))
