"""The cooler that a ticket draws for the lab on stored charge: what holds the charge, and in which state it is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from coldwright.appliance.parts import Board, Parts
from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.draw import Draw
from coldwright.bench.unit_bench import UnitBench
from coldwright.electrical.capacitor import Capacitor, Purpose
from coldwright.electrical.capacitor_rule import ToleranceClass
from coldwright.labs.stored_charge.van import Lead, OddPair, drawn_leads, drawn_pair, farads, ohms
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_draw import arrived_running, drawn_lead, drawn_unit
from coldwright.quantities import Kind, show

START, RUN, BUS = "start capacitor", "run capacitor", "board"
STORES = {
    **dict.fromkeys(("Tarn 14", "Tarn 24", "Tarn 25", "Tarn 15"), START),
    **dict.fromkeys(("Tarn 26", "Tarn 17", "Tarn 27"), RUN),
    **dict.fromkeys(("Tarn 18", "Tarn 28"), BUS),
}
IN_ORDER, MISSING, OPEN, TOO_HIGH, LEAKY, LOW = CONDITIONS = (
    "in order",
    "bleed resistor missing",
    "bleed resistor open",
    "bleed resistor too high",
    "leaky",
    "low",
)
CAN_HAVE = {
    IN_ORDER: (START, RUN, BUS),
    MISSING: (START,),
    OPEN: (START, BUS),
    TOO_HIGH: (START, BUS),
    LEAKY: (START, RUN),
    LOW: (START, RUN),
}
WORDS = {START: "start capacitor", RUN: "run capacitor", BUS: "bus capacitor of the board"}
TOLERANCE = {START: ("−0 % +20 %", ToleranceClass.START_20), RUN: ("±5 %", ToleranceClass.RUN_5)}
KEEPS = ("Tarn 14", "Tarn 24", "Tarn 18", "Tarn 28")  # no winding empties these, so they are drawn twice as often
BLEED_WITHIN = 0.10  # of the maker's bleed resistor, as the work order says
BURNT_OHM = 1e12  # a bleed resistor that is there to be seen and lets nothing through
RUNNING_FOR_S = 20.0
LOW_SHARE = (0.62, 0.8)  # of the made value; with less a motor with a run capacitor alone no longer starts
OFFERED_OHM = (33e3, 47e3, 68e3, 82e3)


@dataclass(frozen=True)
class Job:
    """The cooler, what holds the charge in it and in which state, and what lies in the van."""

    unit: BenchUnit
    store: str
    condition: str
    lead_ohm: float
    leads: dict[str, Lead]
    offered_ohm: float
    pair: OddPair

    @property
    def ends(self) -> tuple[str, str]:
        """Terminals that the charge stands between."""
        if self.store == BUS:
            return "board plus", "board minus"
        first, second = self.unit.wiring.component(self.store).terminals
        return first, second

    @property
    def capacitor(self) -> Capacitor:
        """The start or run capacitor as it truly is; a board has none that can be taken off."""
        found = self.unit.parts.start_capacitor if self.store == START else self.unit.parts.run_capacitor
        assert found is not None
        return found

    @property
    def marked(self) -> tuple[float, float]:
        """Farads and volts that are printed on the capacitor [F, V]."""
        return self.unit.parts.marked[self.store.replace(" ", "_")]

    @property
    def board(self) -> Board:
        """The inverter's board."""
        board = self.unit.parts.board
        assert board is not None
        return board

    @property
    def farad(self) -> float:
        """True capacitance; that of a board is what its sheet says [F]."""
        return self.board.bus_farad if self.store == BUS else self.capacitor.farad

    @property
    def ohm_across(self) -> float:
        """Ohms across it once it is off the unit; those of a board in its place, plug out [Ω]."""
        return _in_place(self.unit, self.unit.parts) if self.store == BUS else self.capacitor.drain_ohm

    @property
    def sheet_ohm(self) -> tuple[float, float]:
        """Ohms in its place by a board's sheet: with the maker's bleed resistor, and with it burnt open [Ω]."""
        made = self.unit.cooler.parts
        assert made.board is not None
        burnt = replace(made, board=replace(made.board, bleed_ohm=BURNT_OHM))
        return _in_place(self.unit, made), _in_place(self.unit, burnt)

    @property
    def makers_bleed_ohm(self) -> float | None:
        """Bleed resistor that the maker fits; None for none [Ω]."""
        made = self.unit.cooler.parts
        if self.store == BUS:
            return None if made.board is None else made.board.bleed_ohm
        return None if self.store == RUN or made.start_capacitor is None else made.start_capacitor.bleed_ohm


def _in_place(unit: BenchUnit, parts: Parts) -> float:
    """Ohms across the bus of a board with the plug out: its bleed resistor, and the rectifiers beside it."""
    return UnitCircuit(unit.wiring, parts, replace(unit.arrival, plugged=False)).resistance("board plus", "board minus")


def drawn_kind(seed: bytes) -> tuple[str, str]:
    """Condition and model that a seed draws; each condition as likely, then one of the models that can have it.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    draw = Draw(seed)
    condition = draw.one_of("condition", CONDITIONS)
    models = [m for m, store in STORES.items() if store in CAN_HAVE[condition]]
    return condition, draw.one_of("model", [*models, *(m for m in models if m in KEEPS)])


@lru_cache(maxsize=32)
def draw_job(seed: bytes) -> Job:
    """The job that a seed draws.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    draw = Draw(seed)
    condition, model = drawn_kind(seed)
    store = STORES[model]
    cold = drawn_unit(seed, (model,), (FaultName.NONE,))
    unit = arrived_running(replace(cold, healthy=_in_condition(draw, cold.healthy, store, condition)), RUNNING_FOR_S)
    offered = draw.one_of("offered", OFFERED_OHM)
    job = Job(unit, store, condition, drawn_lead(seed), drawn_leads(draw), offered, drawn_pair(draw))
    return replace(job, unit=replace(unit, complaint=work_order(job)))


def _in_condition(draw: Draw, parts: Parts, store: str, condition: str) -> Parts:
    near = draw.between("bleed", 0.96, 1.04)
    if store == BUS:
        board = parts.board
        assert board is not None
        high = draw.between("high board bleed", 4.0, 8.0)
        ohm = {OPEN: BURNT_OHM, TOO_HIGH: board.bleed_ohm * high}.get(condition, board.bleed_ohm * near)
        return replace(parts, board=replace(board, bleed_ohm=ohm))
    if store == START:
        return replace(parts, start_capacitor=_capacitor_in(draw, parts.start_capacitor, condition, near))
    return replace(parts, run_capacitor=_capacitor_in(draw, parts.run_capacitor, condition, near))


def _capacitor_in(draw: Draw, made: Capacitor | None, condition: str, near: float) -> Capacitor:
    assert made is not None
    start = made.purpose is Purpose.START
    bleed = None if made.bleed_ohm is None else made.bleed_ohm * near
    bleeds = {MISSING: None, OPEN: BURNT_OHM, TOO_HIGH: draw.between("high bleed", 150e3, 400e3)}
    sound = replace(made, bleed_ohm=bleeds.get(condition, bleed))
    if condition == LEAKY:
        return replace(sound, leak_ohm=draw.between("leak", 1e3, 3e3) if start else draw.between("leak", 15e3, 60e3))
    return replace(sound, farad=made.farad * draw.between("low", *LOW_SHARE)) if condition == LOW else sound


def work_order(job: Job) -> str:
    """The work order and what lies in the van, in lines.

    Parameters
    ----------
    job : Job
        The job [-]
    """
    bleed = job.makers_bleed_ohm
    within = f"±{100 * BLEED_WITHIN:.0f} %"
    fitted = "" if bleed is None else f"a bleed resistor of {ohms(bleed)} {within} across it"
    if job.store == BUS:
        sound, burnt = (show(ohm, Kind.RESISTANCE) for ohm in job.sheet_ohm)
        maker = (
            f"The board's sheet: {farads(job.farad)} from board plus to board minus, {fitted}. Read in its place, the "
            f"rectifiers beside it: {sound} {within}; with the bleed resistor burnt open {burnt}."
        )
    else:
        fits = f"fits {fitted}" if fitted else "fits no bleed resistor: the windings empty it"
        maker = f"The maker {fits}. Tolerance of the capacitor: {TOLERANCE[job.store][0]} of what is printed on it."
    leads = ", ".join(f"{letter} {lead.text}" for letter, lead in job.leads.items())
    return "\n".join(
        [
            f"Work order: the {WORDS[job.store]}. What can it hold, and what empties it? Fit nothing.",
            "The unit was plugged in a moment ago.",
            maker,
            f"Discharge leads in the van: {leads}. There is a screwdriver too.",
            f"Offered as a bleed resistor: {ohms(job.offered_ohm)}.",
            job.pair.text,
        ]
    )


def open_bench(ticket: Ticket, path: Path | None = None) -> UnitBench:
    """The ticket's unit on the bench.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    path : Path, optional
        Job sheet to go on with, or to begin [-]
    """
    seed = ticket.seed_bytes
    job = draw_job(seed)
    return UnitBench(job.unit, seed, job.lead_ohm, ticket.header, path)
