"""A clip probe on a pipe: it lags, and it reads some way from the pipe toward the air around it.

A cold suction pipe reads too warm and a hot discharge pipe too cold, the more so the worse the contact.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum

from coldwright.errors import InputError
from coldwright.instruments.display import Display, Error
from coldwright.instruments.service_events import ServiceEvent
from coldwright.instruments.thermometer import read_temperature

LAG_S = 20.0  # illustrative
STANDS_STILL_K = 0.1
_LEAST_K, _MOST_K = 150.0, 600.0


class Contact(Enum):
    """How the probe sits; the value is the share of the way to the air that it reads off (illustrative)."""

    INSULATED = 0.02
    CLIPPED = 0.06
    LOOSE = 0.25


@dataclass
class ContactThermometer:
    """One clip probe: where it stands within its accuracy, and its own temperature in K."""

    probe_k: float = 293.15
    error: Error = field(default_factory=Error)
    lag_s: float = LAG_S

    def settle(self, surface_k: float, air_k: float, seconds: float, contact: Contact = Contact.CLIPPED) -> None:
        """Leaves the probe on a surface for some time.

        Parameters
        ----------
        surface_k : float
            True temperature of the surface, steady meanwhile [K]
        air_k : float
            Temperature of the air around it [K]
        seconds : float
            How long, zero or more [s]
        contact : Contact
            How it sits [-]

        Raises
        ------
        InputError
            If a temperature or the time is outside its bounds.
        """
        _check("the surface", surface_k)
        _check("the air", air_k)
        if not seconds >= 0:
            raise InputError(f"the time on the pipe is {seconds:g} s; it must be zero or more")
        end = seen_temperature(surface_k, air_k, contact)
        self.probe_k = end + (self.probe_k - end) * math.exp(-seconds / self.lag_s)

    def read(
        self, surface_k: float, air_k: float, contact: Contact = Contact.CLIPPED
    ) -> tuple[Display, tuple[ServiceEvent, ...]]:
        """What the probe shows now, and whether it was read too soon; text in °C, value and limit in K.

        The limit takes in the accuracy of the thermometer and what the contact may do; it holds once it stands still.

        Parameters
        ----------
        surface_k : float
            True temperature of the surface [K]
        air_k : float
            Temperature of the air around it [K]
        contact : Contact
            How it sits [-]
        """
        _check("the surface", surface_k)
        _check("the air", air_k)
        shown = read_temperature(self.probe_k, self.error)
        limit = shown.limit + contact_limit(shown.value, air_k, contact)
        moving = abs(self.probe_k - seen_temperature(surface_k, air_k, contact)) > STANDS_STILL_K
        events = (ServiceEvent.PROBE_NOT_SETTLED,) if moving else ()
        return Display(shown.text, shown.value, limit, shown.resolution), events


def seen_temperature(surface_k: float, air_k: float, contact: Contact) -> float:
    """Temperature that a probe comes to on a surface.

    Parameters
    ----------
    surface_k, air_k : float
        Temperatures of the surface and of the air around it [K]
    contact : Contact
        How it sits [-]

    Returns
    -------
    float
        Temperature [K]
    """
    return surface_k + contact.value * (air_k - surface_k)


def contact_limit(shown_k: float, air_k: float, contact: Contact) -> float:
    """Most that the contact can be off, from what is shown.

    Parameters
    ----------
    shown_k, air_k : float
        What the probe shows and the temperature of the air [K]
    contact : Contact
        How it sits [-]

    Returns
    -------
    float
        Limit; nothing where pipe and air have the same temperature [K]
    """
    return contact.value / (1.0 - contact.value) * abs(air_k - shown_k)


def time_to_settle(away_k: float, within_k: float = STANDS_STILL_K, lag_s: float = LAG_S) -> float:
    r"""Time until a probe stands still.

    .. math:: t = \tau \ln (\Delta_0 / \Delta)

    Parameters
    ----------
    away_k : float
        How far the probe is from where it comes to [K]
    within_k : float
        How near it must come, above zero [K]
    lag_s : float
        Its lag, above zero [s]

    Returns
    -------
    float
        Time, 0 if it is there already [s]

    Raises
    ------
    InputError
        If the nearness or the lag is not above zero.
    """
    if not within_k > 0:
        raise InputError(f"the probe is to come within {within_k:g} K; that must be above zero, for it never ends")
    if not lag_s > 0:
        raise InputError(f"the lag of the probe is {lag_s:g} s; it must be above zero")
    return max(0.0, lag_s * math.log(max(abs(away_k), within_k) / within_k))


def _check(name: str, kelvin: float) -> None:
    if not _LEAST_K <= kelvin <= _MOST_K:
        slip = ". Was it typed in °C?" if -60.0 <= kelvin < _LEAST_K else ""
        raise InputError(f"the temperature of {name} is {kelvin:g} K; it must be {_LEAST_K:g} K to {_MOST_K:g} K{slip}")
