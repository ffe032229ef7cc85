"""How long one reading of a whole cooler's circuit takes, beside ngspice started for that reading, in one run.

    python docs/benchmarks/probe_against_ngspice.py

Both solve the same circuit, a cooler starting with 26 nodes, for the same pairs of terminals with a meter of 10 MΩ
across them. Ours builds nothing beforehand but the netlist; ngspice gets a file that is written before the clock runs.
Prints times and their ratio, how far the readings are apart, and whether the limits hold: a reading under 1 ms, and
the two within one part in a million. Exit 1 if one does not.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from itertools import combinations
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "tests" / "electrical"))

from circuits import STANDING, cooler
from ngspice import Deck, control, need_ngspice, read_raw

from coldwright.electrical.network import Branch, Network

HERTZ, METER_OHM = 50.0, 10e6
TERMINALS = ("plug L", "plug N", "live", "C", "R", "S", "shell", "relay run", "start device")
PAIRS = tuple(combinations(TERMINALS, 2))
REPEATS = 20
PROBE_LIMIT_S = 1e-3
RELATIVE = 1e-6


def ours(net: Network, repeats: int) -> tuple[list[float], list[float]]:
    """Volts and median time of a reading for each pair [V, s]."""
    volts, times = [], []
    for a, b in PAIRS:
        taken = []
        for _ in range(repeats):
            started = time.perf_counter()
            reading = abs(net.voltage(a, b, HERTZ, METER_OHM))
            taken.append(time.perf_counter() - started)
        volts.append(reading)
        times.append(statistics.median(taken))
    return volts, times


def theirs(net: Network, folder: Path) -> tuple[list[float], list[float]]:
    """Volts and time of a reading by one process of ngspice for each pair [V, s]."""
    program, volts, times = need_ngspice(), [], []
    for a, b in PAIRS:
        meter = Branch("meter", a, b, METER_OHM)
        deck = Deck(Network((*net.branches, meter), net.sources, net.nodes, net.switches, net.coupled), HERTZ)
        start = folder / "all.cir"
        start.write_text(control([deck], folder), encoding="utf-8")
        started = time.perf_counter()
        subprocess.run([program, "-b", str(start)], capture_output=True, check=True)
        found = read_raw(folder / "0.raw")
        times.append(time.perf_counter() - started)
        ends = [0j if deck.node[node] == "0" else found[f"v({deck.node[node]})"] for node in (a, b)]
        volts.append(abs(ends[0] - ends[1]))
    return volts, times


def main() -> int:
    """Print the table; 0 if the limits hold."""
    closed = {"thermostat", "relay contact", "door switch"}
    net = cooler(machine=STANDING, closed=closed, start_farad=60e-6, run_farad=4e-6)
    elements = len(net.branches) + len(net.sources) + len(net.switches) + 2 * len(net.coupled)
    volts, times = ours(net, REPEATS)
    with tempfile.TemporaryDirectory() as folder:
        other_volts, other_times = theirs(net, Path(folder))
    probe, other = statistics.median(times), statistics.median(other_times)
    largest = max(other_volts)
    apart = max(abs(x - y) / max(y, 1e-5 * largest) for x, y in zip(volts, other_volts, strict=True))
    print(f"{len(net.nodes)} nodes, {elements} elements, {len(PAIRS)} pairs of terminals")
    print(f"{'our solve, a reading':<38} {probe * 1000:8.3f} ms")
    print(f"{'ngspice started for a reading':<38} {other * 1000:8.3f} ms  {other / probe:6.1f} × ours")
    print(f"{'readings apart at most':<38} {apart:8.1e} of the reading")
    good = probe < PROBE_LIMIT_S and apart < RELATIVE
    print("limits hold" if good else "a limit does not hold")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
