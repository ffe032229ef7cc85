"""Parameters of a motor from its nameplate and the resistances of its windings, with every estimate in words.

Three things are solved for: the leakage reactance, the rotor's resistance and the magnetising reactance. They are the
ones that give the nameplate's locked-rotor amps, rated amps and rated power. The rest is read, measured or estimated.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, fields, replace

import numpy as np

from coldwright.electrical.motor import currents, drag_torque, synchronous_speed, torque
from coldwright.electrical.motor_curves import locked_rotor
from coldwright.electrical.motor_types import MotorParameters, MotorType, StartCircuit
from coldwright.errors import InputError
from coldwright.quantities.checks import check_number, check_positive

WATTS_PER_HP = 745.7
VOLTS = (90.0, 480.0)
SLIP = {50.0: 0.05, 60.0: 0.042}
MOST_SLIP = 0.2
MOST_APPARENT = 0.9
CORE_SHARE, FRICTION_SHARE = 0.12, 0.06
INERTIA_PER_W = 5e-6
TURNS = {
    MotorType.RESISTANCE_START: 0.8,
    MotorType.CAPACITOR_START: 1.2,
    MotorType.CAPACITOR_START_CAPACITOR_RUN: 1.2,
    MotorType.PERMANENT_CAPACITOR: 1.3,
}
LOCKED_WITHIN, RATED_WITHIN = 0.03, 0.10
LM_STEPS = 80


@dataclass(frozen=True)
class MotorPlate:
    """What a motor's nameplate says: V, Hz, shaft power in W, A, A, rpm where it is given."""

    volts: float
    frequency_hz: float
    rated_w: float
    rated_amps: float
    locked_rotor_amps: float
    poles: int
    rated_rpm: float | None = None

    def __post_init__(self) -> None:
        """Refuses what a typing error makes of a nameplate."""
        for field in fields(self):
            if field.name != "rated_rpm" or self.rated_rpm is not None:
                check_number(f"{field.name} on the nameplate", getattr(self, field.name))
        low, high = VOLTS
        if not low <= self.volts <= high:
            _refuse("voltage", self.volts, "V", f"lie from {low:g} V to {high:g} V", "Is a digit missing or doubled?")
        if self.frequency_hz not in SLIP:
            _refuse("frequency", self.frequency_hz, "Hz", "be 50 Hz or 60 Hz", "Was it left out?")
        if self.poles not in (2, 4, 6, 8):
            _refuse("number of poles", self.poles, "poles", "be 2, 4, 6 or 8", "Were pairs of poles counted?")
        for name, value, unit in (("power", self.rated_w, "W"), ("current", self.rated_amps, "A")):
            check_positive(f"the rated {name} on the nameplate", value, unit)
        if not self.rated_amps < self.locked_rotor_amps < math.inf:
            rule = f"be above the rated current of {self.rated_amps:g} A and finite"
            _refuse("locked-rotor current", self.locked_rotor_amps, "A", rule, "Were the two swapped?")
        if not self.rated_w <= MOST_APPARENT * self.volts * self.rated_amps:
            rule = f"be at most {MOST_APPARENT:g} of volts times amps, here {self.volts * self.rated_amps:.4g} VA"
            _refuse("rated power", self.rated_w, "W", rule, "Is one of the three mistyped?")
        self._check_speed()

    def _check_speed(self) -> None:
        if self.rated_rpm is None:
            return
        full = 120.0 * self.frequency_hz / self.poles
        if not full * (1.0 - MOST_SLIP) <= self.rated_rpm < full:
            rule = f"lie below the field's {full:g} rpm and at most a fifth below it"
            _refuse("rated speed", self.rated_rpm, "rpm", rule, "Are the poles and the frequency right?")

    @property
    def rated_slip(self) -> float:
        """Slip at rated load, as given or as estimated."""
        if self.rated_rpm is None:
            return SLIP[self.frequency_hz]
        return 1.0 - self.rated_rpm * self.poles / (120.0 * self.frequency_hz)


def _refuse(name: str, value: float, unit: str, rule: str, slip: str = "") -> None:
    asked = f". {slip}" if slip else ""
    raise InputError(f"the {name} on the nameplate is {value:g} {unit}; it must {rule}{asked}")


@dataclass(frozen=True)
class Estimate:
    """A motor's parameters, what they give (A, A, W) and the estimates behind them, a sentence each."""

    params: MotorParameters
    locked_rotor_amps: float
    rated_amps: float
    rated_w: float
    sentences: tuple[str, ...]


def estimate(
    plate: MotorPlate, run_ohm: float, start_ohm: float, circuit: StartCircuit, turns_ratio: float | None = None
) -> Estimate:
    """Parameters that give back the nameplate's amps and power.

    Parameters
    ----------
    plate : MotorPlate
        The nameplate [-]
    run_ohm, start_ohm : float
        Resistances of the windings as measured [Ω]
    circuit : StartCircuit
        What feeds the start winding [-]
    turns_ratio : float, optional
        Effective turns of the start winding for one of the run winding; estimated by type unless told [1]

    Returns
    -------
    Estimate
        Parameters, what they give, and the estimates in words [-]

    Raises
    ------
    InputError
        If a resistance cannot be, or no motor of this model gives the nameplate's amps with these windings.

    Notes
    -----
    Good for readings that look like the unit's: amps and watts as the nameplate says, watts taken in within some 6 %
    of the one motor with published test data that it was held against. Breakdown torque may be off by half and more.
    Saturation and the rotor's deep bars are left out. It is no design sheet.
    """
    _check_windings(run_ohm, start_ohm)
    turns = TURNS[circuit.kind] if turns_ratio is None else turns_ratio
    frame = MotorParameters(
        run_ohm=run_ohm,
        run_leakage_ohm=1.0,
        rotor_ohm=1.0,
        rotor_leakage_ohm=1.0,
        magnetising_ohm=1.0,
        start_ohm=start_ohm,
        start_leakage_ohm=1.0,
        turns_ratio=turns,
        frequency_hz=plate.frequency_hz,
        poles=plate.poles,
        inertia_kg_m2=INERTIA_PER_W * plate.rated_w * plate.poles / 2.0,
        core_loss_w=CORE_SHARE * plate.rated_w,
        friction_w=FRICTION_SHARE * plate.rated_w,
    )
    wanted = np.array([plate.locked_rotor_amps, plate.rated_amps, plate.rated_w])

    def misfit(logs: np.ndarray) -> np.ndarray:
        return np.log(np.maximum(_gives(_filled(frame, logs), plate, circuit), 1e-3 * wanted) / wanted)

    locked_ohm, rated_ohm = plate.volts / plate.locked_rotor_amps, plate.volts / plate.rated_amps
    first = np.log([0.4 * locked_ohm, 0.6 * locked_ohm, 1.3 * rated_ohm])
    params = _filled(frame, _least_squares(misfit, first))
    locked, rated, watts = map(float, _gives(params, plate, circuit))
    _check_fit(plate, locked, rated, watts)
    return Estimate(params, locked, rated, watts, _sentences(plate, circuit, turns_ratio, params))


def _filled(frame: MotorParameters, logs: np.ndarray) -> MotorParameters:
    leakage, rotor, magnetising = map(float, np.exp(logs))
    return replace(
        frame,
        run_leakage_ohm=leakage,
        rotor_leakage_ohm=leakage,
        rotor_ohm=rotor,
        magnetising_ohm=magnetising,
        start_leakage_ohm=frame.turns_ratio**2 * leakage,
    )


def _gives(params: MotorParameters, plate: MotorPlate, circuit: StartCircuit) -> np.ndarray:
    """Locked-rotor amps, rated amps and shaft watts at rated slip."""
    held = locked_rotor(params, plate.volts, circuit.starting(plate.frequency_hz))
    slip, speed = plate.rated_slip, (1.0 - plate.rated_slip) * synchronous_speed(params)
    run, start = currents(params, plate.volts, slip, circuit.running(plate.frequency_hz))
    shaft = (torque(params, slip, run, start) - drag_torque(params, speed)) * speed
    return np.array([abs(held.line_current), abs(run + start), shaft])


def _least_squares(misfit: Callable[[np.ndarray], np.ndarray], point: np.ndarray) -> np.ndarray:
    """Levenberg and Marquardt's method with differences for the slopes."""
    left, damping = misfit(point), 1e-2
    for _ in range(LM_STEPS):
        slopes = np.array([(misfit(point + 1e-6 * axis) - left) / 1e-6 for axis in np.eye(point.size)]).T
        normal = slopes.T @ slopes
        move = np.linalg.solve(
            normal + damping * (np.diag(np.diag(normal)) + 1e-9 * np.eye(point.size)), slopes.T @ left
        )
        there = point - np.clip(move, -0.5, 0.5)
        if (after := misfit(there)) @ after < left @ left:
            point, left, damping = there, after, damping / 4.0
        else:
            damping *= 4.0
        if left @ left < 1e-18 or damping > 1e9:
            break
    return point


def _check_windings(run_ohm: float, start_ohm: float) -> None:
    for name, value in (("run", run_ohm), ("start", start_ohm)):
        check_positive(f"the resistance of the {name} winding", value, "Ω")
    if not start_ohm > run_ohm:
        raise InputError(
            f"the start winding reads {start_ohm:g} Ω and the run winding {run_ohm:g} Ω; the start winding of a small "
            "hermetic reads higher. Were they swapped?"
        )


def _check_fit(plate: MotorPlate, locked: float, rated: float, watts: float) -> None:
    for name, gives, says, unit, within in (
        ("locked-rotor current", locked, plate.locked_rotor_amps, "A", LOCKED_WITHIN),
        ("rated current", rated, plate.rated_amps, "A", RATED_WITHIN),
        ("rated power", watts, plate.rated_w, "W", RATED_WITHIN),
    ):
        if not abs(gives / says - 1.0) <= within:
            raise InputError(
                f"the {name} on the nameplate is {says:g} {unit}; the nearest motor with these windings gives "
                f"{gives:.3g} {unit}. Nameplate and resistances must belong together: is one of them mistyped?"
            )


def _sentences(
    plate: MotorPlate, circuit: StartCircuit, turns_ratio: float | None, params: MotorParameters
) -> tuple[str, ...]:
    """Each estimate in words."""
    kind, common = circuit.kind.value, "(common practice, no source)"
    said = [
        "Locked-rotor amps are taken as the line's current with the start winding in and the rotor held.",
        "Stator and rotor share the leakage in equal parts, and the start winding's grows with its turns squared "
        f"{common}.",
        f"Core loss is {CORE_SHARE:.0%} and friction {FRICTION_SHARE:.0%} of rated power {common}.",
        f"The moment of inertia is {params.inertia_kg_m2:.2g} kg·m², by rated power and poles {common}.",
        "The windings' resistances are used as measured; a warm motor has more.",
    ]
    if plate.rated_rpm is None:
        said.append(f"Rated slip is {plate.rated_slip:.1%}, usual at {plate.frequency_hz:g} Hz {common}.")
    if turns_ratio is None:
        said.append(f"The start winding has {params.turns_ratio:g} of the run winding's turns, for {kind} {common}.")
    return tuple(said)
