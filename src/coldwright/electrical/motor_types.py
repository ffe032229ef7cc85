"""What a motor is given by: its equivalent circuit, what feeds its start winding, what hangs on its shaft."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.checks import check_farad, check_not_negative, check_positive

MAY_BE_ZERO = ("core_loss_w", "friction_w")
UNITS = {"ohm": "Ω", "ratio": "start turns per run turn", "hz": "Hz", "m2": "kg·m²", "w": "W"}


@dataclass(frozen=True)
class MotorParameters:
    """Equivalent circuit of a motor; reactances at its own frequency, rotor and magnetising as seen by the run winding.

    `turns_ratio` is the effective turns of the start winding for one of the run winding. Core loss and friction are
    those at running speed; both are taken off at the shaft.
    """

    run_ohm: float
    run_leakage_ohm: float
    rotor_ohm: float
    rotor_leakage_ohm: float
    magnetising_ohm: float
    start_ohm: float
    start_leakage_ohm: float
    turns_ratio: float
    frequency_hz: float
    poles: int
    inertia_kg_m2: float
    core_loss_w: float
    friction_w: float

    def __post_init__(self) -> None:
        """Refuses what no motor has, by name, value and rule."""
        for field in fields(self):
            if field.name == "poles":
                continue
            check = check_not_negative if field.name in MAY_BE_ZERO else check_positive
            check(f"{field.name} of the motor", getattr(self, field.name), UNITS[field.name.rpartition("_")[2]])
        check_positive("the number of poles of the motor", self.poles, "poles")
        if self.poles not in (2, 4, 6, 8):
            raise InputError(
                f"the motor has {self.poles:g} poles; they must be 2, 4, 6 or 8. Were pairs of poles counted?"
            )


class MotorType(Enum):
    """How the start winding is fed."""

    RESISTANCE_START = "resistance-start"
    CAPACITOR_START = "capacitor-start"
    CAPACITOR_START_CAPACITOR_RUN = "capacitor-start, capacitor-run"
    PERMANENT_CAPACITOR = "permanent capacitor"

    @property
    def has_start_capacitor(self) -> bool:
        """Whether a capacitor is switched off after the start."""
        return self in (MotorType.CAPACITOR_START, MotorType.CAPACITOR_START_CAPACITOR_RUN)

    @property
    def has_run_capacitor(self) -> bool:
        """Whether a capacitor stays in the circuit."""
        return self in (MotorType.PERMANENT_CAPACITOR, MotorType.CAPACITOR_START_CAPACITOR_RUN)


def capacitor_impedance(capacitance: float, frequency_hz: float, loss: float = 0.0) -> complex:
    """Impedance of a capacitor with its loss.

    Parameters
    ----------
    capacitance : float
        Capacitance, positive [F]
    frequency_hz : float
        Frequency, positive [Hz]
    loss : float
        Loss in watts for one var, the tangent of the loss angle [1]

    Returns
    -------
    complex
        Series impedance [Ω]

    Raises
    ------
    InputError
        If the capacitance or the frequency is not positive, or the loss is negative.
    """
    check_farad(capacitance, hint="An open capacitor is left out")
    check_positive("the frequency at a capacitor", frequency_hz, "Hz")
    check_not_negative("the loss of a capacitor", loss, "")
    reactance = 1.0 / (2.0 * math.pi * frequency_hz * capacitance)
    return complex(loss * reactance, -reactance)


@dataclass(frozen=True)
class StartCircuit:
    """What stands in series with the start winding: farads, loss as a share of the vars, and added ohms."""

    kind: MotorType
    start_farad: float | None = None
    run_farad: float | None = None
    start_loss: float = 0.0
    run_loss: float = 0.0
    added_ohm: float = 0.0

    def __post_init__(self) -> None:
        """Each type has the capacitors it is named for, and no other."""
        for name, has, value, loss in (
            ("start capacitor", self.kind.has_start_capacitor, self.start_farad, self.start_loss),
            ("run capacitor", self.kind.has_run_capacitor, self.run_farad, self.run_loss),
        ):
            if has is (value is None):
                rule = "needs a" if has else "has no"
                raise InputError(f"a {self.kind.value} motor {rule} {name}; check the type or the capacitor")
            if value is not None:
                check_farad(value, f"the capacitance of the {name}", "An open capacitor is left out")
            check_not_negative(f"the loss of the {name}", loss, "")
        check_not_negative("the resistance added to the start winding", self.added_ohm, "Ω")

    def starting(self, frequency_hz: float) -> complex:
        """Impedance while the start device conducts.

        Parameters
        ----------
        frequency_hz : float
            Supply frequency [Hz]

        Returns
        -------
        complex
            Series impedance; capacitors lie side by side [Ω]
        """
        admittance = sum(
            1.0 / capacitor_impedance(farad, frequency_hz, loss)
            for farad, loss in ((self.start_farad, self.start_loss), (self.run_farad, self.run_loss))
            if farad is not None
        )
        return self.added_ohm + (1.0 / admittance if admittance else 0.0)

    def running(self, frequency_hz: float) -> complex | None:
        """Impedance after the start device has opened.

        Parameters
        ----------
        frequency_hz : float
            Supply frequency [Hz]

        Returns
        -------
        complex or None
            That of the run capacitor, or none where the start winding is open [Ω]
        """
        if self.run_farad is None:
            return None
        return self.added_ohm + capacitor_impedance(self.run_farad, frequency_hz, self.run_loss)


@dataclass(frozen=True)
class Load:
    """Torque of a load against the motion: a constant part in N·m and one with the square of the speed in N·m·s²."""

    constant: float = 0.0
    square: float = 0.0

    def __post_init__(self) -> None:
        """A load brakes, it does not drive."""
        for name, value, unit in (("constant", self.constant, "N·m"), ("square", self.square, "N·m·s²")):
            check_not_negative(f"the {name} part of the load", value, unit)

    def torque(self, speed: float) -> float:
        """Torque against the motion, its size.

        Parameters
        ----------
        speed : float
            Mechanical speed; an array gives an array [rad/s]

        Returns
        -------
        float
            Torque, zero or more [N·m]
        """
        return self.constant + self.square * speed * speed
