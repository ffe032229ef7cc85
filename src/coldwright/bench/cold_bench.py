"""The bench of a unit with its cold side: gauges, probes, scale and cylinder beside all that the unit's bench has."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from coldwright.appliance.cold_side import moment_of
from coldwright.appliance.cold_unit import ColdUnit
from coldwright.appliance.drive import drive_of
from coldwright.appliance.state import ColdState
from coldwright.bench.acts import Told
from coldwright.bench.cold_acts import ALL, COLD_SECONDS, GRAMS, HIGH, LOW, NOT_PURGED, PURGED
from coldwright.bench.cold_readings import COLD_READINGS, ColdInstruments
from coldwright.bench.hazards import Hazard
from coldwright.bench.sheet import SheetHeader
from coldwright.bench.unit_bench import UnitBench
from coldwright.errors import BenchError
from coldwright.instruments.hoses import Fitting, Hose, air_left, lost_mass
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.kernels import enthalpy_pt, saturation, volume_ph
from coldwright.sealed_system.engine import engine_of
from coldwright.sealed_system.plant import Moment

HOSE = Hose(length_m=0.9, bore_m=0.0025, fitting=Fitting.LOW_LOSS)  # short and narrow, for small charges
PURGES = {PURGED: 3.0, NOT_PURGED: 0.0}
AIR_KG_PER_MOL = 0.028965
CYLINDER_KG = 5.0  # what the cylinder on the scale weighs with its refrigerant; illustrative
LEAST_KG = 1e-4  # what a recovery machine leaves behind


class ColdBench(UnitBench):
    """One cooler with its sealed system on the bench.

    Parameters
    ----------
    unit : ColdUnit
        The true unit [-]
    seed : bytes
        Where each instrument stands within its accuracy is drawn from it [-]
    lead_ohm : float
        Resistance of the multimeter's leads [Ω]
    header : SheetHeader
        Whose job it is [-]
    path : Path, optional
        Job sheet to go on with, or to begin; None keeps it in memory [-]
    """

    seconds = COLD_SECONDS
    unit: ColdUnit

    def __init__(
        self, unit: ColdUnit, seed: bytes, lead_ohm: float, header: SheetHeader, path: Path | None = None
    ) -> None:
        self.cold_instruments: ColdInstruments | None = None
        self.joined = False
        self.cylinder_kg = CYLINDER_KG
        self._in_hoses = 0.0
        super().__init__(unit, seed, lead_ohm, header, None)
        self.cold_instruments = ColdInstruments(self._error, self._draw.between("scale drift", -1.0, 1.0))
        if path is not None:
            self._open(path)

    # ------------------------------------------------------------------ acts

    def perform(self, act: str, on: tuple[str, ...] = ()) -> Told:
        """Do an act by the name it has on the job sheet.

        Parameters
        ----------
        act : str
            Name of the act, one of `cold_acts.COLD_SECONDS` [-]
        on : tuple of str
            What it is done on [-]

        Raises
        ------
        BenchError
            If there is no such act or it cannot be done on these.
        """
        if act in COLD_READINGS:
            reading = COLD_READINGS[act]
            reading.check(self, on)
            return self._reading((act, *on), lambda: reading.take(self, on), reading.words(on))
        acts: dict[tuple[str, int], Callable[..., Told]] = {
            ("join gauges", 1): self._join,
            ("take off gauges", 0): self._take_off_gauges,
            ("add", 2): self._add,
            ("recover", 1): self._recover,
            ("tare", 0): self._tare,
        }
        if (act, len(on)) in acts:
            return acts[act, len(on)](*on)
        return super().perform(act, on)

    def _join(self, how: str) -> Told:
        if how not in PURGES:
            raise BenchError(f"join gauges {PURGED!r} or {NOT_PURGED!r}; {how!r} is neither")
        if self.joined:
            return Told("The gauges are on already.")
        now = self.moment
        room_k, name = self.unit.room_k, self.refrigerant
        held = sum(_in_hose(name, pressure, room_k) for pressure in (now.suction_pa, now.discharge_pa))
        air = 2.0 * air_left(HOSE, PURGES[how], self.unit.atmosphere_pa)
        self._charge(-held, air / AIR_KG_PER_MOL)
        self._in_hoses, self.joined = held, True
        hazards = (Hazard.AIR_PUSHED_IN,) if how == NOT_PURGED else ()
        return self._did("join gauges", f"Gauge hoses on both sides, {how}.", hazards, on=(how,))

    def _take_off_gauges(self) -> Told:
        if not self.joined:
            return Told("The gauges are off.")
        lost = lost_mass(HOSE, self._in_hoses)
        self._charge(self._in_hoses - lost)
        self._in_hoses, self.joined = 0.0, False
        return self._did("take off gauges", "Gauges off, caps on the ports.")

    def _add(self, refrigerant: str, grams: str) -> Told:
        if grams not in GRAMS:
            raise BenchError(f"you can add {', '.join(GRAMS)} at a time; {grams!r} is none of them")
        if not self.joined:
            raise BenchError("the cylinder is joined through the gauge set: join the gauges first")
        name = refrigerant_named(refrigerant).name
        if name != self.refrigerant:
            words = f"{name} is not what the nameplate says"
            return self._refused(("add", refrigerant, grams), words, Hazard.WRONG_REFRIGERANT)
        self._charge(GRAMS[grams])
        self.cylinder_kg -= GRAMS[grams]
        return self._did("add", f"{grams} of {name} let in as vapour on the low side.", on=(refrigerant, grams))

    def _recover(self, grams: str) -> Told:
        if grams not in (*GRAMS, ALL):
            raise BenchError(f"you can recover {', '.join((*GRAMS, ALL))}; {grams!r} is none of them")
        if not self.joined:
            raise BenchError("the recovery machine is joined through the gauge set: join the gauges first")
        there = self.cold.charge_kg
        taken = max(0.0, there - LEAST_KG) if grams == ALL else min(GRAMS[grams], max(0.0, there - LEAST_KG))
        self._charge(-taken)
        self.cylinder_kg += taken
        return self._did("recover", f"{grams} recovered into a cylinder.", on=(grams,))

    def _tare(self) -> Told:
        shown = self.instrument.scale.tare(self.cylinder_kg, float(self.at))
        return self._did("tare", f"Cylinder on the scale, set to zero: {shown.text}.", display=shown)

    # --------------------------------------------------------------- looking

    @property
    def refrigerant(self) -> str:
        """Name of what is in the system."""
        cold = self.parts.cold
        assert cold is not None
        return cold.refrigerant

    @property
    def cold(self) -> ColdState:
        """State of the cold side."""
        assert self.state.cold is not None
        return self.state.cold

    @property
    def instrument(self) -> ColdInstruments:
        """The instruments of the cold side."""
        assert self.cold_instruments is not None
        return self.cold_instruments

    @property
    def moment(self) -> Moment:
        """What flows in the sealed system now."""
        assert self.parts.cold is not None
        return moment_of(self.parts, self.parts.cold, self.unit.room_k, self.state, drive_of(self.circuit))

    def ports(self) -> tuple[str, ...]:
        """Ports that a hose fits."""
        return (LOW, HIGH)

    def pressure_pa(self, port: str) -> float:
        """Absolute pressure at a port [Pa].

        Parameters
        ----------
        port : str
            The port [-]
        """
        now = self.moment
        return now.suction_pa if port == LOW else now.discharge_pa

    def look(self) -> str:
        """What a person standing at the bench sees."""
        return "\n".join([super().look(), "The gauges are on." if self.joined else "No gauges on."])

    # ---------------------------------------------------------------- inside

    def _charge(self, kilograms: float, air_mol: float = 0.0) -> None:
        """More or less refrigerant, on the low side; and air that comes along."""
        cold = self.parts.cold
        assert cold is not None
        if air_mol > 0.0:
            self.parts = replace(
                self.parts, cold=replace(cold, plant=cold.plant._replace(air_mol=cold.plant.air_mol + air_mol))
            )
        now = self.cold
        charge = max(LEAST_KG, now.charge_kg + kilograms)
        sealed = now.sealed
        over = sealed.high_kg + sealed.oil_kg - 0.98 * charge
        if over > 0.0:  # what was on the low side is not enough: it comes out of the high side and the oil alike
            share = over / (sealed.high_kg + sealed.oil_kg)
            sealed = sealed._replace(high_kg=sealed.high_kg * (1.0 - share), oil_kg=sealed.oil_kg * (1.0 - share))
        self.state = replace(self.state, cold=replace(now, charge_kg=charge, sealed=sealed, length_s=0.5))
        self._known.clear()


def _in_hose(refrigerant: str, pressure_pa: float, room_k: float) -> float:
    """Vapour that a hose holds [kg]; from the tables that the cold side runs on, for CoolProp takes seconds to load."""
    tables = engine_of(refrigerant).tables
    vapour_h = max(saturation(tables, pressure_pa).vapour_h, enthalpy_pt(tables, pressure_pa, room_k))
    return HOSE.volume_m3 / volume_ph(tables, pressure_pa, vapour_h)
