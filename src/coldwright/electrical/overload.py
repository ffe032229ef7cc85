"""Overload: a bimetal that the current and the compressor's shell heat; it opens when hot and closes when cooled.

One node: heat I²R goes in, and it cools towards a place between the room and the shell. A weak overload, or one of the
wrong rating, is the same model with other numbers.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from coldwright.electrical.heating import after, time_to, where_zero
from coldwright.errors import InputError
from coldwright.quantities.checks import check_between, check_flag, check_kelvin, check_not_negative, check_positive

TYPICAL_W_PER_K = 0.04  # illustrative: sets the scale of heater and heat capacity together


class OverloadCondition(Enum):
    """What state an overload is in."""

    OK = "ok"
    OPEN = "open"


@dataclass(frozen=True)
class Overload:
    """A bimetal and its heater.

    `shell_share` is how far its surroundings follow the shell: 0 for the room alone, 1 for the shell alone. `internal`:
    it sits in the windings, inside the shell, and cannot be tested apart from them.
    """

    heater_ohm: float
    trip_k: float
    reset_k: float
    heat_capacity_j_per_k: float
    conductance_w_per_k: float
    shell_share: float = 0.4
    condition: OverloadCondition = OverloadCondition.OK
    internal: bool = False

    def __post_init__(self) -> None:
        """Refuses an overload that cannot be, by name, value and rule."""
        check_positive("heater_ohm of the overload", self.heater_ohm, "Ω")
        check_positive("heat_capacity_j_per_k of the overload", self.heat_capacity_j_per_k, "J/K")
        check_positive("conductance_w_per_k of the overload", self.conductance_w_per_k, "W/K")
        check_kelvin("the trip temperature of the overload", self.trip_k)
        check_kelvin("the reset temperature of the overload", self.reset_k)
        if not self.reset_k < self.trip_k:
            raise InputError(
                f"the reset temperature of the overload is {self.reset_k:g} K and its trip temperature "
                f"{self.trip_k:g} K; it must reset below where it trips. Were they swapped?"
            )
        check_between("shell_share of the overload", self.shell_share, 0.0, 1.0, "", "Was it a percentage?")
        check_flag("internal of the overload", self.internal)

    @property
    def is_open(self) -> bool:
        """Whether it is open for good."""
        return self.condition is OverloadCondition.OPEN

    @property
    def time_constant_s(self) -> float:
        """Time constant of its heating and cooling [s]."""
        return self.heat_capacity_j_per_k / self.conductance_w_per_k

    def settles_at(self, current_a: float, shell_k: float, ambient_k: float) -> float:
        """Temperature that a lasting current would bring it to.

        Parameters
        ----------
        current_a : float
            RMS current [A]
        shell_k, ambient_k : float
            Temperatures of the compressor's shell and of the room [K]

        Returns
        -------
        float
            Temperature [K]
        """
        check_not_negative("the current in the overload", current_a, "A")
        around = self.shell_share * shell_k + (1.0 - self.shell_share) * ambient_k
        return around + current_a**2 * self.heater_ohm / self.conductance_w_per_k

    def heated(self, temperature_k: float, current_a: float, shell_k: float, ambient_k: float, seconds: float) -> float:
        """Temperature after a time with a constant current; exact.

        Parameters
        ----------
        temperature_k : float
            Temperature at the beginning [K]
        current_a : float
            RMS current [A]
        shell_k, ambient_k : float
            Temperatures of the compressor's shell and of the room [K]
        seconds : float
            How long [s]

        Returns
        -------
        float
            Temperature [K]
        """
        return after(temperature_k, self.settles_at(current_a, shell_k, ambient_k), seconds, self.time_constant_s)

    def next_open(self, is_open: bool, temperature_k: float) -> bool:
        """Whether it is open at a temperature: it snaps, so between reset and trip it stays as it was.

        Parameters
        ----------
        is_open : bool
            Whether it was open before [-]
        temperature_k : float
            Temperature of the bimetal [K]
        """
        if self.is_open:
            return True
        return temperature_k > self.reset_k if is_open else temperature_k >= self.trip_k

    def trip_time(self, current_a: float, start_k: float, shell_k: float, ambient_k: float) -> float:
        """Time until it opens, inf if it never does; 0 where it is at its trip temperature, or open for good.

        Parameters
        ----------
        current_a : float
            RMS current [A]
        start_k : float
            Temperature of the bimetal at the beginning [K]
        shell_k, ambient_k : float
            Temperatures of the compressor's shell and of the room [K]

        Returns
        -------
        float
            Time [s]
        """
        settles = self.settles_at(current_a, shell_k, ambient_k)
        if self.is_open or start_k >= self.trip_k:
            return 0.0
        return time_to(start_k, self.trip_k, settles, self.time_constant_s)

    def reset_time(self, start_k: float, shell_k: float, ambient_k: float) -> float:
        """Time until it closes again, inf if it never does; 0 where it is cool enough.

        Parameters
        ----------
        start_k : float
            Temperature of the bimetal at the beginning [K]
        shell_k, ambient_k : float
            Temperatures of the compressor's shell and of the room [K]

        Returns
        -------
        float
            Time [s]
        """
        if self.is_open:
            return math.inf
        if start_k <= self.reset_k:
            return 0.0
        return time_to(start_k, self.reset_k, self.settles_at(0.0, shell_k, ambient_k), self.time_constant_s)

    def ultimate_trip_current(self, shell_k: float, ambient_k: float) -> float:
        """Highest current that it carries for ever, 0 if the surroundings alone trip it.

        Parameters
        ----------
        shell_k, ambient_k : float
            Temperatures of the compressor's shell and of the room [K]

        Returns
        -------
        float
            RMS current [A]
        """
        room = self.trip_k - self.settles_at(0.0, shell_k, ambient_k)
        return 0.0 if self.is_open else math.sqrt(max(0.0, room) * self.conductance_w_per_k / self.heater_ohm)

    def cycle(self, current_a: float, shell_k: float, ambient_k: float) -> tuple[float, float]:
        """Seconds closed and seconds open of the clicking, once it repeats.

        Parameters
        ----------
        current_a : float
            RMS current while closed [A]
        shell_k, ambient_k : float
            Temperatures of the compressor's shell, taken as steady and of the room [K]

        Returns
        -------
        tuple of float
            Time from reset to trip and from trip to reset; inf where one never ends [s]
        """
        closed = self.trip_time(current_a, self.reset_k, shell_k, ambient_k)
        return closed, self.reset_time(self.trip_k, shell_k, ambient_k)


def calibrated(
    points: Sequence[tuple[float, float]],
    trip_k: float,
    reset_k: float,
    ambient_k: float,
    ultimate_a: float | None = None,
    conductance_w_per_k: float = TYPICAL_W_PER_K,
    shell_share: float = 0.4,
) -> Overload:
    r"""Overload that trips as a trip curve says, from cold with the shell at room temperature.

    With the rise to trip :math:`\Delta` and :math:`a = R / G`, each point obeys

    .. math:: \Delta = a I^2 (1 - e^{-t/\tau})

    Two points, or one point and the ultimate trip current, give :math:`a` and :math:`\tau`.

    Parameters
    ----------
    points : sequence
        Points of the curve, pairs of amps and seconds to trip: two, or one where `ultimate_a` is given [-]
    trip_k : float
        Trip temperature [K]
    reset_k : float
        Reset temperature [K]
    ambient_k : float
        Temperature that the curve was taken at, overload and shell included [K]
    ultimate_a : float or None
        Highest current that it carries for ever [A]
    conductance_w_per_k : float
        Conductance to its surroundings; sets the scale of heater and heat capacity, the times do not depend on it [W/K]
    shell_share : float
        How far its surroundings follow the shell, 0 to 1 [-]

    Returns
    -------
    Overload
        The overload [-]

    Raises
    ------
    InputError
        If the points are not as many as needed, or no single time constant fits them.
    """
    for amps, seconds in points:
        check_positive("the current of a point of the trip curve", amps, "A")
        check_positive("the time of a point of the trip curve", seconds, "s")
    check_kelvin("the temperature that the trip curve was taken at", ambient_k)
    if not ambient_k < trip_k:
        raise InputError(
            f"the trip curve was taken at {ambient_k:g} K and the trip temperature is {trip_k:g} K; "
            "it must trip above where it starts"
        )
    wanted = 2 if ultimate_a is None else 1
    if len(points) != wanted:
        beside = "without" if ultimate_a is None else "with"
        raise InputError(f"{len(points)} points of the trip curve; {wanted} needed {beside} the ultimate current")
    time_constant = _from_two(points) if ultimate_a is None else _from_ultimate(points[0], ultimate_a)
    amps, seconds = points[0]
    heater = conductance_w_per_k * (trip_k - ambient_k) / (amps**2 * -math.expm1(-seconds / time_constant))
    capacity = conductance_w_per_k * time_constant
    return Overload(heater, trip_k, reset_k, capacity, conductance_w_per_k, shell_share)


def _from_ultimate(point: tuple[float, float], ultimate_a: float) -> float:
    """Time constant from one point and the current that never trips."""
    check_positive("the ultimate trip current", ultimate_a, "A")
    amps, seconds = point
    if not ultimate_a < amps:
        raise InputError(
            f"the ultimate trip current is {ultimate_a:g} A and the point's {amps:g} A; a point that trips "
            "must lie above it. Were they swapped?"
        )
    return seconds / -math.log1p(-((ultimate_a / amps) ** 2))


def _from_two(points: Sequence[tuple[float, float]]) -> float:
    """Time constant from two points, by halving in its inverse."""
    (slow_a, slow_s), (fast_a, fast_s) = sorted(points)
    if not (fast_a > slow_a and fast_s < slow_s and fast_a**2 * fast_s < slow_a**2 * slow_s):
        raise InputError(
            f"the trip curve has {fast_a:g} A in {fast_s:g} s and {slow_a:g} A in {slow_s:g} s; more current must trip "
            "sooner, and the longer trip must need more heat I²t, since some is lost. Is there a typing error?"
        )

    def further(rate: float) -> float:
        """How much further the slow point rises than the fast one, at an inverse time constant."""
        return fast_a**2 * math.expm1(-fast_s * rate) - slow_a**2 * math.expm1(-slow_s * rate)

    high = 1.0 / fast_s
    while further(high) > 0:
        high *= 2.0
    return 1.0 / where_zero(further, 0.0, high, within=1e-13)
