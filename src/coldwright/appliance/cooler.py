"""A cooler as its maker made it: nameplate, wiring and design data, read from TOML and checked."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from enum import Enum
from functools import cache
from importlib import resources
from typing import Any, TypeVar

from coldwright.appliance.cooler_sizes import SIZES, check_sizes
from coldwright.appliance.parts import Board, Cord, Defrost, Fan, Load, Parts, StartDevice, Stuck, Supply, Thermostat
from coldwright.appliance.parts import Windings as WindingState
from coldwright.appliance.wiring import ComponentKind, Wiring, wirings
from coldwright.electrical.capacitor import Capacitor, Purpose
from coldwright.electrical.motor import synchronous_speed
from coldwright.electrical.motor_estimate import MotorPlate, estimate
from coldwright.electrical.motor_types import MotorParameters, MotorType, StartCircuit
from coldwright.electrical.overload import Overload
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay, SolidStateSwitch
from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K

DEVICES = {"relay": CurrentRelay, "potential_relay": PotentialRelay, "ptc": Ptc, "solid_state": SolidStateSwitch}
TABLES = {*DEVICES, "motor", "nameplate", "load", "overload", "fans", "start_capacitor", "run_capacitor", "board"}
NEEDS = {
    ComponentKind.COMPRESSOR: ("motor", "nameplate"),
    ComponentKind.OVERLOAD: ("overload",),
    ComponentKind.CURRENT_RELAY: ("relay",),
    ComponentKind.POTENTIAL_RELAY: ("potential_relay",),
    ComponentKind.PTC: ("ptc",),
    ComponentKind.SOLID_STATE_SWITCH: ("solid_state",),
    ComponentKind.START_CAPACITOR: ("start_capacitor",),
    ComponentKind.RUN_CAPACITOR: ("run_capacitor",),
    ComponentKind.DEFROST_HEATER: ("heater_w",),
    ComponentKind.INVERTER_BOARD: ("board",),
    ComponentKind.INVERTER_COMPRESSOR: ("inverter_pair_ohm",),
}
PLAIN = {"model", "wiring", "volts", "hertz", "refrigerant", "lamp_w", "heater_w", "inverter_pair_ohm"}
SUPPLIES = {(120.0, 60.0), (230.0, 50.0)}
HOUSE_WIRING_OHM = {120.0: 0.35, 230.0: 0.7}  # from the panel to the outlet: illustrative
EQUAL_SHARE = 0.3  # of the rated torque that a start against equal pressures asks for: illustrative
KINDS = {
    (False, False): MotorType.RESISTANCE_START,
    (True, False): MotorType.CAPACITOR_START,
    (True, True): MotorType.CAPACITOR_START_CAPACITOR_RUN,
    (False, True): MotorType.PERMANENT_CAPACITOR,
}
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
    estimates: tuple[str, ...] = ()  # what was estimated where only a nameplate was given, in sentences

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
        If a key is missing, unknown, of the wrong kind or not of a small cooler's size; the message names the model,
        the key, its value and the rule.
    """
    if not isinstance(entry, Mapping):
        raise InputError(f"a cooler is {entry!r}; it must be a table")
    model = entry.get("model", "")
    if not isinstance(model, str):
        raise InputError(f"the model of a cooler is {model!r}; write it in quotes")
    if not model.strip():
        raise InputError('a cooler has no model; add a line such as model = "Tarn 11"')
    for key in sorted(entry.keys() - TABLES - PLAIN):
        raise InputError(f"{model}: {key} is no key of a cooler; known keys are {', '.join(sorted(TABLES | PLAIN))}")
    for key in sorted({"wiring", "volts", "hertz", "refrigerant", "fans", "lamp_w"} - entry.keys()):
        raise InputError(f"{model}: {key} is missing")
    for key in ("wiring", "refrigerant"):
        if not isinstance(entry[key], str) or not entry[key].strip():
            raise InputError(f"{model}: {key} is {entry[key]!r}; write its name in quotes")
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
    for kind, keys in NEEDS.items():
        if wiring.of_kind(kind) and not set(keys) & entry.keys():
            raise InputError(f"{model}: its wiring has a {kind.value}; {' or '.join(keys)} is missing")
    check_sizes(model, entry)
    estimates: tuple[str, ...] = ()
    if "nameplate" in entry:
        entry, estimates = _from_nameplate(model, entry, volts, hertz)
    return Cooler(
        model, wiring, volts, hertz, entry["refrigerant"], _parts(model, wiring, entry, volts, hertz), estimates
    )


def _from_nameplate(
    model: str, entry: Mapping[str, Any], volts: float, hertz: float
) -> tuple[dict[str, Any], tuple[str, ...]]:
    """The entry with a motor and a load that give back its nameplate, and what was estimated for it."""
    if "motor" in entry:
        raise InputError(f"{model} has both motor and nameplate; give one of the two")
    data = _table(model, "nameplate", entry["nameplate"])
    for key in ("run_ohm", "start_ohm"):
        if key not in data:
            raise InputError(f"{model}: nameplate has no {key}; measure the windings cold and give both")
    run_ohm, start_ohm = (_number(model, data, key) for key in ("run_ohm", "start_ohm"))
    rest = {key: value for key, value in data.items() if key not in ("run_ohm", "start_ohm")}
    plate = _made(model, "nameplate", MotorPlate, {"volts": volts, "frequency_hz": hertz, **rest})
    start, run = (
        _number(model, _table(model, key, entry[key]), "uf") * 1e-6 if key in entry else None for key in CAPACITORS
    )
    kind = KINDS[start is not None, run is not None]
    added = _number(model, _table(model, "ptc", entry["ptc"]), "cold_ohm") if "ptc" in entry and run is None else 0.0
    try:
        found = estimate(plate, run_ohm, start_ohm, StartCircuit(kind, start, run, added_ohm=added))
    except InputError as error:
        raise InputError(f"{model}: nameplate: {error}") from None
    torque = plate.rated_w / (synchronous_speed(found.params) * (1 - plate.rated_slip))
    load = entry.get("load", {"equal_nm": EQUAL_SHARE * torque, "working_nm": torque})
    motor = {field.name: getattr(found.params, field.name) for field in fields(found.params)}
    motor.pop("frequency_hz")
    return {**entry, "motor": motor, "load": load}, found.sentences


def _parts(model: str, wiring: Wiring, entry: Mapping[str, Any], volts: float, hertz: float) -> Parts:
    motor = None
    if "motor" in entry:
        motor = _made(
            model, "motor", MotorParameters, {**_table(model, "motor", entry["motor"]), "frequency_hz": hertz}
        )
    start, run = (_capacitor(model, entry, key, purpose) for key, purpose in CAPACITORS.items())
    heater = None
    if "heater_w" in entry:
        heater = Defrost(heater_ohm=volts**2 / _number(model, entry, "heater_w"), timer_ohm=volts**2 / 3.0)
    return Parts(
        supply=Supply(volts, hertz, HOUSE_WIRING_OHM[volts], volts),
        cord=Cord(),
        thermostat=Thermostat(CABINET_ON_C + ICE_POINT_K, CABINET_OFF_C + ICE_POINT_K),
        door_switch=Stuck.FREE,
        lamp_ohm=volts**2 / _number(model, entry, "lamp_w"),
        fans=_fans(model, wiring, entry["fans"]),
        overload=_overload(model, entry),
        start_device=_device(model, entry),
        start_capacitor=start,
        run_capacitor=run,
        motor=motor,
        windings=WindingState(),
        load=_made(model, "load", Load, entry.get("load", {"equal_nm": 0.1, "working_nm": 0.1})),
        defrost=heater,
        board=_board(model, entry),
        inverter_pair_ohm=_number(model, entry, "inverter_pair_ohm") if "inverter_pair_ohm" in entry else 0.0,
        marked={
            f"{which}_capacitor": (made.farad, made.volts_rated)
            for which, made in (("start", start), ("run", run))
            if made is not None
        },
    )


def _fans(model: str, wiring: Wiring, entry: Any) -> dict[str, Fan]:
    if not isinstance(entry, Mapping):
        raise InputError(f"{model}: fans is {entry!r}; it must be a table with one entry for each fan")
    wanted = [component.name for component in wiring.of_kind(ComponentKind.FAN)]
    if sorted(entry) != sorted(wanted):
        raise InputError(f"{model}: fans are {', '.join(sorted(entry)) or 'none'}; its wiring has {', '.join(wanted)}")
    return {name: _made(model, name, Fan, data) for name, data in entry.items()}


CAPACITORS = {"start_capacitor": Purpose.START, "run_capacitor": Purpose.RUN}


def _number(model: str, entry: Mapping[str, Any], key: str) -> float:
    if key not in entry:
        raise InputError(f"{model}: {key} is missing")
    value = entry[key]
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not 0 < value < math.inf:
        raise InputError(f"{model}: {key} is {value!r}; it must be a positive number")
    return float(value)


def _table(model: str, what: str, data: Any) -> Mapping[str, Any]:
    """The keys of a table, its values numbers."""
    if not isinstance(data, Mapping):
        raise InputError(f"{model}: {what} is {data!r}; it must be a table such as {{ watts = 9, amps = 0.16 }}")
    for key, value in data.items():
        if isinstance(value, (bool, str)) or not isinstance(value, (int, float, Enum)):
            raise InputError(f"{model}: {key} of {what} is {value!r}; it must be a number without quote marks")
    return data


def _made(model: str, what: str, kind: type[T], data: Mapping[str, Any]) -> T:
    _table(model, what, data)
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
    return (
        _made(model, "overload", Overload, _kelvin(_table(model, "overload", entry["overload"])))
        if "overload" in entry
        else None
    )


def _device(model: str, entry: Mapping[str, Any]) -> StartDevice | None:
    found = [key for key in DEVICES if key in entry]
    if len(found) > 1:
        raise InputError(f"{model} has {' and '.join(found)}; a cooler has one start device")
    return (
        _made(model, found[0], DEVICES[found[0]], _kelvin(_table(model, found[0], entry[found[0]]))) if found else None
    )


def _capacitor(model: str, entry: Mapping[str, Any], key: str, purpose: Purpose) -> Capacitor | None:
    if key not in entry:
        return None
    data = dict(_table(model, key, entry[key]))
    farad = _number(model, data, "uf") * 1e-6
    volts = _number(model, data, "volts")
    rest = {k: v for k, v in data.items() if k not in ("uf", "volts")}
    return _made(model, key, Capacitor, {"farad": farad, "volts_rated": volts, "purpose": purpose, **rest})


def _board(model: str, entry: Mapping[str, Any]) -> Board | None:
    if "board" not in entry:
        return None
    data = _table(model, "board", entry["board"])
    for key in sorted(data.keys() - SIZES["board"].keys()):
        raise InputError(f"{model}: board has {key!r}, which is unknown; known are {', '.join(sorted(SIZES['board']))}")
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
