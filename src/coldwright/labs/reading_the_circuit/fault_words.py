"""Each fault of lab 02 in the words of its answers, and why the readings say so."""

from __future__ import annotations

from coldwright.appliance.unit_faults import FaultName

F = FaultName
WRONG = {
    F.CORD_OPEN: ("open",),
    F.THERMOSTAT_OPEN: ("stuck open", "open"),
    F.THERMOSTAT_CLOSED: ("stuck closed",),
    F.THERMOSTAT_DRIFTED: ("drifted",),
    F.DOOR_SWITCH_OPEN: ("stuck open", "open"),
    F.DOOR_SWITCH_CLOSED: ("stuck closed",),
    F.CONDENSER_FAN_OPEN: ("open",),
    F.CONDENSER_FAN_SEIZED: ("seized",),
    F.EVAPORATOR_FAN_OPEN: ("open",),
    F.EVAPORATOR_FAN_SEIZED: ("seized",),
    F.LOOSE_CONNECTION: ("loose joint",),
    F.TIMER_STUCK_COOLING: ("stuck at cooling",),
    F.TIMER_STUCK_DEFROST: ("stuck at defrost",),
    F.HEATER_OPEN: ("open",),
    F.TERMINATOR_OPEN: ("stuck open", "open"),
    F.TERMINATOR_CLOSED: ("stuck closed",),
}
WHY = {
    F.CORD_OPEN: "there is supply at the outlet and none behind the cord; plug L to cord L reads OL",
    F.THERMOSTAT_OPEN: "it reads OL turned on, and still does when the cabinet is as warm as the room",
    F.THERMOSTAT_CLOSED: "it still reads near zero with its knob turned off",
    F.THERMOSTAT_DRIFTED: "it is open in a cabinet where it should close, and closes in a warmer one",
    F.DOOR_SWITCH_OPEN: "it does not read near zero with the door open either",
    F.DOOR_SWITCH_CLOSED: "it reads near zero with the door shut as well, so the lamp burns all night",
    F.CONDENSER_FAN_OPEN: "its winding reads OL, taken off",
    F.CONDENSER_FAN_SEIZED: "its winding is whole and current flows in it, but its blades stand still",
    F.EVAPORATOR_FAN_OPEN: "its winding reads OL, taken off",
    F.EVAPORATOR_FAN_SEIZED: "its winding is whole and current flows in it, but its blades stand still",
    F.LOOSE_CONNECTION: "all parts are good, and volts stand across a joint where there should be none",
    F.TIMER_STUCK_COOLING: "turned by hand, its contact goes back to timer 4 and never stays at timer 2",
    F.TIMER_STUCK_DEFROST: "it joins timer 1 with timer 2, and turned by hand it still does",
    F.HEATER_OPEN: "its ohms are OL, taken off, while volts get to it in a defrost",
    F.TERMINATOR_OPEN: "it reads OL although the evaporator is cold",
    F.TERMINATOR_CLOSED: "it still reads near zero when the evaporator is warm",
}
