"""How long it takes to import coldwright and to check one answer, beside a bare Python, in one run.

    python docs/benchmarks/import_and_self_check.py

Prints times and their ratios, what was loaded, and whether the two limits hold: import under 0.3 s without CoolProp,
matplotlib or IPython, and a self-check of an answer under 0.2 s. Exit 1 if one does not.
"""

from __future__ import annotations

import contextlib
import io
import statistics
import subprocess
import sys
import time

HEAVY = ("CoolProp", "matplotlib", "IPython")
RUNS = 7
IMPORT_LIMIT_S = 0.3
CHECK_LIMIT_S = 0.2
SUBJECTS = {
    "bare Python": "pass",
    "import coldwright": "import coldwright",
    "what a lab imports": "from coldwright.panels import check",
    "what marking an answer needs": "import coldwright.labs.catalogue",
}


def start_time(code: str) -> float:
    """Median wall time of a fresh interpreter that runs the code [s]."""
    times = []
    for _ in range(RUNS):
        started = time.perf_counter()
        subprocess.run([sys.executable, "-c", code], check=True)
        times.append(time.perf_counter() - started)
    return statistics.median(times)


def loaded_by(code: str) -> set[str]:
    """Which of the heavy packages the code loads."""
    program = f"{code}\nimport sys\nprint(*(name for name in {HEAVY!r} if name in sys.modules))"
    done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True)
    return set(done.stdout.split())


def self_check_time() -> float:
    """Longest time that one self-check of an answer took, the first one included [s]."""
    from coldwright.panels import check

    answers = {"resistance_12": "12.34 ohm", "resistance_13": "OL", "resistance_23": "4,21 kΩ"}
    longest = 0.0
    for _ in range(RUNS):
        started = time.perf_counter()
        with contextlib.redirect_stdout(io.StringIO()):
            check("winding_checks", "pairs", answers)
        longest = max(longest, time.perf_counter() - started)
    return longest


def main() -> int:
    """Print the table; 0 if both limits hold."""
    times = {name: start_time(code) for name, code in SUBJECTS.items()}
    bare = times["bare Python"]
    good = True
    for name, seconds in times.items():
        heavy = loaded_by(SUBJECTS[name])
        good &= seconds < IMPORT_LIMIT_S and not heavy
        print(f"{name:<30} {seconds * 1000:7.0f} ms  {seconds / bare:5.1f} × bare Python  loads {heavy or 'none'}")
    checked = self_check_time()
    good &= checked < CHECK_LIMIT_S
    print(f"{'self-check of an answer':<30} {checked * 1000:7.1f} ms  {checked / bare:5.2f} × bare Python")
    print("limits hold" if good else "a limit does not hold")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
