"""An insulation tester at 500 V d.c.: megohms from a winding to the shell, made up for the course.

Its voltage flashes over in a shell under vacuum and harms electronics; the bench watches for both. It refuses to test
a circuit that carries a voltage.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field

from coldwright.instruments.display import (
    Circuit,
    Display,
    Error,
    Range,
    decimals,
    limit_and_resolution,
    no_reading,
    pick_range,
    show,
)

TEST_VOLTS = 500.0
REFUSES_ABOVE_V = 30.0
INPUT_OHM = 1e6
CATEGORY = "CAT III 600 V"
RANGES = (
    Range(2e6, 1e3, 3.0, 5),
    Range(20e6, 10e3, 3.0, 5),
    Range(200e6, 100e3, 3.0, 5),
    Range(1000e6, 1e6, 5.0, 5),
)


def _write(value: float, chosen: Range) -> str:
    return f"{value / 1e6:.{decimals(chosen.resolution / 1e6)}f} MΩ"


@dataclass
class InsulationTester:
    """One tester. `draw_error` says where it stands within its accuracy on a range."""

    draw_error: Callable[[int], Error] = field(default=lambda _range: Error())
    category: str = CATEGORY

    def read(self, circuit: Circuit, a: str, b: str) -> Display:
        """Insulation resistance shown between two terminals.

        Parameters
        ----------
        circuit : Circuit
            The circuit at this moment [-]
        a, b : str
            Two terminals [-]
        """
        volts = circuit.ac_voltage(a, b, INPUT_OHM) + abs(circuit.dc_voltage(a, b, INPUT_OHM))
        if volts > REFUSES_ABOVE_V:
            return no_reading("voltage on the circuit, no test")
        resistance = circuit.resistance(a, b)
        chosen = pick_range(RANGES, resistance)
        if chosen is None:
            return Display("> 1000 MΩ", math.inf, 0.0, RANGES[-1].resolution)
        return show(resistance, chosen, self.draw_error(RANGES.index(chosen)), _write)


def limit_of_insulation(resistance: float) -> tuple[float, float]:
    """Accuracy limit and resolution of this tester for a resistance.

    Parameters
    ----------
    resistance : float
        Resistance shown [Ω]

    Returns
    -------
    tuple of float
        Limit and resolution; both inf over range [Ω]
    """
    return limit_and_resolution(RANGES, resistance)
