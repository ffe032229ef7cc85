"""Which pin is which: three unmarked pins of a compressor, told apart by the resistance of each pair.

A single-phase compressor has a run and a start winding joined at the common pin. Run to start then reads both
windings in series, so the pair with the highest reading leaves the common pin out, and the start winding, of thinner
wire, reads more than the run winding. An inverter-driven compressor has three equal windings and no such pins.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from itertools import combinations

from coldwright.electrical.measured import Measured
from coldwright.errors import InputError


@dataclass(frozen=True)
class PinReadings:
    """Resistance of each pair of three pins, all taken at one temperature with the connector off."""

    pairs: Mapping[frozenset[str], Measured]

    def __post_init__(self) -> None:
        if len(self.pins) != 3 or any(len(pair) != 2 for pair in self.pairs) or len(self.pairs) != 3:
            raise InputError(
                "three readings are needed, one for each pair of three pins; "
                f"got {len(self.pairs)} reading(s) over {len(self.pins)} pin(s)"
            )

    @classmethod
    def of(cls, ab: Measured, bc: Measured, ac: Measured, pins: tuple[str, str, str] = ("1", "2", "3")) -> PinReadings:
        """Readings from three pins in order: first to second, second to third, first to third.

        Parameters
        ----------
        ab, bc, ac : Measured
            Reading of each pair [Ω]
        pins : tuple of str
            Names of the three pins [-]
        """
        a, b, c = pins
        return cls({frozenset((a, b)): ab, frozenset((b, c)): bc, frozenset((a, c)): ac})

    @property
    def pins(self) -> tuple[str, ...]:
        """Names of the pins, sorted."""
        return tuple(sorted({pin for pair in self.pairs for pin in pair}))

    def between(self, a: str, b: str) -> Measured:
        """Reading between two pins.

        Parameters
        ----------
        a, b : str
            Names of two different pins [-]
        """
        try:
            return self.pairs[frozenset((a, b))]
        except KeyError:
            raise InputError(f"there is no reading between pin {a} and pin {b}; the pins are {self.pins}") from None

    def opposite(self, pair: frozenset[str]) -> str:
        """The pin that a pair leaves out.

        Parameters
        ----------
        pair : frozenset of str
            Two of the three pins [-]
        """
        (pin,) = set(self.pins) - pair
        return pin

    @property
    def closed(self) -> list[tuple[frozenset[str], Measured]]:
        """The pairs that read a resistance, lowest first; equal readings in the order of the pins' names."""
        found = [(pair, r) for pair, r in self.pairs.items() if not r.is_open]
        return sorted(found, key=lambda item: (item[1].value, sorted(item[0])))


class Pattern(Enum):
    """What three readings look like before anything is known of the compressor."""

    TWO_IN_SERIES = "two unequal windings joined at one pin"
    THREE_EQUAL = "three equal windings"
    ONE_PAIR = "only one pair reads"
    NO_PAIR = "no pair reads"
    IMPOSSIBLE = "two pairs read and the third does not"


@dataclass(frozen=True)
class Pins:
    """Pins as far as the readings tell them; None where they do not. `left_out` is the pin that reads to neither."""

    pattern: Pattern
    common: str | None = None
    run: str | None = None
    start: str | None = None
    left_out: str | None = None


def identify_pins(readings: PinReadings) -> Pins:
    """Common, run and start pin, as far as three readings tell them.

    Parameters
    ----------
    readings : PinReadings
        Resistance of each pair, with the meter's limits [Ω]

    Returns
    -------
    Pins
        `common` is the pin that the highest pair leaves out; `run` and `start` stay None where their two readings lie
        within the meter's limits of each other. With one pair reading, only `left_out` is known.

    Notes
    -----
    A run and a start winding of nearly equal resistance cannot be told apart by ohms; the maker's diagram can.
    """
    closed = readings.closed
    if not closed:
        return Pins(Pattern.NO_PAIR)
    if len(closed) == 1:
        return Pins(Pattern.ONE_PAIR, left_out=readings.opposite(closed[0][0]))
    if len(closed) == 2:
        return Pins(Pattern.IMPOSSIBLE)
    if all_equal(readings):
        return Pins(Pattern.THREE_EQUAL)
    (low_pair, low), (middle_pair, middle), (high_pair, high) = closed
    if high.value - middle.value <= high.limit + middle.limit:
        return Pins(Pattern.TWO_IN_SERIES)
    common = readings.opposite(high_pair)
    if middle.value - low.value <= middle.limit + low.limit:
        return Pins(Pattern.TWO_IN_SERIES, common=common)
    return Pins(
        Pattern.TWO_IN_SERIES,
        common=common,
        run=next(iter(low_pair - {common})),
        start=next(iter(middle_pair - {common})),
    )


def all_equal(readings: PinReadings) -> bool:
    """Whether the three readings are the same within the meter's limits.

    Parameters
    ----------
    readings : PinReadings
        Resistance of each pair, with the meter's limits [Ω]
    """
    values = [r for r in readings.pairs.values() if not r.is_open]
    return len(values) == 3 and all(abs(x.value - y.value) <= x.limit + y.limit for x, y in combinations(values, 2))


@dataclass(frozen=True)
class SumRule:
    """The two lower readings added, against the highest.

    `difference` and `allowance` are in ohms; `holds` is None where the rule does not apply or cannot be tried.
    """

    difference: float
    allowance: float
    holds: bool | None
    reason: str


def sum_rule(readings: PinReadings, lead: Measured | None = None) -> SumRule:
    """Whether run and start winding add up to the reading across both.

    Parameters
    ----------
    readings : PinReadings
        Resistance of each pair, with the meter's limits [Ω]
    lead : Measured, optional
        Resistance of the meter's leads where it is still in every reading; taken off each [Ω]

    Returns
    -------
    SumRule
        `allowance` is the sum of the limits of the three readings and of the lead that is left over.

    Notes
    -----
    Leads that are not taken off stand twice on one side and once on the other: the rule then fails by one lead
    resistance. Shorted turns do not break the rule: the winding still reads the same from both sides.
    """
    nothing = Measured(0.0)
    lead = lead or nothing
    closed = readings.closed
    if len(closed) < 3:
        return SumRule(math.nan, math.nan, None, "a pair does not read, so there is nothing to add up")
    if all_equal(readings):
        return SumRule(
            math.nan, math.nan, None, "three equal windings: the rule is for a run and a start winding, not for these"
        )
    low, middle, high = (r for _, r in closed)
    difference = (low.value + middle.value - high.value) - lead.value
    allowance = low.limit + middle.limit + high.limit + lead.limit
    holds = abs(difference) <= allowance
    words = "within" if holds else "outside"
    return SumRule(
        difference,
        allowance,
        holds,
        f"the two lower readings together are {difference:+.3f} Ω off the highest, {words} the ±{allowance:.3f} Ω that "
        "the meter allows",
    )
