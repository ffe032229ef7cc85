"""Heat made inside the cabinet: fan, lamp, defrost heater and door heaters, as mean powers."""

from __future__ import annotations

from typing import NamedTuple

from coldwright.cabinet.checks import KILOWATTS, MILLIWATTS, PERCENT, check_between

DAY_S = 86400.0
MOST_FAN_W, MOST_LAMP_W, MOST_HEATER_W = 200.0, 200.0, 2000.0


class Defrost(NamedTuple):
    """A defrost heater: its power [W], how long it is on each time [s], how often a day, the share that stays inside.

    The rest of its heat melts frost and leaves with the water.
    """

    heater_w: float
    on_s: float
    times_a_day: float
    stays: float = 0.8


def fan_heat(watts: float, running_share: float = 1.0) -> float:
    """Heat of a fan in the cabinet: all of its electric power ends there.

    Parameters
    ----------
    watts : float
        Electric power while it turns [W]
    running_share : float
        Share of the time that it turns, 0 to 1 [1]

    Returns
    -------
    float
        Mean heat [W]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    check_between("the power of the fan", watts, "W", 0.1, MOST_FAN_W, KILOWATTS, MILLIWATTS)
    check_between("the running share of the fan", running_share, "", 0.0, 1.0, PERCENT)
    return watts * running_share


def lamp_heat(watts: float, open_s_a_day: float, switch_stuck_on: bool = False) -> float:
    """Mean heat of the lamp: on with the door open, or always where the door switch is stuck.

    Parameters
    ----------
    watts : float
        Power of the lamp [W]
    open_s_a_day : float
        Seconds of a day that the door is open [s]
    switch_stuck_on : bool
        Whether it stays on with the door closed [-]

    Returns
    -------
    float
        Mean heat [W]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    check_between("the power of the lamp", watts, "W", 0.1, MOST_LAMP_W, KILOWATTS, MILLIWATTS)
    check_between("the time that the door is open in a day", open_s_a_day, "s", 0.0, DAY_S)
    return watts if switch_stuck_on else watts * open_s_a_day / DAY_S


def defrost_heat(defrost: Defrost) -> float:
    """Mean heat that a defrost heater leaves in the cabinet.

    Parameters
    ----------
    defrost : Defrost
        The heater and how it is run [-]

    Returns
    -------
    float
        Mean heat [W]

    Raises
    ------
    InputError
        If a value is outside its span, or it is on for more than the day.
    """
    check_between("the power of the defrost heater", defrost.heater_w, "W", 1.0, MOST_HEATER_W, KILOWATTS)
    check_between("the share of the defrost heat that stays inside", defrost.stays, "", 0.0, 1.0, PERCENT)
    check_between("the defrosts in a day", defrost.times_a_day, "", 0.0, 48.0)
    on_a_day = defrost.on_s * defrost.times_a_day
    check_between("the time that the defrost heater is on in a day", on_a_day, "s", 0.0, DAY_S)
    return defrost.heater_w * defrost.stays * on_a_day / DAY_S
