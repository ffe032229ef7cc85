"""A cooler as its maker made it: nameplate, wiring and design data, read from TOML and checked."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from importlib import resources
from typing import Any, TypeVar

from coldwright.appliance.parts import Board, Cord, Defrost, Fan, Load, Parts, StartDevice, Stuck, Supply, Thermostat
from coldwright.appliance.parts import Windings as WindingState
from coldwright.appliance.wiring import Wiring, wirings
from coldwright.electrical.capacitor import Capacitor, Purpose
from coldwright.electrical.motor_types import MotorParameters
from coldwright.electrical.overload import Overload
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay, SolidStateSwitch
from coldwright.electrical.windings import ICE_POINT_K
from coldwright.errors import InputError

DEVICES = {"relay": CurrentRelay, "potential_relay": PotentialRelay, "ptc": Ptc, "solid_state": SolidStateSwitch}
TABLES = {*DEVICES, "motor", "load", "overload", "fans", "start_capacitor", "run_capacitor", "board"}
PLAIN = {"model", "wiring", "volts", "hertz", "refrigerant", "lamp_w", "heater_w", "inverter_pair_ohm"}
SUPPLIES = {(120.0, 60.0), (230.0, 50.0)}
HOUSE_WIRING_OHM = {120.0: 0.35, 230.0: 0.7}  # from the panel to the outlet: illustrative
CABINET_ON_C, CABINET_OFF_C = 6.0, 2.0
T = TypeVar("T")


@dataclass(frozen=True)
class Cooler:
    """One model: what its plate says and the healthy parts it is made of."""

    model: str
    wiring: Wiring
    volts: float
    hertz: float
    refrigerant: str
    parts: Parts

    @property
    def is_inverter(self) -> bool:
        """Whether a board drives the compressor."""
        return self.parts.board is not None


def cooler_from(entry: Mapping[str, Any]) -> Cooler:
    """A cooler from one table of a TOML file.

    Parameters
    ----------
    entry : mapping
        Keys as in `data/coolers.toml` [-]

    Raises
    ------
    InputError
        If a key is missing, unknown or out of range; the message names the model, the key, its value and the rule.
    """
    model = str(entry.get("model", ""))
    if not model:
        raise InputError('a cooler has no model; add a line such as model = "Tarn 11"')
    for key in sorted(entry.keys() - TABLES - PLAIN):
        raise InputError(f"{model}: {key} is no key of a cooler; known keys are {', '.join(sorted(TABLES | PLAIN))}")
    for key in sorted({"wiring", "volts", "hertz", "refrigerant", "fans", "lamp_w"} - entry.keys()):
        raise InputError(f"{model}: {key} is missing")
    volts, hertz = _number(model, entry, "volts"), _number(model, entry, "hertz")
    if (volts, hertz) not in SUPPLIES:
        raise InputError(
            f"{model}: volts is {volts:g} V at {hertz:g} Hz; the course has 120 V at 60 Hz and 230 V at 50 Hz. "
            "Is there a typing error?"
        )
    known = wirings()
    if entry["wiring"] not in known:
        raise InputError(f"{model}: wiring {entry['wiring']!r} is unknown; known are {', '.join(known)}")
    wiring = known[entry["wiring"]]
    return Cooler(model, wiring, volts, hertz, str(entry["refrigerant"]), _parts(model, entry, volts, hertz))


def _parts(model: str, entry: Mapping[str, Any], volts: float, hertz: float) -> Parts:
    motor = None
    if "motor" in entry:
        motor = _made(model, "motor", MotorParameters, {**entry["motor"], "frequency_hz": hertz})
    start, run = (_capacitor(model, entry, key, purpose) for key, purpose in CAPACITORS.items())
    heater = None
    if "heater_w" in entry:
        heater = Defrost(heater_ohm=volts**2 / _number(model, entry, "heater_w"), timer_ohm=volts**2 / 3.0)
    return Parts(
        supply=Supply(volts, hertz, HOUSE_WIRING_OHM[volts]),
        cord=Cord(),
        thermostat=Thermostat(CABINET_ON_C + ICE_POINT_K, CABINET_OFF_C + ICE_POINT_K),
        door_switch=Stuck.FREE,
        lamp_ohm=volts**2 / _number(model, entry, "lamp_w"),
        fans={name: _made(model, name, Fan, data) for name, data in entry["fans"].items()},
        overload=_overload(model, entry),
        start_device=_device(model, entry),
        start_capacitor=start,
        run_capacitor=run,
        motor=motor,
        windings=WindingState(),
        load=_made(model, "load", Load, entry.get("load", {"equal_nm": 0.1, "working_nm": 0.1})),
        defrost=heater,
        board=_board(model, entry),
        inverter_pair_ohm=float(entry.get("inverter_pair_ohm", 0.0)),
        marked={
            f"{which}_capacitor": (made.farad, made.volts_rated)
            for which, made in (("start", start), ("run", run))
            if made is not None
        },
    )


CAPACITORS = {"start_capacitor": Purpose.START, "run_capacitor": Purpose.RUN}


def _number(model: str, entry: Mapping[str, Any], key: str) -> float:
    value = entry[key]
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not 0 < value < math.inf:
        raise InputError(f"{model}: {key} is {value!r}; it must be a positive number")
    return float(value)


def _made(model: str, what: str, kind: type[T], data: Mapping[str, Any]) -> T:
    names = {field.name for field in fields(kind)}  # type: ignore[arg-type]
    for key in sorted(data.keys() - names):
        raise InputError(f"{model}: {what} has {key!r}, which is unknown; known are {', '.join(sorted(names))}")
    try:
        return kind(**data)
    except TypeError as error:
        raise InputError(f"{model}: {what}: {str(error).rpartition(': ')[2]} is missing") from None
    except InputError as error:
        raise InputError(f"{model}: {what}: {error}") from None


def _kelvin(data: Mapping[str, Any]) -> dict[str, Any]:
    return {
        (key.removesuffix("_c") + "_k" if key.endswith("_c") else key): (
            value + ICE_POINT_K if key.endswith("_c") else value
        )
        for key, value in data.items()
    }


def _overload(model: str, entry: Mapping[str, Any]) -> Overload | None:
    return _made(model, "overload", Overload, _kelvin(entry["overload"])) if "overload" in entry else None


def _device(model: str, entry: Mapping[str, Any]) -> StartDevice | None:
    found = [key for key in DEVICES if key in entry]
    if len(found) > 1:
        raise InputError(f"{model} has {' and '.join(found)}; a cooler has one start device")
    return _made(model, found[0], DEVICES[found[0]], _kelvin(entry[found[0]])) if found else None


def _capacitor(model: str, entry: Mapping[str, Any], key: str, purpose: Purpose) -> Capacitor | None:
    if key not in entry:
        return None
    data = dict(entry[key])
    farad = _number(model, data, "uf") * 1e-6
    volts = _number(model, data, "volts")
    rest = {k: v for k, v in data.items() if k not in ("uf", "volts")}
    return _made(model, key, Capacitor, {"farad": farad, "volts_rated": volts, "purpose": purpose, **rest})


def _board(model: str, entry: Mapping[str, Any]) -> Board | None:
    if "board" not in entry:
        return None
    data = entry["board"]
    return Board(
        _number(model, data, "bus_uf") * 1e-6, _number(model, data, "bleed_ohm"), _number(model, data, "watts")
    )


@cache
def coolers() -> tuple[Cooler, ...]:
    """The invented coolers that come with the course."""
    text = resources.files("coldwright.appliance").joinpath("data/coolers.toml").read_text(encoding="utf-8")
    return tuple(cooler_from(entry) for entry in tomllib.loads(text)["cooler"])


def cooler(model: str) -> Cooler:
    """The cooler of that model.

    Parameters
    ----------
    model : str
        Such as "Tarn 11" [-]
    """
    for found in coolers():
        if found.model == model:
            return found
    raise InputError(f"there is no cooler {model!r}; there are {', '.join(each.model for each in coolers())}")
