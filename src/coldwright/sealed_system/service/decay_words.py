"""The reasons that a decay test is read with, in plain words."""

from __future__ import annotations

from coldwright.quantities import Kind, in_unit, to_si

MICRON_PA = to_si(1.0, Kind.PRESSURE_ABSOLUTE, "micron")
FALLS = "the pressure falls. Is the valve at the pump shut? Did the system cool down?"


def microns(pascal: float) -> str:
    """A pressure in microns, three digits that count.

    Parameters
    ----------
    pascal : float
        Absolute pressure [Pa]
    """
    number = in_unit(pascal, Kind.PRESSURE_ABSOLUTE, "micron")
    return f"{float(f'{number:.3g}'):.0f} microns" if number >= 100 else f"{number:.2g} microns"


def rate(pascal_per_s: float) -> str:
    """A rise in microns a minute.

    Parameters
    ----------
    pascal_per_s : float
        Rise [Pa/s]
    """
    number = in_unit(60 * pascal_per_s, Kind.PRESSURE_ABSOLUTE, "micron")
    return f"{float(f'{number:.2g}'):g} microns a minute"


def still_open(end: float, slope: float, water_pa: float) -> str:
    """Why it cannot be told yet.

    Parameters
    ----------
    end : float
        Pressure at the end [Pa]
    slope : float
        Rise over the last half [Pa/s]
    water_pa : float
        Vapour pressure of water [Pa]
    """
    wait = ""
    if slope > 0 and end < water_pa:
        minutes = (water_pa - end) / slope / 60
        wait = f" In a straight line it would pass that in {float(f'{minutes:.1g}'):.0f} minutes; a bend shows sooner."
    return (
        f"the pressure has come to {microns(end)} and still rises; water would level off at {microns(water_pa)}.{wait} "
        "It may be a leak, water, or gas from the oil or from behind the capillary. Go on reading until a level or a "
        "straight line shows."
    )


def quicker(end: float, water_pa: float) -> str:
    """Why a rise that gets quicker cannot be told yet.

    Parameters
    ----------
    end : float
        Pressure at the end [Pa]
    water_pa : float
        Vapour pressure of water [Pa]
    """
    return (
        f"the pressure has come to {microns(end)} and rises quicker than before. Ice that has melted does so, and so "
        f"does a system that gets warm; water would level off at {microns(water_pa)}. Go on reading."
    )


def leak(least: float, most: float, above_water: bool, water_pa: float) -> str:
    """Why it is a leak.

    Parameters
    ----------
    least, most : float
        Bounds of the rise [Pa/s]
    above_water : bool
        Whether the pressure went above that of water [-]
    water_pa : float
        Vapour pressure of water [Pa]
    """
    above = f" It is above the {microns(water_pa)} of water, so water alone cannot be it." if above_water else ""
    return (
        f"it goes on rising in a straight line, by {rate(least)} to {rate(most)}, and comes to no level.{above} Look "
        "first at the hoses and fittings of the gauge. Then break the vacuum with dry nitrogen and find the leak."
    )


def hidden(most: float) -> str:
    """What such a test cannot see.

    Parameters
    ----------
    most : float
        Largest rise that is not ruled out [Pa/s]
    """
    return f" A leak that gives less than {rate(most)} does not show here: that takes the pressure test."


def _levels(level: float, limit: float) -> str:
    return f"it levels off at {microns(level)} ± {microns(limit)}"


def cold(level: float, limit: float, water_pa: float) -> str:
    """Why a cold system cannot be told.

    Parameters
    ----------
    level, limit : float
        Level with its ± [Pa]
    water_pa : float
        Vapour pressure of water or ice [Pa]
    """
    return (
        f"{_levels(level, limit)}, but water or ice at this temperature has only {microns(water_pa)}. "
        "A cold system hides its water. Warm it and test again."
    )


def tight(level: float, limit: float, line: float, water_pa: float) -> str:
    """Why it is tight and dry.

    Parameters
    ----------
    level, limit : float
        Level with its ± [Pa]
    line : float
        Level below which it passes [Pa]
    water_pa : float
        Vapour pressure of water [Pa]
    """
    return f"{_levels(level, limit)}, below {microns(line)} and far below the {microns(water_pa)} of water."


def water(level: float, limit: float, water_pa: float) -> str:
    """Why it is water.

    Parameters
    ----------
    level, limit : float
        Level with its ± [Pa]
    water_pa : float
        Vapour pressure of water [Pa]
    """
    return (
        f"{_levels(level, limit)}. Water at this temperature has {microns(water_pa)}: there is water in it. Break the "
        "vacuum with dry nitrogen, warm the system, fit a new drier and evacuate again."
    )


def melting(level: float, limit: float, water_pa: float) -> str:
    """Why a level at 0 °C cannot be told yet.

    Parameters
    ----------
    level, limit : float
        Level with its ± [Pa]
    water_pa : float
        Vapour pressure of water [Pa]
    """
    return (
        f"{_levels(level, limit)}. That is where melting ice stands, 4590 microns, and gas could by chance. Ice goes "
        f"on to {microns(water_pa)} once it has melted. Warm the system and go on reading."
    )


def near_the_line(level: float, limit: float, line: float) -> str:
    """Why a level at the line cannot be told.

    Parameters
    ----------
    level, limit : float
        Level with its ± [Pa]
    line : float
        Level below which it passes [Pa]
    """
    return f"{_levels(level, limit)}, too near the {microns(line)} that must be kept. Go on reading."


def other_gas(level: float, limit: float, water_pa: float) -> str:
    """Why it is some other gas.

    Parameters
    ----------
    level, limit : float
        Level with its ± [Pa]
    water_pa : float
        Vapour pressure of water [Pa]
    """
    return (
        f"{_levels(level, limit)}. That is neither tight nor the {microns(water_pa)} of water. Refrigerant comes out "
        "of the oil, the side behind the capillary was not empty, or the last of some water is gone. Evacuate longer, "
        "from both sides if you can, with the oil warm."
    )
