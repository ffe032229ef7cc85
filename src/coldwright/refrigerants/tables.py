"""Tables of one refrigerant, worked out by CoolProp: columns of saturation in ln P, and a grid of vapour above them."""

from __future__ import annotations

import math

from coldwright.refrigerants.coolprop import Fluid, Side, fluid_of
from coldwright.refrigerants.kernels import Tables

LEAST_PA = 1000.0  # a system under the pump or nearly empty is far below the atmosphere
MOST_OF_CRITICAL = 0.93
ROWS, COLUMNS = 321, 41
TYPICAL_PA = 3e5
HOTTEST_K = 130.0  # how far the grid of vapour reaches above dew


def build_tables(refrigerant: str) -> Tables:
    """Tables of a refrigerant, worked out anew; takes a second or two.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    Tables
        In lists, for plain Python [-]
    """
    fluid = fluid_of(refrigerant)
    low = math.log(max(LEAST_PA, 1.001 * fluid.least_pressure_pa, 1.001 * fluid.least_dew_pa))
    step = (math.log(MOST_OF_CRITICAL * fluid.critical_pressure_pa) - low) / (ROWS - 1)
    pressures = [math.exp(low + step * row) for row in range(ROWS)]
    above_step = HOTTEST_K * fluid.at_quality(TYPICAL_PA, 1.0).cp / (COLUMNS - 1)
    rows = [_saturation_row(fluid, p) for p in pressures]
    grid = [_vapour_row(fluid, p, row[3], above_step) for p, row in zip(pressures, rows, strict=True)]
    columns = [[row[n] for row in rows] for n in range(len(rows[0]))]
    over = [[value for row in grid for value in row[n]] for n in range(3)]
    return Tables(low, step, ROWS, above_step, COLUMNS, *columns, *over)


def _saturation_row(fluid: Fluid, pressure: float) -> tuple[float, ...]:
    """The columns of `Tables` from bubble temperature to heat capacity of vapour, at one pressure."""
    liquid, vapour, moving = fluid.at_quality(pressure, 0.0), fluid.at_quality(pressure, 1.0), fluid.transport(pressure)
    return (
        liquid.temperature,
        vapour.temperature,
        liquid.enthalpy,
        vapour.enthalpy,
        1.0 / liquid.density,
        pressure / vapour.density,
        moving.liquid_viscosity,
        moving.vapour_viscosity,
        liquid.cp,
        vapour.cp,
    )


def _vapour_row(
    fluid: Fluid, pressure: float, dry_h: float, above_step: float
) -> tuple[list[float], list[float], list[float]]:
    """Temperatures, P·v and entropies along one pressure."""
    points = [fluid.at_quality(pressure, 1.0)]
    points += [fluid.at_enthalpy(pressure, dry_h + above_step * n, Side.VAPOUR) for n in range(1, COLUMNS)]
    return (
        [each.temperature for each in points],
        [pressure / each.density for each in points],
        [each.entropy for each in points],
    )
