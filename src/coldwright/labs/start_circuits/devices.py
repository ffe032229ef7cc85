"""The start devices by kind: name, what a good one shows at rest, what lets it go, and why."""

from __future__ import annotations

from coldwright.appliance.wiring import ComponentKind

KINDS = {
    ComponentKind.CURRENT_RELAY: ("current relay", "open", "the run amps fall"),
    ComponentKind.POTENTIAL_RELAY: ("potential relay", "closed", "the start volts rise"),
    ComponentKind.PTC: ("PTC", "low ohms", "it heats up"),
    ComponentKind.SOLID_STATE_SWITCH: ("start switch", "open", "its time is over"),
}
NO_DEVICE = ("none", "no device", "it never does")
WHY = {
    "current relay": "Its coil sits in series with the run winding. Gravity holds the contact open at rest; the locked-"
    "rotor amps pull it in, and it drops out as the motor comes up to speed and the run amps fall.",
    "potential relay": "Its coil lies across the start winding. The contact is closed at rest and opens when the volts "
    "on the start winding rise with the speed.",
    "PTC": "Cold it is a few ohms; its own current heats it, and hot it lets next to nothing through until it cools.",
    "start switch": "It joins the start winding for a set time each time power comes; without power it reads open.",
    "none": "A permanent capacitor stays in series with the start winding: nothing switches it.",
}
