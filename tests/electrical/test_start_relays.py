"""Relays and the timed switch: hysteresis, failures, whether they suit a motor, and what is refused.

Thresholds here are of the size that small coolers have: common practice, no source.
"""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coldwright.electrical.start_relays import Contact, CurrentRelay, Fit, PotentialRelay, SolidStateSwitch
from coldwright.errors import InputError

CURRENT = CurrentRelay(pick_up_a=8.6, drop_out_a=7.3, coil_ohm=0.12, coil_inductance_h=0.0004)
POTENTIAL = PotentialRelay(175.0, 65.0, 1600.0, 8.0, continuous_v=220.0)
SWITCH = SolidStateSwitch(on_time_s=0.6, rest_time_s=60.0)
AMPS, VOLTS = st.floats(0.0, 40.0), st.floats(0.0, 500.0)
EITHER = st.booleans()


def run(relay, closed: bool, values) -> list[bool]:
    """The contact after each value on the coil."""
    return list(itertools.accumulate(values, relay.next_closed, initial=closed))[1:]


def test_a_start_with_a_current_relay_by_hand():
    """At rest open; locked-rotor amps close it; it holds between the thresholds; running amps let it go for good."""
    assert run(CURRENT, False, [0.0, 8.5, 8.6, 12.0, 8.0, 7.31, 7.3, 2.0, 8.5]) == [
        *(False, False, True, True, True, True, False, False, False)
    ]


def test_a_start_with_a_potential_relay_by_hand():
    """At rest closed; rising volts open it; it stays open between the thresholds; with the power off it closes."""
    assert run(POTENTIAL, True, [0.0, 90.0, 174.0, 175.0, 200.0, 66.0, 65.0, 0.0, 174.0]) == [
        *(True, True, True, False, False, False, True, True, True)
    ]


@given(EITHER, AMPS)
def test_between_its_thresholds_a_current_relay_remembers(closed, amps):
    """Between drop-out and pick-up it stays; outside, what it was before does not matter."""
    between = CURRENT.drop_out_a < amps < CURRENT.pick_up_a
    assert CURRENT.next_closed(closed, amps) == (closed if between else amps >= CURRENT.pick_up_a)


@given(EITHER, VOLTS)
def test_between_its_thresholds_a_potential_relay_remembers(closed, volts):
    """The same for the potential relay, the other way round."""
    between = POTENTIAL.drop_out_v < volts < POTENTIAL.pick_up_v
    assert POTENTIAL.next_closed(closed, volts) == (closed if between else volts < POTENTIAL.pick_up_v)


@given(EITHER, AMPS)
def test_a_current_relay_settles_at_once(closed, amps):
    """A second look at the same current changes nothing: it does not chatter by itself."""
    once = CURRENT.next_closed(closed, amps)
    assert CURRENT.next_closed(once, amps) == once


@given(EITHER, AMPS)
def test_a_failed_contact_does_not_follow_the_coil(closed, value):
    """Welded is closed and stuck open is open, whatever the coil does and however the relay lies."""
    for relay in (CURRENT, POTENTIAL, replace(CURRENT, upside_down=True)):
        assert replace(relay, contact=Contact.WELDED).next_closed(closed, value) is True
        assert replace(relay, contact=Contact.STUCK_OPEN).next_closed(closed, value) is False


@given(EITHER, AMPS)
def test_upside_down_it_lies_closed(closed, amps):
    """Gravity opens a current relay: turned over, its contact is closed with and without current."""
    assert replace(CURRENT, upside_down=True).next_closed(closed, amps) is True


@given(EITHER, AMPS, VOLTS)
def test_an_open_coil_never_pulls(closed, amps, volts):
    """With its coil open each relay goes to rest: the current relay open, the potential relay closed."""
    assert replace(CURRENT, coil_open=True).next_closed(closed, amps) is False
    assert replace(POTENTIAL, coil_open=True).next_closed(closed, volts) is True


@given(EITHER, AMPS)
def test_a_burnt_contact_moves_but_conducts_badly(closed, amps):
    """Burnt changes the contact's resistance and not its movement."""
    burnt = replace(CURRENT, contact=Contact.BURNT)
    assert burnt.next_closed(closed, amps) == CURRENT.next_closed(closed, amps)
    assert burnt.contact_ohm > 100 * CURRENT.contact_ohm > 0
    assert replace(POTENTIAL, contact=Contact.BURNT).contact_ohm == burnt.contact_ohm


@given(st.floats(1.0, 40.0), st.floats(0.1, 40.0))
def test_fit_of_a_current_relay_is_what_a_start_shows(locked, running):
    """The verdict equals what the contact does at locked-rotor amps and then at running amps."""
    assume(running < locked)
    at_start = CURRENT.next_closed(False, locked)
    after = CURRENT.next_closed(at_start, running)
    shown = Fit.NEVER_STARTS if not at_start else Fit.NEVER_RELEASES if after else Fit.SUITS
    assert CURRENT.suits(locked, running) is shown


@given(VOLTS, VOLTS, VOLTS)
def test_fit_of_a_potential_relay_is_what_a_start_shows(locked, running, opened):
    """The verdict equals what the contact does locked, up to speed, and then with the contact open."""
    if not POTENTIAL.next_closed(True, locked):
        shown = Fit.NEVER_STARTS
    elif POTENTIAL.next_closed(True, running):
        shown = Fit.NEVER_RELEASES
    elif POTENTIAL.next_closed(False, opened):
        shown = Fit.CHATTERS
    else:
        shown = Fit.COIL_TOO_HOT if opened > POTENTIAL.continuous_v else Fit.SUITS
    assert POTENTIAL.suits(locked, running, opened) is shown


@pytest.mark.parametrize(
    ("locked", "running", "locked_limit", "running_limit", "fit"),
    [
        (11.0, 1.5, 0.3, 0.1, Fit.SUITS),
        (8.7, 1.5, 0.3, 0.1, Fit.CANNOT_TELL),
        (8.2, 1.5, 0.3, 0.1, Fit.NEVER_STARTS),
        (11.0, 7.2, 0.3, 0.2, Fit.CANNOT_TELL),
        (11.0, 7.6, 0.3, 0.2, Fit.NEVER_RELEASES),
        (8.2, 7.6, 0.3, 0.2, Fit.NEVER_STARTS),
    ],
)
def test_a_threshold_within_the_limits_is_not_told(locked, running, locked_limit, running_limit, fit):
    """Where a threshold lies within the reading's limits there is no verdict; by hand for pick-up 8.6, drop-out 7.3."""
    assert CURRENT.suits(locked, running, locked_limit, running_limit) is fit


def test_the_timed_switch_by_hand():
    """It joins the start winding for its time, then not; without power or without its rest not at all."""
    assert SWITCH.conducts(True, 0.0, 60.0)
    assert SWITCH.conducts(True, 0.59, 1e9)
    assert not SWITCH.conducts(True, 0.6, 1e9)
    assert not SWITCH.conducts(True, 0.0, 59.9)
    assert not SWITCH.conducts(False, 0.0, 1e9)


@given(EITHER, st.floats(0, 1e4), st.floats(0, 1e4))
def test_a_failed_switch_stays(powered, on, rested):
    """Failed open it never conducts; failed shorted it always does."""
    assert not replace(SWITCH, contact=Contact.STUCK_OPEN).conducts(powered, on, rested)
    assert replace(SWITCH, contact=Contact.WELDED).conducts(powered, on, rested)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (
            lambda: replace(CURRENT, pick_up_a=7.0),
            "the drop-out of the current relay is 7.3 A and its pick-up 7 A; "
            "the drop-out must be below the pick-up. Were they swapped?",
        ),
        (lambda: replace(CURRENT, drop_out_a=0.0), "the drop-out of the current relay is 0 A; it must be above 0 A"),
        (lambda: replace(CURRENT, pick_up_a=float("nan")), "the pick-up of the current relay is nan A"),
        (lambda: replace(CURRENT, coil_ohm=-1.0), "the coil of the current relay is -1 Ω; it must be above 0 Ω"),
        (
            lambda: replace(CURRENT, coil_inductance_h=-1.0),
            "the coil's inductance of the current relay is -1 H; it must be zero or more",
        ),
        (lambda: replace(POTENTIAL, drop_out_v=175.0), "the drop-out of the potential relay is 175 V and its pick-up"),
        (
            lambda: replace(POTENTIAL, continuous_v=100.0),
            "the continuous rating of the potential relay is 100 V and its pick-up 175 V; the coil must stand",
        ),
        (lambda: replace(SWITCH, on_time_s=0.0), "the on time of the solid-state switch is 0 s; it must be above 0 s"),
        (lambda: replace(SWITCH, rest_time_s=-1.0), "the rest time of the solid-state switch is -1 s"),
        (lambda: replace(SWITCH, contact=Contact.BURNT), "the solid-state switch has a burnt contact; it has none"),
        (lambda: SWITCH.conducts(True, -1.0, 0.0), "the time with power is -1 s"),
        (lambda: CURRENT.next_closed(True, float("nan")), "the current in the relay's coil is nan A"),
        (lambda: POTENTIAL.next_closed(True, -1.0), "the voltage on the relay's coil is -1 V"),
        (
            lambda: CURRENT.suits(1.5, 11.0),
            "the running current is 11 A and the locked-rotor current 1.5 A; running must be below locked. "
            "Were they swapped?",
        ),
        (lambda: CURRENT.suits(0.0, 1.0), "the locked-rotor current is 0 A; it must be above 0 A"),
        (lambda: CURRENT.suits(9.0, 1.0, -0.1), "the limit of the locked-rotor current is -0.1 A"),
        (lambda: POTENTIAL.suits(90.0, -1.0, 190.0), "the voltage on the start winding, up to speed, is -1 V"),
    ],
)
def test_what_is_refused(make, message):
    """Each message names the thing, its value and the rule."""
    with pytest.raises(InputError) as error:
        make()
    assert message in str(error.value)
