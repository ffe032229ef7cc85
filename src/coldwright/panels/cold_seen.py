"""What has been read on the cold side so far, for the picture and for its text: never more than the job sheet holds."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.bench.cold_acts import HIGH, LOW, PROBES
from coldwright.bench.cold_bench import ColdBench
from coldwright.bench.sheet import SheetLine
from coldwright.bench.unit_acts import UnitTaken
from coldwright.panels.words import clock

JOINS = ("join gauges", "take off gauges")
NOT_READ = "not read yet"


@dataclass(frozen=True)
class Seen:
    """One reading as it was last taken: where, what showed, its value in SI, and when."""

    place: str
    text: str
    value: float
    at: int

    @property
    def words(self) -> str:
        """The reading with its time."""
        return f"{self.text} at {clock(self.at)}"


@dataclass(frozen=True)
class ColdSeen:
    """How the cold side stands for a person who looks: gauges on or off, the clip probe, the last readings by place."""

    joined: bool
    probe: str
    gauges: dict[str, Seen]
    probed: dict[str, Seen]

    def gauge_words(self, side: str) -> str:
        """What one gauge shows, in words.

        Parameters
        ----------
        side : str
            Low side or high side [-]
        """
        read = self.gauges.get(side)
        if read is not None:
            return read.words if self.joined else f"{read.words}, its hose open to the air"
        return f"joined, {NOT_READ}" if self.joined else "not joined"

    def lines(self) -> list[str]:
        """All of it, in lines: the text beside the picture."""
        said = [f"Gauge of the {side}: {self.gauge_words(side)}." for side in (LOW, HIGH)]
        said.append(f"The clip probe is on: {self.probe}.")
        if self.probed:
            read = "; ".join(f"{place} {seen.words}" for place, seen in self.probed.items())
            said.append(f"Last readings of the probe: {read}.")
        return said


def cold_seen(bench: ColdBench, probe: str) -> ColdSeen:
    """How the cold side of a bench stands, from its job sheet.

    A gauge's reading counts until the gauges are joined or taken off; one of the probe until the place is read again.

    Parameters
    ----------
    bench : ColdBench
        The bench [-]
    probe : str
        Where the clip probe is [-]
    """
    since = max((line.n for line in bench.lines if line.act in JOINS), default=0)
    gauges = {taken.on[0]: _seen(taken) for taken in bench.taken if _is_fresh_gauge(taken.line, since)}
    latest = {taken.on[0]: _seen(taken) for taken in bench.taken if taken.act == "probe"}
    return ColdSeen(bench.joined, probe, gauges, {place: latest[place] for place in PROBES if place in latest})


def _is_fresh_gauge(line: SheetLine, since: int) -> bool:
    return line.act == "gauge" and line.n > since


def _seen(taken: UnitTaken) -> Seen:
    return Seen(taken.on[0], taken.display.text, taken.display.value, taken.line.at)
