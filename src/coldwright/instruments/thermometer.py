"""A contact thermometer with a clip probe: tenths of a degree, made up for the course."""

from __future__ import annotations

from coldwright.instruments.display import Display, Error, Range, show
from coldwright.quantities.constants import ICE_POINT_K

RANGE = Range(full_scale=600.0, resolution=0.1, percent=0.0, digits=5)
PLACES = {
    "room": "free in the air, away from the condenser and out of the sun",
    "shell": "clipped to the side of the compressor's shell",
    "cabinet": "free in the air in the middle of the cabinet, door shut",
    "evaporator": "clipped to the evaporator, away from the heater",
    "overload": "clipped to the case of the overload, plug pulled",
}


def read_temperature(true_k: float, error: Error) -> Display:
    """Temperature shown for a surface at a true temperature.

    Parameters
    ----------
    true_k : float
        True temperature of the surface [K]
    error : Error
        Where this thermometer stands within its accuracy [-]

    Returns
    -------
    Display
        Text in °C; value and limit in K.
    """
    shown = show(true_k - ICE_POINT_K, RANGE, error, lambda v, _r: f"{v:.1f} °C")
    return Display(shown.text, shown.value + ICE_POINT_K, shown.limit, shown.resolution)


def limit_of_temperature() -> tuple[float, float]:
    """Accuracy limit and resolution of this thermometer, the same wherever it reads [K]."""
    return RANGE.limit(0.0), RANGE.resolution
