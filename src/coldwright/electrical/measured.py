"""A value with the limits a measurement puts round it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.errors import InputError
from coldwright.quantities.checks import is_number


@dataclass(frozen=True)
class Measured:
    """A measured value and the most it can be off by, in the same unit.

    `value` is `math.inf` where the instrument showed over-range: no path that it can see.
    """

    value: float
    limit: float = 0.0

    def __post_init__(self) -> None:
        if not is_number(self.value) or not is_number(self.limit):
            raise InputError(f"a measured value is {self.value!r} ± {self.limit!r}; both must be numbers")
        if math.isnan(self.value) or self.value < 0:
            raise InputError(f"a measured value is {self.value}; it must be zero or more. Were the leads swapped?")
        if not self.limit >= 0:
            raise InputError(f"the limit of a measured value is {self.limit}; it must be zero or more")

    @property
    def is_open(self) -> bool:
        """Whether the instrument saw no path."""
        return math.isinf(self.value)

    def scaled(self, factor: float) -> Measured:
        """The same reading times a factor known without error.

        Parameters
        ----------
        factor : float
            Positive number [-]
        """
        return Measured(self.value * factor, self.limit * factor if not self.is_open else 0.0)
