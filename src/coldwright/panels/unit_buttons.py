"""What the panel of a whole unit offers: its buttons in groups, and the lists that a person chooses from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coldwright.appliance.unit_circuit import CORD, OUTLET
from coldwright.appliance.wiring import ComponentKind, Wiring
from coldwright.bench.unit_acts import NEXT_TRY, PLACES, WAITS

Options = list[tuple[str, str]]

LISTS = {
    "red": "Red tip (R)",
    "black": "Black tip (B)",
    "charged": "Charged part",
    "component": "Component",
    "spare": "Spare part",
    "wait": "How long",
    "conductor": "Clamp round",
    "place": "Thermometer",
}
SLOW = ("wait", "listen")  # minutes or hours of the unit's time have to be worked out
HOLD_CHARGE = (ComponentKind.START_CAPACITOR, ComponentKind.RUN_CAPACITOR, ComponentKind.INVERTER_BOARD)


@dataclass(frozen=True)
class Button:
    """A button: what it says, and the lists that say what the act is done on."""

    words: str
    lists: tuple[str, ...] = ()


@dataclass(frozen=True)
class Group:
    """Buttons that belong together, by the name of their act."""

    title: str
    buttons: Mapping[str, Button]


TIPS = ("red", "black")
TO_THE_UNIT = (  # the left column
    Group(
        "Make it safe",
        {
            "isolate": Button("Pull the plug, lock it off"),
            "plug in": Button("Take the lock off, plug in"),
            "discharge": Button("Discharge it through a resistor", ("charged",)),
        },
    ),
    Group(
        "Parts",
        {
            "inspect": Button("Look at it", ("component",)),
            "take off": Button("Take it off", ("component",)),
            "put back": Button("Put it back", ("component",)),
            "fit": Button("Fit the spare", ("component", "spare")),
        },
    ),
    Group(
        "Wait, listen, door and knobs",
        {
            "wait": Button("Wait", ("wait",)),
            "listen": Button("Listen for 2 minutes"),
            "open door": Button("Open the door"),
            "shut door": Button("Shut the door"),
            "thermostat off": Button("Thermostat off"),
            "thermostat on": Button("Thermostat on"),
            "advance timer": Button("Turn the defrost timer"),
        },
    ),
)
WITH_INSTRUMENTS = (  # the right column
    Group(
        "Multimeter: choose where the tips go, then read",
        {
            "volts ac": Button("Volts a.c.", TIPS),
            "volts ac low impedance": Button("Volts a.c., low impedance", TIPS),
            "volts dc": Button("Volts d.c.", TIPS),
            "ohms": Button("Ohms", TIPS),
            "continuity": Button("Continuity", TIPS),
            "capacitance": Button("Capacitance", TIPS),
            "amps ac": Button("Amps through the meter", TIPS),
            "zero leads": Button("Zero the leads"),
            "lowest volts": Button("Plug in, keep the lowest volts"),
            "new meter": Button("New meter"),
            "new fuse": Button("New fuse"),
        },
    ),
    Group(
        "Clamp meter and power meter",
        {
            "clamp": Button("Amps in the clamp", ("conductor",)),
            "inrush": Button("Plug in, keep the highest amps", ("conductor",)),
            "watts": Button("Watts"),
            "power factor": Button("Power factor"),
            "kilowatt-hours": Button("Kilowatt-hours"),
            "start test": Button("Start test, devices bypassed"),
        },
    ),
    Group(
        "Insulation and temperature",
        {
            "insulation": Button("Test insulation between the two tips, 500 V d.c.", TIPS),
            "temperature": Button("Read the temperature", ("place",)),
        },
    ),
)


def terminal_words(wiring: Wiring, terminal: str) -> str:
    """A terminal with the component it is on, such as "compressor, pin C"; plug and outlet stand alone.

    Parameters
    ----------
    wiring : Wiring
        The wiring [-]
    terminal : str
        The terminal [-]
    """
    if terminal in OUTLET or terminal.startswith("plug "):
        return terminal
    owner = wiring.owner(terminal).name
    return terminal if terminal.startswith(owner) else f"{owner}, {terminal}"


def options(wiring: Wiring) -> dict[str, Options]:
    """What each list offers on a unit, component by component: words and value; no spares yet.

    Parameters
    ----------
    wiring : Wiring
        The wiring of the unit [-]
    """
    terminals = [(terminal_words(wiring, terminal), terminal) for terminal in (*OUTLET, *wiring.terminals)]
    wires = [(f"wire at {words}", terminal) for words, terminal in terminals[len(OUTLET) :]]
    return {
        "red": terminals,
        "black": terminals,
        "charged": [(component.name, component.name) for component in wiring.of_kind(*HOLD_CHARGE)],
        "component": [(component.name, component.name) for component in wiring.components],
        "spare": [],
        "wait": [("until the next try to start" if name == NEXT_TRY else name, name) for name in WAITS],
        "conductor": [("the whole cord", CORD), *wires],
        "place": [(name, name) for name in PLACES],
    }
