"""Door openings: warm moist air flows in at the top and cold air out at the bottom, by the difference of densities."""

from __future__ import annotations

import math
from typing import NamedTuple

from coldwright.cabinet.checks import (
    CENTIMETRES,
    INCHES,
    LITRES,
    MILLIMETRES,
    check_between,
    check_temperature,
)
from coldwright.cabinet.moist_air import (
    CP_DRY_AIR,
    CP_VAPOUR,
    air_density,
    air_enthalpy,
    dry_air_density,
    humidity_ratio,
)
from coldwright.quantities.constants import SEA_LEVEL_PA

GRAVITY = 9.80665
DAY_S = 86400.0
_DOORWAY = 0.221  # constant of the Gosney and Olama relation


class Air(NamedTuple):
    """Air of a room or of a cabinet: temperature [K] and relative humidity [1]."""

    temperature_k: float
    relative_humidity: float


class Doorway(NamedTuple):
    """Width and height of a door's opening [m]."""

    width_m: float
    height_m: float


class AirHeat(NamedTuple):
    """Heat that exchanged air brings: sensible and latent, as energy [J] or power [W], and the water in it [kg]."""

    sensible: float
    latent: float
    water_kg: float

    @property
    def total(self) -> float:
        """Sensible and latent together."""
        return self.sensible + self.latent


def doorway_flow(doorway: Doorway, room: Air, inside: Air, pressure_pa: float = SEA_LEVEL_PA) -> float:
    r"""Cold air that leaves through an open door, as a volume each second.

    .. math:: \dot V = 0.221 A \sqrt{g H} \sqrt{1 - \rho_o/\rho_i} \;
       \left[\frac{2}{1 + (\rho_i/\rho_o)^{1/3}}\right]^{1.5}

    Parameters
    ----------
    doorway : Doorway
        The opening [-]
    room, inside : Air
        Air outside and in the cabinet [-]
    pressure_pa : float
        Pressure of the air [Pa]

    Returns
    -------
    float
        Flow, zero where the cabinet's air is not the denser [m³/s]

    Raises
    ------
    InputError
        If a value is outside its span.

    Notes
    -----
    For a door wide open on a room that stays cold. It was measured on cold-store doors of several square metres; on a
    cooler's door it is an estimate, and shelves slow the air.

    References
    ----------
    .. [1] Gosney & Olama, 1975, as in ASHRAE Handbook: Refrigeration, chapter Refrigerated-Facility Loads (0.221 from
       memory; as 13.26 for each minute in T. Jekel, *Door Infiltration Estimator Overview*, 2017, read there).
    """
    for name, side in zip(("width", "height"), doorway, strict=True):
        check_between(f"the {name} of the doorway", side, "m", 0.05, 6.0, MILLIMETRES, CENTIMETRES, INCHES)
    outer, inner = _moisture("the room", room, pressure_pa), _moisture("the cabinet", inside, pressure_pa)
    warm, cold = (
        air_density(room.temperature_k, outer, pressure_pa),
        air_density(inside.temperature_k, inner, pressure_pa),
    )
    if warm >= cold:
        return 0.0
    speed = math.sqrt(GRAVITY * doorway.height_m * (1.0 - warm / cold))
    return _DOORWAY * doorway.width_m * doorway.height_m * speed * (2.0 / (1.0 + (cold / warm) ** (1 / 3))) ** 1.5


def air_heat(volume_m3: float, room: Air, inside: Air, pressure_pa: float = SEA_LEVEL_PA) -> AirHeat:
    """Heat to take out of a volume of cold air that the room's air has replaced, dry air for dry air.

    Parameters
    ----------
    volume_m3 : float
        Cold air that went out [m³]
    room, inside : Air
        Air outside and in the cabinet [-]
    pressure_pa : float
        Pressure of the air [Pa]

    Returns
    -------
    AirHeat
        Sensible and latent heat, and the water that stays behind [J, kg]

    Raises
    ------
    InputError
        If a value is outside its span.

    Notes
    -----
    What the water gives off when it freezes on the evaporator is not in it.
    """
    check_between("the volume of air", volume_m3, "m³", 0.0, 1e5)
    outer, inner = _moisture("the room", room, pressure_pa), _moisture("the cabinet", inside, pressure_pa)
    dry = volume_m3 * dry_air_density(inside.temperature_k, inner, pressure_pa)
    total = dry * (air_enthalpy(room.temperature_k, outer) - air_enthalpy(inside.temperature_k, inner))
    sensible = dry * (CP_DRY_AIR + CP_VAPOUR * inner) * (room.temperature_k - inside.temperature_k)
    return AirHeat(sensible, total - sensible, dry * (outer - inner))


def exchanged_share(flow_m3_s: float, volume_m3: float, seconds: float) -> float:
    """Share of the cabinet's air that one opening replaces; incoming air mixes with what is there.

    Parameters
    ----------
    flow_m3_s : float
        Flow through the door [m³/s]
    volume_m3 : float
        Air in the cabinet [m³]
    seconds : float
        How long the door is open [s]

    Returns
    -------
    float
        Share, 0 to 1 [1]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    check_volume("the air in the cabinet", volume_m3)
    check_between("the flow through the door", flow_m3_s, "m³/s", 0.0, 20.0, LITRES)
    check_between("the time that the door is open", seconds, "s", 0.0, DAY_S)
    return -math.expm1(-flow_m3_s * seconds / volume_m3)


def opening_heat(volume_m3: float, doorway: Doorway, room: Air, inside: Air, seconds: float) -> AirHeat:
    """Heat and water that one opening of the door lets in with the air.

    Parameters
    ----------
    volume_m3 : float
        Air in the cabinet [m³]
    doorway : Doorway
        The opening [-]
    room, inside : Air
        Air outside and in the cabinet [-]
    seconds : float
        How long the door is open [s]

    Returns
    -------
    AirHeat
        Sensible and latent heat, and the water that stays behind [J, kg]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    share = exchanged_share(doorway_flow(doorway, room, inside), volume_m3, seconds)
    return air_heat(share * volume_m3, room, inside)


def mean_power(one: AirHeat, openings_a_day: float) -> AirHeat:
    """Mean power over a day of openings that are alike; the water is that of the whole day.

    Parameters
    ----------
    one : AirHeat
        Of one opening [J, kg]
    openings_a_day : float
        How many [1/day]

    Returns
    -------
    AirHeat
        Mean power, and the water of a day [W, kg]

    Raises
    ------
    InputError
        If the count is negative or beyond 5000.
    """
    check_between("the openings of the door in a day", openings_a_day, "", 0.0, 5000.0)
    often = openings_a_day / DAY_S
    return AirHeat(one.sensible * often, one.latent * often, one.water_kg * openings_a_day)


def check_volume(name: str, volume_m3: float) -> None:
    """Refuse a volume that no small cooler has.

    Parameters
    ----------
    name : str
        What has the volume [-]
    volume_m3 : float
        Volume [m³]

    Raises
    ------
    InputError
        If the volume is outside its span; litres are named as the likely slip.
    """
    check_between(name, volume_m3, "m³", 0.002, 5.0, LITRES)


def _moisture(name: str, air: Air, pressure_pa: float) -> float:
    check_temperature(f"the air of {name}", air.temperature_k)
    return humidity_ratio(air.temperature_k, air.relative_humidity, pressure_pa)
