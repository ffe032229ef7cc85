"""What the maker says of a compressor's windings, and the band it allows at another temperature."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.electrical.measured import Measured
from coldwright.electrical.windings import REFERENCE_K, Conductor, resistance_at
from coldwright.errors import InputError
from coldwright.quantities.checks import check_not_negative, check_positive


@dataclass(frozen=True)
class WindingData:
    """What the maker says of the windings at 20 °C.

    `run` and `start` in ohms; for an inverter compressor `run` is the reading of each pair and `start` is None.
    `tolerance` is a fraction of the value.
    """

    run: float
    start: float | None
    tolerance: float
    conductor: Conductor = Conductor.COPPER

    def __post_init__(self) -> None:
        for name, value in (("run", self.run), ("start", self.start)):
            if value is not None:
                check_positive(f"the maker's {name} winding", value, "Ω")
        check_not_negative("the maker's tolerance", self.tolerance, "")
        if not 0 < self.tolerance < 0.5:
            raise InputError(
                f"the maker's tolerance is {self.tolerance:g}; give a fraction between 0 and 0.5, such as 0.07 for 7 %"
            )

    @property
    def is_inverter(self) -> bool:
        """Whether the maker gives one value for three equal windings."""
        return self.start is None

    def band(self, value: float, winding_k: float) -> tuple[float, float]:
        """Lowest and highest resistance the maker allows at a winding's temperature [Ω].

        Parameters
        ----------
        value : float
            The maker's value at 20 °C [Ω]
        winding_k : float
            Temperature of the winding [K]
        """
        here = resistance_at(value, REFERENCE_K, winding_k, self.conductor)
        return here * (1 - self.tolerance), here * (1 + self.tolerance)

    def may_be(self, value: float, reading: Measured, winding_k: float) -> bool:
        """Whether a reading, its limit allowed for, can be a winding of this value.

        Parameters
        ----------
        value : float
            The maker's value at 20 °C [Ω]
        reading : Measured
            What was read [Ω]
        winding_k : float
            Temperature of the winding [K]
        """
        low, high = self.band(value, winding_k)
        return low - reading.limit <= reading.value <= high + reading.limit
