"""Food: heat to cool and to freeze it, and the heat that fruit and vegetables give off while they live."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.cabinet.checks import GRAMS, KILOJOULES, PERCENT, Slip, check_between, check_temperature
from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K

MOST_KG = 2000.0
WATTS_A_TONNE = Slip("W/t", 1e-3)
Q10 = 2.5  # respiration grows two to three times for each 10 K (read on a public page on food processing)


@dataclass(frozen=True)
class Food:
    """Specific heat above and below freezing [J/(kg K)], latent heat [J/kg], where it freezes [K]."""

    name: str
    above: float
    below: float
    latent: float
    freezes_k: float

    def __post_init__(self) -> None:
        """Refuses a food that cannot be, by name, value and rule."""
        for where, heat in (("above", self.above), ("below", self.below)):
            name = f"the specific heat of {self.name} {where} freezing"
            check_between(name, heat, "J/(kg K)", 500.0, 4500.0, KILOJOULES)
        check_between(f"the latent heat of {self.name}", self.latent, "J/kg", 0.0, 3.4e5, KILOJOULES)
        check_temperature(f"the freezing point of {self.name}", self.freezes_k, ICE_POINT_K - 30.0, ICE_POINT_K)


def _food(name: str, above: float, below: float, latent: float, freezes_c: float) -> Food:
    return Food(name, above * 1e3, below * 1e3, latent * 1e3, ICE_POINT_K + freezes_c)


# Heats: Earle, Unit Operations in Food Processing, appendix 7 (read there). Freezing points: from memory.
FOODS = {
    food.name: food
    for food in (
        _food("apples", 3.60, 1.88, 280, -1.1),
        _food("bananas", 3.35, 1.76, 255, -0.8),
        _food("carrots", 3.60, 1.88, 293, -1.4),
        _food("beef", 3.22, 1.67, 255, -1.7),
        _food("fish", 3.18, 1.67, 276, -2.2),
        _food("pork", 2.85, 1.59, 197, -1.7),
        _food("milk", 3.9, 2.05, 289, -0.5),
        _food("ice cream", 3.3, 1.88, 222, -5.6),
        _food("beer", 4.19, 2.01, 301, -2.2),
        _food("water", 4.19, 2.1, 335, 0.0),  # the estimate below at 100 % water
    )
}

# W/kg near 0 °C: "cool" column of an NC State University table after USDA Handbook 66, 1986 (read there), 1 Btu/(lb h)
# being 0.64611 W/kg (2326 J/kg each 3600 s). The table gives no temperature for "cool"; 0 °C is taken.
RESPIRATION_COOL = {
    name: btu_per_lb_h * 2326.0 / 3600.0
    for name, btu_per_lb_h in (
        ("apples", 0.012),
        ("cabbage", 0.023),
        ("potatoes", 0.028),
        ("strawberries", 0.069),
        ("sweet corn", 0.186),
        ("tomatoes", 0.067),
    )
}


def food_named(name: str) -> Food:
    """The food of that name.

    Parameters
    ----------
    name : str
        Such as "milk" [-]

    Raises
    ------
    InputError
        If it is not in the list; the message gives the list.
    """
    found = FOODS.get(name.strip().lower())
    if found is None:
        raise InputError(f"no food {name!r} is known; known are {', '.join(FOODS)}, or estimate it from its water")
    return found


def estimated_food(name: str, water: float, freezes_k: float = ICE_POINT_K - 2.0) -> Food:
    r"""Food estimated from its water alone, p in per cent.

    .. math:: c = 4.19 p/100 + 0.84 (100-p)/100, \quad c' = 2.1 p/100 + 0.84 (100-p)/100, \quad L = 335 p/100

    Parameters
    ----------
    name : str
        What to call it [-]
    water : float
        Share of water by mass, 0 to 1 [1]
    freezes_k : float
        Where it freezes [K]

    Returns
    -------
    Food
        Heats in J/(kg K) and J/kg [-]

    Raises
    ------
    InputError
        If the share is outside 0 to 1.

    References
    ----------
    .. [1] Earle, *Unit Operations in Food Processing*, appendix 7 (read there).
    """
    check_between(f"the share of water in {name}", water, "", 0.0, 1.0, PERCENT)
    dry = 0.84e3 * (1.0 - water)
    return Food(name, 4.19e3 * water + dry, 2.1e3 * water + dry, 3.35e5 * water, freezes_k)


def heat_to_cool(food: Food, mass_kg: float, from_k: float, to_k: float) -> float:
    """Heat to take out of food to bring it from one temperature to another, freezing included; negative if it warms.

    Parameters
    ----------
    food : Food
        What it is [-]
    mass_kg : float
        How much [kg]
    from_k, to_k : float
        Temperatures at the beginning and at the end [K]

    Returns
    -------
    float
        Heat [J]

    Raises
    ------
    InputError
        If a value is outside its span.

    Notes
    -----
    All of it freezes at one temperature here; real food freezes little by little below it.
    """
    check_mass(food.name, mass_kg)
    for name, kelvin in (("at first", from_k), ("at the end", to_k)):
        check_temperature(f"the temperature of {food.name} {name}", kelvin, 213.15, 373.15)
    return mass_kg * (_above_freezing(food, from_k) - _above_freezing(food, to_k))


def mean_product_load(food: Food, kg_a_day: float, from_k: float, to_k: float) -> float:
    """Mean power over a day to cool what is put in each day.

    Parameters
    ----------
    food : Food
        What it is [-]
    kg_a_day : float
        How much is put in each day [kg]
    from_k, to_k : float
        Temperatures at the beginning and at the end [K]

    Returns
    -------
    float
        Mean power [W]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    return heat_to_cool(food, kg_a_day, from_k, to_k) / 86400.0


def respiration_heat(mass_kg: float, cool_w_per_kg: float, temperature_k: float, q10: float = Q10) -> float:
    r"""Heat that living fruit or vegetables give off.

    .. math:: P = m \, w_0 \, q_{10}^{(T - 273.15)/10}

    Parameters
    ----------
    mass_kg : float
        How much [kg]
    cool_w_per_kg : float
        What a kilogram gives off at 0 °C [W/kg]
    temperature_k : float
        Temperature [K]
    q10 : float
        How many times as much for each 10 K [1]

    Returns
    -------
    float
        Power [W]

    Raises
    ------
    InputError
        If a value is outside its span.

    Notes
    -----
    From 0 °C to 30 °C. What has frozen or was cooked gives off nothing.
    """
    check_mass("the produce", mass_kg)
    check_between("the heat of respiration", cool_w_per_kg, "W/kg", 0.0, 0.5, WATTS_A_TONNE)
    check_between("the growth of respiration for 10 K", q10, "", 1.0, 5.0)
    check_temperature("the temperature of the produce", temperature_k)
    return mass_kg * cool_w_per_kg * q10 ** ((temperature_k - ICE_POINT_K) / 10.0)


def check_mass(name: str, mass_kg: float) -> None:
    """Refuse a mass that no small cooler holds.

    Parameters
    ----------
    name : str
        What it is [-]
    mass_kg : float
        Mass [kg]

    Raises
    ------
    InputError
        If the mass is outside its span; grams are named as the likely slip.
    """
    check_between(f"the mass of {name}", mass_kg, "kg", 0.0, MOST_KG, GRAMS)


def _above_freezing(food: Food, kelvin: float) -> float:
    """Heat content of a kilogram, zero where it is about to freeze [J/kg]."""
    if kelvin >= food.freezes_k:
        return food.above * (kelvin - food.freezes_k)
    return -food.latent - food.below * (food.freezes_k - kelvin)
