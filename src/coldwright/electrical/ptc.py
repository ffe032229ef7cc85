"""PTC start device: a disc of low resistance that heats itself and switches to a high one, until it has cooled.

Its logarithm of resistance rises in an S from the cold value to the most it reaches. The switch temperature is where
the resistance has doubled, as makers define it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

from coldwright.electrical.heating import after, time_to, where_zero
from coldwright.errors import InputError
from coldwright.quantities.checks import check_kelvin, check_not_negative, check_positive

DOUBLED = 2.0  # times the cold resistance, at the switch temperature
CRACKED_FACTOR = 4.0  # on the resistance of a cracked disc: illustrative; a real one is not steady
SUB_STEP_S, MOST_SUB_STEPS = 0.02, 25
PANELS = 400  # of the integral over temperature


class PtcCondition(Enum):
    """What state a PTC is in."""

    OK = "ok"
    OPEN = "open"
    CRACKED = "cracked"


@dataclass(frozen=True)
class Ptc:
    """A PTC: cold and highest resistance, switch temperature, steepness of the S, heat capacity and conductance.

    In the middle of the S the resistance grows by `steepness_per_k` · ln(most / cold) / 4 of itself per kelvin.
    """

    cold_ohm: float
    switch_k: float
    steepness_per_k: float
    most_ohm: float
    heat_capacity_j_per_k: float
    conductance_w_per_k: float
    condition: PtcCondition = PtcCondition.OK

    def __post_init__(self) -> None:
        """Refuses a PTC that cannot be, by name, value and rule."""
        for name, unit in (("cold_ohm", "Ω"), ("most_ohm", "Ω"), ("steepness_per_k", "1/K")):
            check_positive(f"{name} of the PTC", getattr(self, name), unit)
        check_positive("heat_capacity_j_per_k of the PTC", self.heat_capacity_j_per_k, "J/K")
        check_positive("conductance_w_per_k of the PTC", self.conductance_w_per_k, "W/K")
        check_kelvin("the switch temperature of the PTC", self.switch_k)
        if not self.most_ohm > DOUBLED * self.cold_ohm:
            raise InputError(
                f"most_ohm of the PTC is {self.most_ohm:g} Ω and cold_ohm {self.cold_ohm:g} Ω; a PTC that switches "
                "more than doubles its resistance. Was it kΩ?"
            )

    @property
    def time_constant_s(self) -> float:
        """Time constant of its cooling [s]."""
        return self.heat_capacity_j_per_k / self.conductance_w_per_k

    @cached_property
    def _rise(self) -> float:
        """Height of the S: logarithm of the highest over the cold resistance."""
        return math.log(self.most_ohm / self.cold_ohm)

    @cached_property
    def _middle_k(self) -> float:
        """Middle of the S, set so that the resistance has doubled at the switch temperature."""
        return self.switch_k + math.log(self._rise / math.log(DOUBLED) - 1.0) / self.steepness_per_k

    @property
    def _factor(self) -> float:
        return CRACKED_FACTOR if self.condition is PtcCondition.CRACKED else 1.0

    def resistance(self, temperature_k: float) -> float:
        r"""Resistance at a temperature of the disc, inf where it is open.

        .. math:: \ln \frac{R}{R_c} = \frac{\ln (R_m / R_c)}{1 + e^{-s (T - T_m)}}

        Parameters
        ----------
        temperature_k : float
            Temperature of the disc [K]

        Returns
        -------
        float
            Resistance [Ω]
        """
        if self.condition is PtcCondition.OPEN:
            return math.inf
        turned = math.tanh(0.5 * self.steepness_per_k * (temperature_k - self._middle_k))  # no overflow far from it
        return self._factor * self.cold_ohm * math.exp(self._rise * 0.5 * (1.0 + turned))

    def temperature_at(self, ohm: float) -> float:
        """Temperature of the disc at which it has a resistance.

        Parameters
        ----------
        ohm : float
            Resistance, between the cold and the highest one [Ω]

        Returns
        -------
        float
            Temperature [K]

        Raises
        ------
        InputError
            If the disc is open or never has that resistance.
        """
        low, high = self._factor * self.cold_ohm, self._factor * self.most_ohm
        if self.condition is PtcCondition.OPEN or not low < ohm < high:
            what = "is open" if self.condition is PtcCondition.OPEN else f"goes from {low:g} Ω to {high:g} Ω"
            raise InputError(f"the resistance is {ohm:g} Ω; the PTC {what}")
        return self._middle_k - math.log(self._rise / math.log(ohm / low) - 1.0) / self.steepness_per_k

    def heated(self, temperature_k: float, watts: float, seconds: float, ambient_k: float) -> float:
        """Temperature after a time with constant watts; exact, for short steps or far from the switch temperature.

        Parameters
        ----------
        temperature_k : float
            Temperature at the beginning [K]
        watts : float
            Heat from its current; an open disc has none, whatever stands here [W]
        seconds : float
            How long [s]
        ambient_k : float
            Temperature of the air round it [K]

        Returns
        -------
        float
            Temperature [K]
        """
        heat = 0.0 if self.condition is PtcCondition.OPEN else watts
        check_not_negative("the heat in the PTC", heat, "W")
        return after(temperature_k, ambient_k + heat / self.conductance_w_per_k, seconds, self.time_constant_s)

    def heated_at(self, temperature_k: float, volts: float, seconds: float, ambient_k: float) -> float:
        """Temperature after a time at a constant voltage, for steps of any length.

        Parameters
        ----------
        temperature_k : float
            Temperature at the beginning [K]
        volts : float
            RMS voltage across the disc [V]
        seconds : float
            How long [s]
        ambient_k : float
            Temperature of the air round it [K]

        Returns
        -------
        float
            Temperature [K]

        Notes
        -----
        Implicit (backward Euler) in at most 25 sub-steps: it cannot swing, and a long step ends where the heat
        balances. The instant of switching is exact only to a sub-step.
        """
        check_not_negative("the voltage on the PTC", volts, "V")
        check_not_negative("the time that passes", seconds, "s")
        count = min(MOST_SUB_STEPS, max(1, math.ceil(seconds / SUB_STEP_S)))
        part = seconds / count / self.heat_capacity_j_per_k
        for _ in range(count):
            low = min(temperature_k, ambient_k)
            high = max(temperature_k, ambient_k) + part * volts**2 / self.resistance(low)

            def left(end_k: float, was: float = temperature_k) -> float:
                return was + part * self._net_w(end_k, volts, ambient_k) - end_k

            temperature_k = where_zero(left, low, high)
        return temperature_k

    def _net_w(self, temperature_k: float, volts: float, ambient_k: float) -> float:
        heat = volts**2 / self.resistance(temperature_k)
        return heat - self.conductance_w_per_k * (temperature_k - ambient_k)

    def cooling_time(self, from_k: float, to_k: float, ambient_k: float) -> float:
        """Time without current from one temperature to another, inf where it never gets there.

        Parameters
        ----------
        from_k, to_k, ambient_k : float
            Temperatures of the disc, and of the air round it [K]

        Returns
        -------
        float
            Time [s]
        """
        return time_to(from_k, to_k, ambient_k, self.time_constant_s)

    def switch_time(self, volts: float, start_k: float, ambient_k: float) -> float:
        r"""Time at a constant voltage until it reaches the switch temperature, inf where it never does.

        .. math:: t = \int_{T_0}^{T_s} \frac{C \, dT}{U^2 / R(T) - G (T - T_a)}

        Parameters
        ----------
        volts : float
            RMS voltage across the disc, without the start winding's share [V]
        start_k, ambient_k : float
            Temperatures of the disc at the beginning, and of the air round it [K]

        Returns
        -------
        float
            Time, 0 if it is above already [s]
        """
        check_not_negative("the voltage on the PTC", volts, "V")
        if start_k >= self.switch_k:
            return 0.0
        if self._net_w(self.switch_k, volts, ambient_k) <= 0:  # the balance falls with temperature
            return math.inf
        width = (self.switch_k - start_k) / (2 * PANELS)
        slow = [1.0 / self._net_w(start_k + i * width, volts, ambient_k) for i in range(2 * PANELS + 1)]
        simpson = slow[0] + slow[-1] + 4.0 * sum(slow[1:-1:2]) + 2.0 * sum(slow[2:-1:2])
        return self.heat_capacity_j_per_k * simpson * width / 3.0

    def holding_temperature(self, volts: float, ambient_k: float) -> float:
        """Temperature at which its heat balances at a constant voltage.

        Parameters
        ----------
        volts, ambient_k : float
            RMS voltage across the disc [V], temperature of the air round it [K]

        Returns
        -------
        float
            Temperature [K]
        """
        check_not_negative("the voltage on the PTC", volts, "V")
        highest = ambient_k + volts**2 / self.resistance(ambient_k) / self.conductance_w_per_k
        return where_zero(lambda k: self._net_w(k, volts, ambient_k), ambient_k, highest)

    def holding_watts(self, volts: float, ambient_k: float) -> float:
        """Watts that it takes to stay where its heat balances, for as long as the compressor runs.

        Parameters
        ----------
        volts, ambient_k : float
            RMS voltage across the disc [V], temperature of the air round it [K]

        Returns
        -------
        float
            Watts [W]
        """
        return self.conductance_w_per_k * (self.holding_temperature(volts, ambient_k) - ambient_k)

    def lets_restart(self, hot_k: float, off_s: float, ambient_k: float, highest_ohm: float | None = None) -> bool:
        """Whether it lets the motor start again after some time without power.

        Parameters
        ----------
        hot_k : float
            Temperature of the disc when the power went off [K]
        off_s : float
            Time without power [s]
        ambient_k : float
            Temperature of the air round it [K]
        highest_ohm : float or None
            Most resistance the motor starts with; twice the cold resistance of a healthy disc if None [Ω]
        """
        most = DOUBLED * self.cold_ohm if highest_ohm is None else highest_ohm
        check_positive("the highest resistance that the motor starts with", most, "Ω")
        return self.resistance(self.heated(hot_k, 0.0, off_s, ambient_k)) <= most

    def restart_wait(self, hot_k: float, ambient_k: float, highest_ohm: float | None = None) -> float:
        """Time without power after which `lets_restart` says yes, inf where it never does.

        Parameters
        ----------
        hot_k, ambient_k : float
            Temperatures of the disc when the power went off, and of the air round it [K]
        highest_ohm : float or None
            Most resistance the motor starts with; twice the cold resistance of a healthy disc if None [Ω]

        Returns
        -------
        float
            Time [s]
        """
        if self.lets_restart(hot_k, 0.0, ambient_k, highest_ohm):
            return 0.0
        wanted = DOUBLED * self.cold_ohm if highest_ohm is None else highest_ohm
        if wanted <= self.resistance(0.0):
            return math.inf
        return self.cooling_time(hot_k, self.temperature_at(wanted), ambient_k)
