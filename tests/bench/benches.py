"""Benches for tests, and lists of acts to do on them."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from hypothesis import strategies as st

from coldwright.appliance.compressor import PINS, TERMINALS, BenchCompressor
from coldwright.bench.acts import Told
from coldwright.bench.compressor_bench import PLACES, CompressorBench
from coldwright.bench.sheet import SheetHeader
from tests.appliance.units import SOUND

HEADER = SheetHeader(lab="a lab", learner="ada", ticket="0123456789abcdef", model="1")
SEED = b"a seed for the tests"
Act = tuple[str, tuple[str, ...]]

PLAIN = ("isolate", "plug in", "discharge", "disconnect", "reconnect", "break vacuum", "let stand", "new meter")
PAIRS = [(a, b) for a in TERMINALS for b in TERMINALS if a != b]
ACTS: st.SearchStrategy[Act] = st.one_of(
    st.sampled_from([(act, ()) for act in (*PLAIN, "zero leads")]),
    st.tuples(st.sampled_from(["ohms", "volts ac", "volts dc"]), st.sampled_from(PAIRS)),
    st.sampled_from([("insulation", (pin, "shell")) for pin in PINS]),
    st.sampled_from([("temperature", (place,)) for place in PLACES]),
)
JOBS = st.lists(ACTS, min_size=1, max_size=25)
SAFE_ORDER: list[Act] = [
    ("isolate", ()),
    ("volts ac", ("L", "N")),
    ("volts dc", ("cap a", "cap b")),
    ("discharge", ()),
    ("disconnect", ()),
    ("temperature", ("shell",)),
    ("zero leads", ()),
    ("ohms", ("1", "2")),
    ("ohms", ("2", "3")),
    ("ohms", ("1", "3")),
    ("let stand", ()),
    ("ohms", ("1", "2")),
    ("ohms", ("2", "3")),
    ("ohms", ("1", "3")),
    ("temperature", ("room",)),
    ("insulation", ("1", "shell")),
]


def bench(
    unit: BenchCompressor = SOUND, path: Path | None = None, seed: bytes = SEED, lead_ohm: float = 0.5
) -> CompressorBench:
    """A unit on the bench on which nothing has been done, or one whose sheet is gone on with."""
    return CompressorBench(unit, seed, lead_ohm, HEADER, path)


def work(on: CompressorBench, job: Iterable[Act]) -> list[Told]:
    """Every act of a job, in order."""
    return [on.perform(act, where) for act, where in job]


def worked(job: Iterable[Act], unit: BenchCompressor = SOUND) -> CompressorBench:
    """A bench after a job."""
    on = bench(unit)
    work(on, job)
    return on
