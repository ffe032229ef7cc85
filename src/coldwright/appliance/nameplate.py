"""What a compressor's nameplate and data sheet say, read from TOML and checked."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from coldwright.electrical.winding_data import WindingData
from coldwright.errors import InputError
from coldwright.quantities.checks import check_farad, check_positive


@dataclass(frozen=True)
class CompressorPlate:
    """Nameplate and data sheet of one compressor type, SI units."""

    model: str
    supply_v: float
    frequency_hz: float
    refrigerant: str
    windings: WindingData
    capacitor_f: float
    run_inductance_h: float
    start_inductance_h: float

    def __post_init__(self) -> None:
        """Refuses what no nameplate says, by name, value and rule."""
        for name, text in (("model", self.model), ("refrigerant", self.refrigerant)):
            if not isinstance(text, str) or not text.strip():
                raise InputError(f"the {name} on the compressor's nameplate is {text!r}; it must be text")
        check_positive("the supply on the compressor's nameplate", self.supply_v, "V")
        check_positive("the frequency on the compressor's nameplate", self.frequency_hz, "Hz")
        check_farad(self.capacitor_f, "the capacitor on the compressor's nameplate")
        check_positive("the inductance of the run winding", self.run_inductance_h, "H")
        check_positive("the inductance of the start winding", self.start_inductance_h, "H")

    @property
    def is_inverter(self) -> bool:
        """Whether three equal windings hang on an inverter board."""
        return self.windings.is_inverter

    def describe(self) -> str:
        """The data a technician would look up, in a few lines."""
        data = self.windings
        percent = f"±{data.tolerance * 100:.0f} %"
        lines = [f"Compressor {self.model}, {self.supply_v:.0f} V {self.frequency_hz:.0f} Hz, {self.refrigerant}."]
        if data.start is None:
            lines.append(f"Inverter driven. Each pair of pins: {data.run:.2f} Ω {percent} at 20 °C.")
        else:
            lines.append(f"Run winding {data.run:.2f} Ω, start winding {data.start:.2f} Ω, {percent} at 20 °C.")
        lines.append("Copper windings. Internal protector. Insulation to the shell: test at 500 V d.c.")
        return "\n".join(lines)


_NUMBERS = ("supply_v", "frequency_hz", "tolerance", "capacitor_uf", "run_inductance_h")


def plate_from(entry: Mapping[str, Any]) -> CompressorPlate:
    """A nameplate from one table of a TOML file.

    Parameters
    ----------
    entry : mapping
        Keys as in `data/compressors.toml` [-]

    Raises
    ------
    InputError
        If a key is missing, unknown, not a number or not positive; the message names model and key.
    """
    model = entry.get("model")
    if not isinstance(model, str) or not model:
        raise InputError('a compressor has no model; add a line such as model = "KW 5-120"')
    single = "pair_ohm" in entry
    wanted = {"model", "refrigerant", *_NUMBERS}
    wanted |= {"pair_ohm"} if single else {"run_ohm", "start_ohm", "start_inductance_h"}
    for key in sorted(wanted - entry.keys()):
        raise InputError(f"{model}: {key} is missing from its nameplate")
    for key in sorted(entry.keys() - wanted):
        raise InputError(f"{model}: {key} is not a nameplate key; known keys are {', '.join(sorted(wanted))}")
    for key in sorted(wanted - {"model", "refrigerant"}):
        value = entry[key]
        if isinstance(value, bool) or not isinstance(value, (int, float)) or not 0 < value < 1e6:
            raise InputError(f"{model}: {key} is {value!r}; it must be a positive number")
    data = WindingData(
        run=float(entry["pair_ohm"] if single else entry["run_ohm"]),
        start=None if single else float(entry["start_ohm"]),
        tolerance=float(entry["tolerance"]),
    )
    return CompressorPlate(
        model=model,
        supply_v=float(entry["supply_v"]),
        frequency_hz=float(entry["frequency_hz"]),
        refrigerant=str(entry["refrigerant"]),
        windings=data,
        capacitor_f=float(entry["capacitor_uf"]) * 1e-6,
        run_inductance_h=float(entry["run_inductance_h"]),
        start_inductance_h=float(entry.get("start_inductance_h", entry["run_inductance_h"])),
    )


@cache
def compressors() -> tuple[CompressorPlate, ...]:
    """The invented compressor types that come with the course."""
    text = resources.files("coldwright.appliance").joinpath("data/compressors.toml").read_text(encoding="utf-8")
    return tuple(plate_from(entry) for entry in tomllib.loads(text)["compressor"])
