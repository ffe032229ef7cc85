"""Each fault of the lab in the words of its answers, and the component that a new one mends."""

from __future__ import annotations

from coldwright.appliance.unit_faults import FaultName

Remedy = tuple[str, str, str]  # part, what is wrong with it, component to fit new; "" for none
FOUND: dict[FaultName, Remedy] = {
    FaultName.NONE: ("none", "nothing", ""),
    FaultName.RELAY_COIL_OPEN: ("relay", "coil open", "relay"),
    FaultName.RELAY_STUCK_OPEN: ("relay", "contact stuck open", "relay"),
    FaultName.RELAY_WELDED: ("relay", "contact welded", "relay"),
    FaultName.RELAY_UPSIDE_DOWN: ("relay", "upside down", "relay"),
    FaultName.RELAY_WRONG: ("relay", "wrong rating", "relay"),
    FaultName.PTC_OPEN: ("PTC", "open", "PTC"),
    FaultName.PTC_CRACKED: ("PTC", "cracked", "PTC"),
    FaultName.PTC_NOT_COOLED: ("PTC", "does not cool", "PTC"),
    FaultName.START_SWITCH_OPEN: ("start switch", "open", "start switch"),
    FaultName.START_SWITCH_SHORTED: ("start switch", "shorted", "start switch"),
    FaultName.START_CAPACITOR_OPEN: ("start capacitor", "open", "start capacitor"),
    FaultName.START_CAPACITOR_SHORTED: ("start capacitor", "shorted", "start capacitor"),
    FaultName.START_CAPACITOR_LOW: ("start capacitor", "low", "start capacitor"),
    FaultName.RUN_CAPACITOR_OPEN: ("run capacitor", "open", "run capacitor"),
    FaultName.START_WINDING_OPEN: ("start winding", "open", ""),
    FaultName.RUN_WINDING_OPEN: ("run winding", "open", ""),
    FaultName.SEIZED: ("rotor", "seized", ""),
    FaultName.LOW_SUPPLY: ("supply", "low voltage", ""),
    FaultName.OVERLOAD_OPEN: ("overload", "open", "overload"),
}
