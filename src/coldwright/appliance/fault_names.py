"""Names of what can be wrong with a unit, and one fault with its size."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError


class FaultName(Enum):
    """What is wrong, in the trade's words."""

    NONE = "no fault"
    CORD_OPEN = "open cord"
    EARTH_LOST = "earth lost"
    THERMOSTAT_OPEN = "thermostat stuck open"
    THERMOSTAT_CLOSED = "thermostat stuck closed"
    THERMOSTAT_DRIFTED = "thermostat drifted"
    DOOR_SWITCH_OPEN = "door switch stuck open"
    DOOR_SWITCH_CLOSED = "door switch stuck closed"
    CONDENSER_FAN_OPEN = "condenser fan open"
    CONDENSER_FAN_SEIZED = "condenser fan seized"
    EVAPORATOR_FAN_OPEN = "evaporator fan open"
    EVAPORATOR_FAN_SEIZED = "evaporator fan seized"
    RELAY_COIL_OPEN = "relay coil open"
    RELAY_STUCK_OPEN = "relay contacts stuck open"
    RELAY_WELDED = "relay contacts welded"
    RELAY_UPSIDE_DOWN = "relay upside down"
    RELAY_WRONG = "relay of the wrong rating"
    PTC_OPEN = "PTC open"
    PTC_CRACKED = "PTC cracked"
    PTC_NOT_COOLED = "PTC not cooled"
    START_SWITCH_OPEN = "start switch open"
    START_SWITCH_SHORTED = "start switch shorted"
    START_CAPACITOR_OPEN = "start capacitor open"
    START_CAPACITOR_SHORTED = "start capacitor shorted"
    START_CAPACITOR_LOW = "start capacitor low"
    START_CAPACITOR_LEAKY = "start capacitor leaky"
    START_CAPACITOR_WRONG_VALUE = "start capacitor of the wrong value"
    START_CAPACITOR_WRONG_VOLTAGE = "start capacitor of the wrong voltage"
    RUN_CAPACITOR_OPEN = "run capacitor open"
    RUN_CAPACITOR_SHORTED = "run capacitor shorted"
    RUN_CAPACITOR_LOW = "run capacitor low"
    RUN_CAPACITOR_LEAKY = "run capacitor leaky"
    RUN_CAPACITOR_WRONG_VALUE = "run capacitor of the wrong value"
    RUN_CAPACITOR_WRONG_VOLTAGE = "run capacitor of the wrong voltage"
    OVERLOAD_OPEN = "overload open"
    OVERLOAD_WEAK = "overload weak"
    OVERLOAD_WRONG = "overload of the wrong rating"
    RUN_WINDING_OPEN = "run winding open"
    START_WINDING_OPEN = "start winding open"
    RUN_WINDING_SHORTED = "shorted turns, run winding"
    START_WINDING_SHORTED = "shorted turns, start winding"
    GROUNDED = "grounded winding"
    SEIZED = "seized rotor"
    LOW_SUPPLY = "low supply voltage"
    LOOSE_CONNECTION = "loose connection"
    TIMER_STUCK_COOLING = "defrost timer stuck at cooling"
    TIMER_STUCK_DEFROST = "defrost timer stuck at defrost"
    HEATER_OPEN = "defrost heater open"
    TERMINATOR_OPEN = "defrost terminator stuck open"
    TERMINATOR_CLOSED = "defrost terminator stuck closed"


@dataclass(frozen=True)
class UnitFault:
    """One fault, its size from 0 to 1, and the terminal whose joint is loose."""

    name: FaultName = FaultName.NONE
    size: float = 0.5
    terminal: str = ""

    def __post_init__(self) -> None:
        if not 0 <= self.size <= 1:
            raise InputError(f"the size of a fault is {self.size:g}; it must be from 0 to 1")

    def between(self, low: float, high: float) -> float:
        """A number from low to high by the fault's size.

        Parameters
        ----------
        low, high : float
            Ends of the span [any]
        """
        return low + (high - low) * self.size
