"""The data sheet of a unit's overload, and what can be worked out from it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.appliance.cooler import Cooler
from coldwright.appliance.unit import plate_of
from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K

SHEET_C = 25.0  # room, shell and overload of the sheet's figures
POINT_ABOVE = 1.35  # the sheet's point lies above the locked-rotor amps: short enough that little heat is lost


def amps_for_rise(amps: float, rise_k: float, wanted_k: float) -> float:
    """Current that gives a wanted rise in the same time, where another current gives a known one [A].

    Heat goes with the square of the current, and the rise with the heat.

    Parameters
    ----------
    amps : float
        Current that gives the known rise; watts of load will do as well, if the volts stay [A]
    rise_k : float
        Rise that it gives, above zero [K]
    wanted_k : float
        Rise that is wanted, zero or more [K]

    Raises
    ------
    InputError
        If a rise is out of its bounds.
    """
    if not (rise_k > 0 and wanted_k >= 0):
        raise InputError(
            f"the known rise is {rise_k:g} K and the one wanted {wanted_k:g} K; the first must be above 0 K, the other "
            "zero or more. Was a temperature given for a rise?"
        )
    return amps * math.sqrt(wanted_k / rise_k)


@dataclass(frozen=True)
class TripSheet:
    """Figures of an overload's data sheet: one point of its trip curve, the lowest amps that open it, its temperatures.

    `ultimate_a` holds where all round is at 25 °C; `shell_share` is how far what is round it follows the shell.
    """

    amps: float
    seconds: float
    ultimate_a: float
    trip_k: float
    reset_k: float
    shell_share: float

    def lines(self) -> list[str]:
        """The sheet in lines."""
        share = round(100 * self.shell_share)
        return [
            f"Data sheet of its overload: opens at {self.trip_k - ICE_POINT_K:.0f} °C, closes at "
            f"{self.reset_k - ICE_POINT_K:.0f} °C. From {SHEET_C:.0f} °C it opens in {self.seconds:.1f} s at "
            f"{self.amps:.0f} A. Lowest amps that ever open it, all at {SHEET_C:.0f} °C: {self.ultimate_a:.2f} A. "
            f"What is round it counts as {share} % shell and {100 - share} % room."
        ]

    def around(self, shell_k: float, room_k: float) -> float:
        """Temperature that the overload cools towards [K].

        Parameters
        ----------
        shell_k, room_k : float
            Temperatures of the compressor's shell and of the room [K]
        """
        return self.shell_share * shell_k + (1 - self.shell_share) * room_k

    def ultimate(self, around_k: float) -> float:
        """Lowest amps that ever open the overload where what is round it has a temperature [A].

        The rise that is left to the trip temperature goes with the heat, and the heat with the square of the amps.

        Parameters
        ----------
        around_k : float
            Temperature of what is round it [K]
        """
        return amps_for_rise(self.ultimate_a, self.trip_k - ICE_POINT_K - SHEET_C, max(0.0, self.trip_k - around_k))

    def trip_estimate(self, amps: float) -> float:
        """Time to open from cold by the rule that amps squared times seconds stay the same [s].

        Parameters
        ----------
        amps : float
            Current, above zero [A]

        Raises
        ------
        InputError
            If the current is not above zero.

        Notes
        -----
        No heat is taken to be lost, so a real overload takes longer; the more so the longer it takes.
        """
        if not amps > 0:
            raise InputError(f"the current is {amps:g} A; a trip time needs more than 0 A. Was the overload open?")
        return self.seconds * (self.amps / amps) ** 2


def trip_sheet(cooler: Cooler) -> TripSheet:
    """The data sheet of a model's overload, rounded as it is printed.

    Parameters
    ----------
    cooler : Cooler
        The model [-]
    """
    overload = cooler.parts.overload
    assert overload is not None
    at_k = ICE_POINT_K + SHEET_C
    amps = float(round(POINT_ABOVE * plate_of(cooler).locked_a))
    return TripSheet(
        amps=amps,
        seconds=round(overload.trip_time(amps, at_k, at_k, at_k), 1),
        ultimate_a=round(overload.ultimate_trip_current(at_k, at_k), 2),
        trip_k=overload.trip_k,
        reset_k=overload.reset_k,
        shell_share=overload.shell_share,
    )
