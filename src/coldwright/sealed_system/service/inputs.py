"""What a value must be before the service models take it, with the slip that most often lies behind a wrong one."""

from __future__ import annotations

import math

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K

LEAST_K, MOST_K = ICE_POINT_K - 50.0, ICE_POINT_K + 70.0
BAR = 1e5
PSI = 6894.757293168
INCH_OF_MERCURY = 3386.389
OUNCE_KG = 0.028349523125
POUND_KG = 0.45359237
SMALL_APPLIANCE_KG = 5.0 * POUND_KG  # 40 CFR 82.152 (from memory): factory sealed, 5 lb or less
LEAST_CHARGE_KG = 0.010
MOST_TEST_PA = 60.0 * BAR


def check_positive(name: str, value: float, unit: str, slip: str = "") -> None:
    """Raises unless a value is above zero and finite.

    Parameters
    ----------
    name : str
        What the value is [-]
    value : float
        Value, in its unit [unit]
    unit : str
        Unit to show [-]
    slip : str
        Question about the likely slip [-]
    """
    if not 0.0 < value < math.inf:
        raise InputError(f"{name} is {value:g} {unit}; it must be above zero and finite.{' ' + slip if slip else ''}")


def _temperature_slip(kelvin: float) -> str:
    celsius = kelvin - ICE_POINT_K
    from_fahrenheit = (celsius - 32.0) / 1.8
    if LEAST_K <= kelvin + ICE_POINT_K <= MOST_K:
        return f"Was it {kelvin:g} °C, typed where kelvin is asked for?"
    if LEAST_K <= from_fahrenheit + ICE_POINT_K <= MOST_K:
        return f"Was it {celsius:.4g} °F, which is {from_fahrenheit:.3g} °C?"
    if LEAST_K <= celsius / 10.0 + ICE_POINT_K <= MOST_K:
        return f"Was it {celsius / 10.0:.4g} °C, with the decimal point left out?"
    return "Was the unit another one?"


def check_temperature(name: str, kelvin: float) -> None:
    """Raises unless a temperature is one that service work meets, -50 °C to 70 °C.

    Parameters
    ----------
    name : str
        What the temperature is of [-]
    kelvin : float
        Temperature [K]
    """
    if LEAST_K <= kelvin <= MOST_K:
        return
    raise InputError(
        f"{name} is {kelvin - ICE_POINT_K:.4g} °C; service work lies between {LEAST_K - ICE_POINT_K:g} °C and "
        f"{MOST_K - ICE_POINT_K:g} °C. {_temperature_slip(kelvin)}"
    )


def check_pressure(name: str, pascal: float, most_pa: float = MOST_TEST_PA) -> None:
    """Raises unless an absolute pressure is above zero and at most what the work can hold.

    Parameters
    ----------
    name : str
        What the pressure is of [-]
    pascal : float
        Absolute pressure [Pa]
    most_pa : float
        Highest pressure allowed [Pa]
    """
    if 1000.0 <= pascal <= most_pa:
        return
    if 0.0 < pascal < 1000.0:
        rule = "it must be at least 1 kPa"
        slip = f"Was it {pascal:.4g} bar or psi, typed where pascal is asked for?"
    elif pascal > most_pa:
        bar = pascal / BAR
        rule = f"it must be at most {most_pa / BAR:g} bar"
        slip = f"Was it {bar:.4g} psi, which is {bar * PSI / BAR:.3g} bar?"
    else:
        rule, slip = "an absolute pressure is above zero", "Was it a gauge pressure?"
    raise InputError(f"{name} is {pascal / 1000.0:.6g} kPa absolute; {rule}. {slip}")


def _charge_slip(kg: float) -> str:
    ounces = kg / OUNCE_KG
    if 10.0 <= ounces <= 1000.0:
        return f"Was it {ounces:.4g} g, taken for ounces?"
    if 10.0 <= kg <= 1000.0:
        return f"Was it {kg:.4g} g, typed where kilograms are asked for?"
    return "Was the unit another one?"


def check_charge(name: str, kg: float, most_kg: float = SMALL_APPLIANCE_KG) -> None:
    """Raises unless a charge is one that a unit of the kind can hold.

    Parameters
    ----------
    name : str
        What the charge is of [-]
    kg : float
        Mass of refrigerant [kg]
    most_kg : float
        Largest charge of the kind; 5 lb for a small appliance [kg]
    """
    grams = kg * 1000.0
    if LEAST_CHARGE_KG <= kg <= most_kg:
        return
    if not kg > 0.0:
        raise InputError(f"{name} is {grams:.4g} g; a charge is above zero. Was it a loss, or a scale read backwards?")
    if kg < LEAST_CHARGE_KG:
        raise InputError(
            f"{name} is {grams:.4g} g; the smallest sealed units hold some {LEAST_CHARGE_KG * 1000.0:g} g. "
            f"Was it {grams:.4g} oz, which is {grams * OUNCE_KG * 1000.0:.3g} g?"
        )
    raise InputError(f"{name} is {grams:.5g} g; it must be at most {most_kg * 1000.0:.4g} g. {_charge_slip(kg)}")
