"""What joins the start winding in and takes it out again: current relay, potential relay, solid-state switch.

A relay is its coil, its contact and two thresholds. The circuit says what the coil carries; `next_closed` says what
the contact then does. The armature's own time, some milliseconds, is left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.checks import check_flag, check_not_negative, check_positive

CLEAN_CONTACT_OHM = 0.02  # illustrative
BURNT_CONTACT_OHM = 60.0  # illustrative: enough to keep a small motor from starting


class Contact(Enum):
    """What state a contact is in."""

    WORKS = "works"
    STUCK_OPEN = "stuck open"
    WELDED = "welded"
    BURNT = "burnt"

    @property
    def ohm(self) -> float:
        """Resistance while it is closed [Ω]."""
        return BURNT_CONTACT_OHM if self is Contact.BURNT else CLEAN_CONTACT_OHM

    @property
    def stays(self) -> bool | None:
        """True where it cannot open, False where it cannot close, None where it is free."""
        return {Contact.WELDED: True, Contact.STUCK_OPEN: False}.get(self)


class Fit(Enum):
    """Whether a relay suits a motor, and if not, why: the value is the sentence."""

    SUITS = "the relay suits the motor"
    NEVER_STARTS = "the relay keeps the start winding out: the motor hums until the overload opens"
    NEVER_RELEASES = "the relay never lets go of the start winding: it heats until the overload opens"
    CHATTERS = "the relay closes again while the motor runs: it opens and closes without end"
    COIL_TOO_HOT = "the coil stands at more volts than it is made for: it burns out"
    CANNOT_TELL = "a threshold lies within the limits of the reading: it cannot be told"


def _check_pair(what: str, pick_up: float, drop_out: float, unit: str) -> None:
    check_positive(f"the pick-up of the {what}", pick_up, unit)
    check_positive(f"the drop-out of the {what}", drop_out, unit)
    if not drop_out < pick_up:
        raise InputError(
            f"the drop-out of the {what} is {drop_out:g} {unit} and its pick-up {pick_up:g} {unit}; "
            "the drop-out must be below the pick-up. Were they swapped?"
        )


def _unsure(value: float, limit: float, threshold: float) -> bool:
    return limit > 0 and abs(value - threshold) <= limit


@dataclass(frozen=True)
class CurrentRelay:
    """A relay whose coil carries the run winding's current; the contact is open at rest and joins the start winding.

    `upside_down`: gravity opens this contact. Turned over, the armature lies on the contacts: they are closed without
    any current, and the coil pulls the same way, so they never open.
    """

    pick_up_a: float
    drop_out_a: float
    coil_ohm: float
    coil_inductance_h: float
    contact: Contact = Contact.WORKS
    coil_open: bool = False
    upside_down: bool = False

    def __post_init__(self) -> None:
        """Refuses a relay that cannot be, by name, value and rule."""
        _check_pair("current relay", self.pick_up_a, self.drop_out_a, "A")
        check_positive("the coil of the current relay", self.coil_ohm, "Ω")
        check_not_negative("the coil's inductance of the current relay", self.coil_inductance_h, "H")
        check_flag("coil_open of the current relay", self.coil_open)

    @property
    def contact_ohm(self) -> float:
        """Resistance of the contact while it is closed [Ω]."""
        return self.contact.ohm

    def next_closed(self, closed: bool, coil_a: float) -> bool:
        """Whether the contact is closed at a coil current.

        At or above pick-up it closes, at or below drop-out it opens, between them it stays as it was.

        Parameters
        ----------
        closed : bool
            Whether it was closed before [-]
        coil_a : float
            RMS current in the coil [A]
        """
        check_not_negative("the current in the relay's coil", coil_a, "A")
        if self.contact.stays is not None:
            return self.contact.stays
        if self.upside_down:
            return True
        pulled = 0.0 if self.coil_open else coil_a
        return pulled > self.drop_out_a if closed else pulled >= self.pick_up_a

    def suits(
        self, locked_a: float, running_a: float, locked_limit_a: float = 0.0, running_limit_a: float = 0.0
    ) -> Fit:
        """Whether a relay with these thresholds suits a motor; faults of this one relay are not looked at.

        Parameters
        ----------
        locked_a, running_a : float
            Current in the run winding with the rotor locked, and running [A]
        locked_limit_a, running_limit_a : float
            How far off the two readings may be [A]

        Returns
        -------
        Fit
            The verdict; never starting goes before never releasing [-]

        Raises
        ------
        InputError
            If a current is not positive, or the motor takes more running than locked.

        Notes
        -----
        A relay that lets go before the motor is up to speed is not found here: that takes the currents against speed.
        """
        check_positive("the locked-rotor current", locked_a, "A")
        check_positive("the running current", running_a, "A")
        check_not_negative("the limit of the locked-rotor current", locked_limit_a, "A")
        check_not_negative("the limit of the running current", running_limit_a, "A")
        if not running_a < locked_a:
            raise InputError(
                f"the running current is {running_a:g} A and the locked-rotor current {locked_a:g} A; "
                "running must be below locked. Were they swapped?"
            )
        if _unsure(locked_a, locked_limit_a, self.pick_up_a):
            return Fit.CANNOT_TELL
        if locked_a < self.pick_up_a:
            return Fit.NEVER_STARTS
        if _unsure(running_a, running_limit_a, self.drop_out_a):
            return Fit.CANNOT_TELL
        return Fit.NEVER_RELEASES if running_a > self.drop_out_a else Fit.SUITS


@dataclass(frozen=True)
class PotentialRelay:
    """A relay whose coil lies across the start winding; the contact is closed at rest and opens as its volts rise."""

    pick_up_v: float
    drop_out_v: float
    coil_ohm: float
    coil_inductance_h: float
    continuous_v: float
    contact: Contact = Contact.WORKS
    coil_open: bool = False

    def __post_init__(self) -> None:
        """Refuses a relay that cannot be, by name, value and rule."""
        _check_pair("potential relay", self.pick_up_v, self.drop_out_v, "V")
        check_positive("the coil of the potential relay", self.coil_ohm, "Ω")
        check_not_negative("the coil's inductance of the potential relay", self.coil_inductance_h, "H")
        check_positive("the continuous rating of the potential relay", self.continuous_v, "V")
        check_flag("coil_open of the potential relay", self.coil_open)
        if not self.continuous_v >= self.pick_up_v:
            raise InputError(
                f"the continuous rating of the potential relay is {self.continuous_v:g} V and its pick-up "
                f"{self.pick_up_v:g} V; the coil must stand its own pick-up. Were they swapped?"
            )

    @property
    def contact_ohm(self) -> float:
        """Resistance of the contact while it is closed [Ω]."""
        return self.contact.ohm

    def next_closed(self, closed: bool, coil_v: float) -> bool:
        """Whether the contact is closed at a voltage on the coil.

        At or above pick-up it opens, at or below drop-out it closes, between them it stays as it was.

        Parameters
        ----------
        closed : bool
            Whether it was closed before [-]
        coil_v : float
            RMS voltage on the coil [V]
        """
        check_not_negative("the voltage on the relay's coil", coil_v, "V")
        if self.contact.stays is not None:
            return self.contact.stays
        pulled = 0.0 if self.coil_open else coil_v
        return pulled < self.pick_up_v if closed else pulled <= self.drop_out_v

    def suits(self, locked_v: float, running_v: float, opened_v: float) -> Fit:
        """Whether a relay with these thresholds suits a motor; faults of this one relay are not looked at.

        Parameters
        ----------
        locked_v : float
            Volts on the start winding with the rotor locked [V]
        running_v : float
            The same up to speed with the contact still closed [V]
        opened_v : float
            The same up to speed with the contact open [V]

        Returns
        -------
        Fit
            The verdict, the first that holds of: never starts, never releases, chatters, coil too hot [-]
        """
        for name, volts in (("locked", locked_v), ("up to speed", running_v), ("with the contact open", opened_v)):
            check_not_negative(f"the voltage on the start winding, {name},", volts, "V")
        if locked_v >= self.pick_up_v:
            return Fit.NEVER_STARTS
        if running_v < self.pick_up_v:
            return Fit.NEVER_RELEASES
        if opened_v <= self.drop_out_v:
            return Fit.CHATTERS
        return Fit.COIL_TOO_HOT if opened_v > self.continuous_v else Fit.SUITS


@dataclass(frozen=True)
class SolidStateSwitch:
    """A timed switch: joins the start winding for a time at power-up, and needs a rest without power before the next.

    `contact` is WORKS, STUCK_OPEN for a switch that failed open, WELDED for one that failed shorted.
    """

    on_time_s: float
    rest_time_s: float
    contact: Contact = Contact.WORKS

    def __post_init__(self) -> None:
        """Refuses a switch that cannot be, by name, value and rule."""
        check_positive("the on time of the solid-state switch", self.on_time_s, "s")
        check_not_negative("the rest time of the solid-state switch", self.rest_time_s, "s")
        if self.contact is Contact.BURNT:
            raise InputError("the solid-state switch has a burnt contact; it has none, so it fails open or shorted")

    def conducts(self, powered: bool, powered_s: float, rested_s: float) -> bool:
        """Whether it joins the start winding in.

        Parameters
        ----------
        powered : bool
            Whether it has power now [-]
        powered_s : float
            For how long it has had power [s]
        rested_s : float
            For how long it had none before that [s]
        """
        check_not_negative("the time with power", powered_s, "s")
        if self.contact.stays is not None:
            return self.contact.stays
        return powered and powered_s < self.on_time_s and rested_s >= self.rest_time_s
