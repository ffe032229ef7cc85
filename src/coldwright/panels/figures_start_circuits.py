"""A picture with its words: amps of the run winding against speed, and the two thresholds of a current relay."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from coldwright.answers.forms import is_blank
from coldwright.appliance.cooler import cooler
from coldwright.appliance.parts import Parts
from coldwright.electrical.motor import synchronous_speed
from coldwright.electrical.motor_curves import Curves, curves
from coldwright.electrical.motor_types import capacitor_impedance
from coldwright.electrical.start_relays import CurrentRelay
from coldwright.errors import InputError
from coldwright.panels.figures import Picture
from coldwright.panels.typed import read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.quantities import Kind

if TYPE_CHECKING:
    from matplotlib.figure import Figure

POINTS = 201


@dataclass(frozen=True)
class RelayCurves:
    """Run amps against speed with the start winding in and out, and the relay between them."""

    volts: float
    with_start: Curves
    without_start: Curves
    relay: CurrentRelay

    @property
    def shares(self) -> np.ndarray:
        """Speeds as shares of the speed of the field, shape (n,)."""
        return np.asarray(self.with_start.speed / self.with_start.speed[-1])

    @property
    def locked_a(self) -> float:
        """Run amps at standstill before the relay has closed [A]."""
        return float(abs(self.without_start.run_current[0]))

    @property
    def idle_a(self) -> float:
        """Run amps at the speed of the field, start winding out [A]."""
        return float(abs(self.without_start.run_current[-1]))

    @property
    def lets_go_at(self) -> float | None:
        """Share of the field's speed at which the relay drops out; None if it never does."""
        below = np.flatnonzero(np.abs(self.with_start.run_current) <= self.relay.drop_out_a)
        return float(self.shares[below[0]]) if below.size else None

    @property
    def text(self) -> str:
        """What the picture shows and what follows from it."""
        relay = self.relay
        head = (
            f"Amps of the run winding against speed, at {self.volts:.0f} V. At standstill it is {self.locked_a:.1f} A, "
            f"near full speed about {self.idle_a:.1f} A. Pick-up is {relay.pick_up_a:.1f} A, drop-out "
            f"{relay.drop_out_a:.1f} A."
        )
        if self.locked_a < relay.pick_up_a:
            return f"{head} The locked-rotor amps stay below pick-up: the contact never closes, and the motor hums."
        at = self.lets_go_at
        if at is None:
            return f"{head} It pulls in, but the amps never fall to drop-out: the start winding stays in and gets hot."
        return f"{head} It pulls in at once and lets go at {at:.0%} of the field's speed. This relay suits the motor."


def _start_path(parts: Parts, hertz: float) -> complex:
    if parts.start_capacitor is None:
        return 0j
    return capacitor_impedance(parts.start_capacitor.farad, hertz, parts.start_capacitor.loss_tangent)


def relay_curves(model: str, volts: str = "", pick_up: str = "", drop_out: str = "") -> RelayCurves:
    """Run amps against speed of a model with a current relay.

    Parameters
    ----------
    model : str
        Such as "Tarn 11" [-]
    volts : str
        Volts at the motor, such as "80 V"; those of the plate if blank [-]
    pick_up, drop_out : str
        Of another relay, such as "18 A"; those of the model's own if blank [-]

    Raises
    ------
    InputError, AnswerError
        If the model has no current relay, or something cannot be read.
    """
    plate = cooler(model)
    own, motor = plate.parts.start_device, plate.parts.motor
    if not isinstance(own, CurrentRelay) or motor is None:
        raise InputError(f"{model} has no current relay; Tarn 11, Tarn 21, Tarn 14 and Tarn 24 have one")
    relay = CurrentRelay(
        _typed("pick_up", pick_up, Kind.CURRENT, own.pick_up_a),
        _typed("drop_out", drop_out, Kind.CURRENT, own.drop_out_a),
        own.coil_ohm,
        own.coil_inductance_h,
    )
    at_motor = _typed("volts", volts, Kind.VOLTAGE, plate.volts)
    speeds = np.linspace(0.0, synchronous_speed(motor), POINTS)
    started = curves(motor, at_motor, _start_path(plate.parts, plate.hertz), speeds)
    return RelayCurves(at_motor, started, curves(motor, at_motor, None, speeds), relay)


def _typed(name: str, text: str, kind: Kind, otherwise: float) -> float:
    if is_blank(text):
        return otherwise
    return read_positive(name, text, kind)


@takes_text
def relay_figure(model: str = "Tarn 11", volts: str = "", pick_up: str = "", drop_out: str = "") -> Picture:
    """Run amps against speed with the relay's two thresholds: does it pull in, and where does it let go?

    Parameters
    ----------
    model : str
        Such as "Tarn 11" [-]
    volts : str
        Volts at the motor, such as "80 V"; those of the plate if blank [-]
    pick_up, drop_out : str
        Of another relay, such as "18 A"; those of the model's own if blank [-]

    Raises
    ------
    InputError, AnswerError
        If the model has no current relay, or something cannot be read.
    """
    found = relay_curves(model, volts, pick_up, drop_out)
    return Picture(_drawn(found), found.text)


def _drawn(found: RelayCurves) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.5, 4.2), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    percent = 100 * found.shares
    axes.plot(percent, np.abs(found.with_start.run_current), color="black", label="start winding in")
    axes.plot(percent, np.abs(found.without_start.run_current), "--", color="tab:blue", label="start winding out")
    relay = found.relay
    axes.axhline(relay.pick_up_a, linestyle="-.", color="tab:red", label=f"pick-up {relay.pick_up_a:.1f} A")
    axes.axhline(relay.drop_out_a, linestyle=":", color="tab:green", label=f"drop-out {relay.drop_out_a:.1f} A")
    if found.locked_a >= relay.pick_up_a and found.lets_go_at is not None:
        axes.plot(
            [100 * found.lets_go_at], [relay.drop_out_a], "o", markersize=9, color="black", label="it lets go here"
        )
    axes.set_xlim(0, 100)
    axes.set_ylim(bottom=0)
    axes.set_xlabel("speed in % of the field's speed")
    axes.set_ylabel("amps of the run winding")
    axes.legend(loc="lower left")
    return figure
