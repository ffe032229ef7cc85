"""What two minutes of listening tell: how long the compressor stays on, how long off, and what stops it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from coldwright.appliance.heard import Event
from coldwright.bench.unit_acts import LISTEN_S, UnitTaken

ROUNDED_S = 5.0  # the bench tells each sound to the nearest 5 s, so a span is told to within 2.5 s at each end
CLICK = "click from the compressor"
THERMOSTAT = "click: the thermostat"
SILENT = "silence"
NO_CLICK = {"runs": "runs and stays on", "hums": "hums and stays on", SILENT: "stays silent"}
CLICKS = {"runs": "runs and clicks off", "hums": "hums and clicks off"}


@dataclass(frozen=True)
class Span:
    """Seconds from one click of the overload to the next, and what was heard last in between."""

    seconds: float
    sound: str

    @property
    def is_on(self) -> bool:
        """Whether the compressor had power."""
        return self.sound != SILENT


@dataclass(frozen=True)
class Heard:
    """Spans from click to click, and every sound heard outside them."""

    spans: tuple[Span, ...]
    sounds: frozenset[str]
    clicked: bool

    @property
    def on(self) -> tuple[float, ...]:
        """Different lengths of the spans with power [s]."""
        return tuple(sorted({span.seconds for span in self.spans if span.is_on}))

    @property
    def off(self) -> tuple[float, ...]:
        """Different lengths of the spans without power [s]."""
        return tuple(sorted({span.seconds for span in self.spans if not span.is_on}))

    @property
    def words(self) -> frozenset[str]:
        """What it does, in the words of the lab."""
        if not self.clicked:
            return frozenset(NO_CLICK[sound] for sound in self.sounds)
        ended = {span.sound for span in self.spans if span.is_on} or (self.sounds - {SILENT})
        return frozenset(CLICKS[sound] for sound in ended)


def middle(lengths: Sequence[float]) -> tuple[float, ...]:
    """The middle one of lengths in order; empty for none [s].

    Parameters
    ----------
    lengths : sequence of float
        Lengths, in order [s]
    """
    return tuple(lengths[len(lengths) // 2 : len(lengths) // 2 + 1])


def heard(sounds: Iterable[tuple[float, str]]) -> Heard:
    """Spans from click to click in one unbroken time of listening.

    Parameters
    ----------
    sounds : iterable of tuple
        Seconds and words, in order [-]
    """
    spans: list[Span] = []
    told: set[str] = set()
    since: float | None = None
    last, clicked = "", False
    for at_s, words in sounds:
        if words.startswith(THERMOSTAT):
            since = None
        elif words == CLICK:
            clicked = True
            if since is not None and last:
                spans.append(Span(at_s - since, last))
            since, last = at_s, ""
        elif words in NO_CLICK:
            last = words
            told.add(words)
    return Heard(tuple(spans), frozenset(told), clicked)


def heard_events(events: Sequence[Event]) -> Heard:
    """What events of an operation tell, to the moment.

    Parameters
    ----------
    events : sequence of Event
        Events in order [-]
    """
    return heard((event.at_s, event.words) for event in events)


def heard_readings(taken: Sequence[UnitTaken]) -> Heard:
    """What readings of listening tell; those that follow each other without a gap count as one time.

    Parameters
    ----------
    taken : sequence of UnitTaken
        Readings of listening, in order [-]
    """
    runs: list[list[tuple[float, str]]] = []
    ends = -math.inf
    for reading in taken:
        began = reading.state.at_s
        if abs(began - ends) > 1.0:
            runs.append([])
        runs[-1] += [(began + seconds, words) for seconds, words in _told(reading.display.text)]
        ends = began + LISTEN_S
    found = [heard(run) for run in runs]
    return Heard(
        tuple(span for each in found for span in each.spans),
        frozenset().union(*(each.sounds for each in found)),
        any(each.clicked for each in found),
    )


def _told(text: str) -> list[tuple[float, str]]:
    """Seconds and words of "hums at 0 s; click from the compressor at 10 s"."""
    parts = (part.rpartition(" at ") for part in text.split("; ") if " at " in part)
    return [(float(when.removesuffix(" s")), words) for words, _, when in parts]
