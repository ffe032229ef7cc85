"""What a sealed system stands in, checked: room, air on the evaporator, shares of air flow, speed and charge."""

from __future__ import annotations

import math

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.sealed_system.plant import Around

ROOM_K = (263.15, 333.15)  # -10 °C to 60 °C
AIR_K = (223.15, 323.15)  # -50 °C to 50 °C
LEAST_AIR = 0.02  # air still moves by itself when a fan stands
SPEEDS = (0.4, 1.6)  # of the frequency on the plate
MOST_KG = 3.0


def surroundings(
    *,
    room_k: float,
    air_k: float,
    charge_kg: float,
    running: bool = True,
    speed: float = 1.0,
    condenser_air: float = 1.0,
    evaporator_air: float = 1.0,
) -> Around:
    """What a system stands in, each number checked.

    Parameters
    ----------
    room_k : float
        Air on the condenser and round the shell [K]
    air_k : float
        Air on the evaporator [K]
    charge_kg : float
        Refrigerant in the system [kg]
    running : bool
        Whether the compressor runs [-]
    speed : float
        Of the frequency on the plate [1]
    condenser_air, evaporator_air : float
        Heat passed from surface to air over that of a clean one with its fan running [1]

    Returns
    -------
    Around
        As the model takes it [-]

    Raises
    ------
    InputError
        If a number is not a number or outside what a plug-in unit meets; the message guesses at the slip.
    """
    _check_temperature("the room's temperature", room_k, ROOM_K)
    _check_temperature("the temperature of the air on the evaporator", air_k, AIR_K)
    _check_charge(charge_kg)
    _check_share("the speed", speed, *SPEEDS)
    _check_share("the condenser's air", condenser_air, LEAST_AIR, 1.5)
    _check_share("the evaporator's air", evaporator_air, LEAST_AIR, 1.5)
    return Around(room_k, air_k, 1.0 if running else 0.0, speed, condenser_air, evaporator_air, charge_kg)


def _check_temperature(name: str, kelvin: float, span: tuple[float, float]) -> None:
    low, high = span
    if low <= kelvin <= high:
        return
    message = (
        f"{name} is {kelvin:.5g} K, {kelvin - ICE_POINT_K:.4g} °C; it must be from {low - ICE_POINT_K:g} °C to "
        f"{high - ICE_POINT_K:g} °C"
    )
    if low <= kelvin + ICE_POINT_K <= high:
        message += f". Was it in °C? {kelvin:g} °C is {kelvin + ICE_POINT_K:g} K"
    elif low <= (kelvin - ICE_POINT_K - 32.0) / 1.8 + ICE_POINT_K <= high:
        message += f". Was it in °F? {kelvin - ICE_POINT_K:.4g} °F is {(kelvin - ICE_POINT_K - 32.0) / 1.8:.4g} °C"
    raise InputError(message)


def _check_charge(kilograms: float) -> None:
    if 0.0 < kilograms <= MOST_KG:
        return
    message = f"the charge is {kilograms:g} kg; a plug-in unit holds more than nothing and at most {MOST_KG:g} kg"
    if math.isfinite(kilograms) and kilograms > MOST_KG:
        message += f". Was it in grams? {kilograms:g} g is {kilograms * 1e-3:g} kg"
    raise InputError(message)


def _check_share(name: str, share: float, low: float, high: float) -> None:
    if low <= share <= high:
        return
    message = f"{name} is {share:g}; it is a share of what is usual, from {low:g} to {high:g}"
    if low <= share * 1e-2 <= high:
        message += f". Was it in percent? {share:g} % is {share * 1e-2:g}"
    raise InputError(message)
