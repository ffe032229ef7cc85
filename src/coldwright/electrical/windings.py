"""Windings by resistance: the temperature of a winding, and its resistance at another temperature.

The resistance of a metal winding rises in a straight line with temperature over the span a motor meets. Drawn back,
the line meets zero resistance at one temperature for each metal, and that temperature is all the formulas need.
"""

from __future__ import annotations

from enum import Enum

from coldwright.quantities.checks import check_positive
from coldwright.quantities.constants import ICE_POINT_K

REFERENCE_K = 293.15  # 20 °C, the temperature that makers' data are given at


class Conductor(Enum):
    """Metal of a winding; the value is k, the constant of the resistance method [°C].

    234.5 for copper and 225 for aluminium stand in the clause on temperature rise of a UL-series device standard (read
    there) and in IEC 60335-1, 11.3 (from memory). IEC 60034-1 rounds copper to 235 (from memory); on a rise of 60 K the
    difference is 0.1 K.
    """

    COPPER = 234.5
    ALUMINIUM = 225.0

    @property
    def zero_resistance_k(self) -> float:
        """Temperature at which the straight line meets zero resistance [K]."""
        return ICE_POINT_K - self.value


def resistance_at(
    resistance: float,
    temperature_k: float,
    wanted_k: float = REFERENCE_K,
    conductor: Conductor = Conductor.COPPER,
) -> float:
    r"""Resistance the same winding has at another temperature.

    .. math:: R_w = R \, \frac{k + t_w}{k + t}

    Parameters
    ----------
    resistance : float
        Measured resistance, positive [Ω]
    temperature_k : float
        Temperature of the winding while it was measured [K]
    wanted_k : float
        Temperature to correct to, 20 °C unless told [K]
    conductor : Conductor
        Metal of the winding [-]

    Returns
    -------
    float
        Resistance at the wanted temperature [Ω]

    Raises
    ------
    InputError
        If the resistance is not positive or a temperature is below the zero of the line.

    Notes
    -----
    Straight line: for winding copper within 0.1 % of the CRC Handbook's table from 0 °C to 100 °C; aluminium, whose k
    is rounded, within 0.4 %.

    References
    ----------
    .. [1] IEC 60335-1, *Household and similar electrical appliances: Safety*, clause 11.3 (from memory).

    Examples
    --------
    >>> round(resistance_at(11.6, 273.15 + 35.0), 3)
    10.954
    """
    check_positive("the resistance", resistance, "Ω")
    zero = conductor.zero_resistance_k
    check_positive("the winding's temperature", temperature_k, "K", above=zero)
    check_positive("the wanted temperature", wanted_k, "K", above=zero)
    return resistance * (wanted_k - zero) / (temperature_k - zero)


def winding_temperature(
    hot_resistance: float,
    cold_resistance: float,
    cold_k: float,
    conductor: Conductor = Conductor.COPPER,
) -> float:
    r"""Mean temperature of a winding from its resistance hot and cold.

    .. math:: t_h = \frac{R_h}{R_c} (k + t_c) - k

    Parameters
    ----------
    hot_resistance : float
        Resistance at the unknown temperature, positive [Ω]
    cold_resistance : float
        Resistance of the same winding, cold, positive [Ω]
    cold_k : float
        Temperature of the winding when cold [K]
    conductor : Conductor
        Metal of the winding [-]

    Returns
    -------
    float
        Mean temperature of the winding [K]

    Raises
    ------
    InputError
        If a resistance is not positive or the temperature is below the zero of the line.

    Notes
    -----
    The mean over the whole winding; its hottest spot is some 5 K to 15 K above (common practice, no source).
    """
    check_positive("the hot resistance", hot_resistance, "Ω")
    check_positive("the cold resistance", cold_resistance, "Ω")
    zero = conductor.zero_resistance_k
    check_positive("the cold temperature", cold_k, "K", above=zero)
    return zero + hot_resistance / cold_resistance * (cold_k - zero)


def temperature_rise(
    cold_resistance: float,
    hot_resistance: float,
    start_ambient_k: float,
    end_ambient_k: float,
    conductor: Conductor = Conductor.COPPER,
) -> float:
    r"""Temperature rise of a winding over the room, by resistance.

    .. math:: \Delta t = \frac{R_2 - R_1}{R_1} (k + t_1) - (t_2 - t_1)

    Parameters
    ----------
    cold_resistance : float
        Resistance at the start, winding at room temperature, positive [Ω]
    hot_resistance : float
        Resistance at the end, hot, positive [Ω]
    start_ambient_k : float
        Room temperature at the start [K]
    end_ambient_k : float
        Room temperature at the end [K]
    conductor : Conductor
        Metal of the winding [-]

    Returns
    -------
    float
        Rise over the room as it is at the end; negative if the winding is colder [K]

    Raises
    ------
    InputError
        If a resistance is not positive or a temperature is below the zero of the line.

    References
    ----------
    .. [1] IEC 60335-1, *Household and similar electrical appliances: Safety*, clause 11.3 (from memory).
    """
    return winding_temperature(hot_resistance, cold_resistance, start_ambient_k, conductor) - end_ambient_k
