"""What tests/published/meters.toml asks of the instruments, by the names used there."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from coldwright.electrical.measured import Measured
from coldwright.instruments.limits import Limits, ammeter_share, reading_limits, voltmeter_share
from coldwright.instruments.misuse import CATEGORY_OF, Place
from coldwright.instruments.power_meter import KWH, PowerMeter, energy_of, power_factor
from tests.instruments.circuits import Live

Inputs = dict[str, Any]


def _volts_shown(i: Inputs) -> float:
    """A voltmeter across the lower resistor of a divider."""
    upper, lower = i["upper"], i["lower"]
    return i["supply"] * lower / (upper + lower) * voltmeter_share(upper * lower / (upper + lower), i["meter"])


def _series_rc(i: Inputs) -> tuple[float, float, float]:
    """Watts, volts and amps of a resistor and a capacitor in series."""
    amps = i["volts"] / math.hypot(i["ohm"], 1 / (2 * math.pi * i["hz"] * i["farad"]))
    return amps**2 * i["ohm"], i["volts"], amps


def _product(i: Inputs) -> Limits:
    volts, amps = Measured(i["volts"], i["volts_limit"]), Measured(i["amps"], i["amps_limit"])
    return reading_limits(lambda v, a: v * a, volts, amps)


def _worst_i2r(i: Inputs) -> float:
    amps = Measured(i["amps"], i["amps"] * i["amps_percent"] / 100)
    ohms = Measured(i["ohms"], i["ohms"] * i["ohms_percent"] / 100)
    found = reading_limits(lambda a, r: a * a * r, amps, ohms)
    return 100 * found.worst / found.value


def _worst_v2r(i: Inputs) -> float:
    volts, ohms = Measured(i["volts"], i["volts_limit"]), Measured(i["ohms"], i["ohms_limit"])
    found = reading_limits(lambda v, r: v * v / r, volts, ohms)
    return 100 * found.worst / found.value


def _energy_error(i: Inputs) -> float:
    """Error of a meter that counts turns, against the energy of the load over the same time."""
    true_kwh = energy_of([(i["volts"] * i["amps"], i["seconds"])]) / KWH
    return 100 * (i["turns"] / i["turns_per_kwh"] / true_kwh - 1)


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "volts_shown": _volts_shown,
    "milliamps_shown": lambda i: 1e3 * i["volts"] / i["load"] * ammeter_share(i["load"], i["meter"]),
    "percent_lost": lambda i: 100 * (1 - voltmeter_share(i["source"], i["meter"])),
    "percent_worst_i2r": _worst_i2r,
    "percent_worst_vi": lambda i: 100 * _product(i).worst / _product(i).value,
    "percent_worst_v2r": _worst_v2r,
    "percent_likely_vi": lambda i: 100 * _product(i).likely / _product(i).value,
    "power_factor_shown": lambda i: power_factor(*_series_rc(i)),
    "watts_shown": lambda i: PowerMeter().watts(Live(plug=_series_rc(i))).value,
    "volt_amps_shown": lambda i: PowerMeter().volt_amps(Live(plug=(0.0, i["volts"], i["amps"]))).value,
    "energy_error_percent": _energy_error,
    "category_needed": lambda i: float(CATEGORY_OF[Place[i["place"]]]),
}
