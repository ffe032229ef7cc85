"""A real compressor: three readings typed in, and the verdict with its reasons, its limits and the next test."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.answers.forms import is_blank
from coldwright.electrical.measured import Measured
from coldwright.electrical.pins import Pattern, PinReadings, Pins, SumRule, sum_rule
from coldwright.electrical.verdict import Finding, judge_windings
from coldwright.electrical.winding_data import WindingData
from coldwright.electrical.windings import Conductor, resistance_at
from coldwright.panels.typed import (
    MEGOHMS,
    Accuracy,
    read_accuracy,
    read_kelvin,
    read_maker,
    read_measured,
    without_leads,
)
from coldwright.panels.typed_checks import takes_text
from coldwright.panels.words import say_study
from coldwright.quantities import Kind, show

AS_SHOWN = Accuracy(0.0, 0)  # the verdict on insulation takes the tester's number as it stands
NOT_SEEN = (
    "Ohms do not see a seized rotor, worn valves, a bad start device, or a few shorted turns that stay inside the "
    "maker's tolerance."
)
FIRST = "Power off and locked off, proved dead, capacitor discharged, connector off all three pins?"


@dataclass(frozen=True)
class RealUnit:
    """What the readings of one real compressor say. Temperatures in kelvin, resistances in ohms."""

    readings: PinReadings
    winding_k: float
    data: WindingData | None
    insulation: Measured | None

    @property
    def finding(self) -> Finding:
        """The verdict with its reasons."""
        return judge_windings(self.readings, self.winding_k, self.data, self.insulation)

    @property
    def lines(self) -> list[str]:
        """All of it in words."""
        finding, rule = self.finding, sum_rule(self.readings)
        metal = self.data.conductor if self.data is not None else Conductor.COPPER
        found = [FIRST, "", "Readings, with what the meter allows, and corrected to 20 °C:"]
        found += [_pair_line(pair, r, self.winding_k, metal) for pair, r in sorted(_named(self.readings))]
        share = 100 / (self.winding_k - metal.zero_resistance_k)
        found.append(f"  One degree Celsius more or less in the windings is {share:.1f} % of these.")
        found += ["", f"Pins: {_pins_words(self.readings, finding.pins)}."]
        found += [f"Sum rule: {_rule_words(self.readings, rule)}."]
        found += ["", f"Verdict on the windings: {finding.verdict.value.upper()}. Reasons:"]
        found += [f"  - {reason}" for reason in finding.reasons]
        if finding.next_test is not None:
            found.append(f"Next test: {finding.next_test}.")
        return [*found, NOT_SEEN]


def real_unit(**typed: object) -> None:
    """Print the verdict on a real compressor, or in one line what is still missing.

    Parameters
    ----------
    **typed : str
        What `study_real_unit` takes [-]
    """
    say_study(study_real_unit, typed)


@takes_text
def study_real_unit(
    r12: str = "",
    r23: str = "",
    r13: str = "",
    temperature: str = "",
    meter: str = "",
    leads: str = "",
    insulation: str = "",
    maker_run: str = "",
    maker_start: str = "",
    maker_pair: str = "",
    maker_tolerance: str = "",
    conductor: str = "copper",
) -> RealUnit:
    """What three readings of a real compressor say.

    Parameters
    ----------
    r12, r23, r13 : str
        What the meter showed on each pair of pins, such as "4.21 ohm" or "OL" [-]
    temperature : str
        Of the windings: the shell after hours of standing, such as "23 °C" or "73 °F" [-]
    meter : str
        Accuracy on ohms from the meter's manual, such as "0.5 % + 3 digits" [-]
    leads : str
        What the meter shows with its tips together; blank if it is taken off by the meter itself [-]
    insulation : str
        Lowest of the three pins to the shell, such as "250 Mohm"; blank if not tested [-]
    maker_run, maker_start : str
        The maker's values at 20 °C; blank if not known [-]
    maker_pair : str
        The maker's value of each pair of an inverter compressor; blank for others [-]
    maker_tolerance : str
        Such as "7 %"; needed with a maker's value [-]
    conductor : str
        "copper" or "aluminium" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    accuracy = read_accuracy(meter)
    pairs = {"r12": r12, "r23": r23, "r13": r13}
    found = {name: read_measured(name, text, accuracy) for name, text in pairs.items()}
    if not is_blank(leads):
        off = read_measured("leads", leads, accuracy)
        found = {name: without_leads(name, reading, off) for name, reading in found.items()}
    winding_k = read_kelvin("temperature", temperature)
    lowest = None if is_blank(insulation) else read_measured("insulation", insulation, AS_SHOWN, MEGOHMS)
    return RealUnit(
        PinReadings.of(found["r12"], found["r23"], found["r13"]),
        winding_k,
        read_maker(maker_run, maker_start, maker_pair, maker_tolerance, conductor),
        lowest,
    )


def _ohms(value: float, digits: int = 4) -> str:
    return show(value, Kind.RESISTANCE, "Ω", digits)


def _named(readings: PinReadings) -> list[tuple[str, Measured]]:
    return [(" and ".join(sorted(pair)), reading) for pair, reading in readings.pairs.items()]


def _pair_line(pair: str, reading: Measured, winding_k: float, metal: Conductor) -> str:
    if reading.is_open:
        return f"  pins {pair}: OL, no path that the meter sees"
    words = f"  pins {pair}: {_ohms(reading.value)} ± {_ohms(reading.limit, 2)}"
    if not reading.value > 0:
        return words
    return f"{words}; at 20 °C {_ohms(resistance_at(reading.value, winding_k, conductor=metal))}"


def _pins_words(readings: PinReadings, pins: Pins) -> str:
    if pins.pattern is Pattern.THREE_EQUAL:
        return "three equal windings, so there is no common, run or start pin"
    known = [f"{role} is pin {pin}" for role in ("common", "run", "start") if (pin := getattr(pins, role))]
    if pins.common and len(known) == 3:
        pair = " and ".join(sorted(readings.closed[-1][0]))
        return f"{', '.join(known)}; the highest pair, {pair}, leaves out common"
    left = f"; pin {pins.left_out} reads to neither of the others" if pins.left_out else ""
    return f"{', '.join(known) or 'not told by these readings'}{left}"


def _rule_words(readings: PinReadings, rule: SumRule) -> str:
    if rule.holds is None:
        return f"cannot be tried: {rule.reason}"
    low, middle, high = (_ohms(reading.value) for _, reading in readings.closed)
    words = "holds" if rule.holds else "does not hold"
    off, allowed = f"{abs(rule.difference):.3f} Ω", f"{rule.allowance:.3f} Ω"
    return f"{words}: {low} + {middle} against {high}, {off} apart, where the meter allows {allowed} in all"
