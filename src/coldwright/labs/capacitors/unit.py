"""The cooler that a ticket draws for the lab on capacitors, with the shop's slip and the shelf of spares."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.draw import Draw
from coldwright.bench.unit_bench import UnitBench
from coldwright.electrical.capacitor import Capacitor, Purpose
from coldwright.electrical.capacitor_rule import Marking, ToleranceClass, judge_replacement
from coldwright.labs.capacitors.shelf import FITS, OddPair, ShelfSpare, as_fitted, drawn_pair, drawn_shelf, microfarads
from coldwright.labs.capacitors.shop_slip import ShopSlip, drawn_slip
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_draw import drawn_lead, drawn_unit

MODELS = ("Tarn 14", "Tarn 24", "Tarn 25", "Tarn 15", "Tarn 26", "Tarn 17", "Tarn 27")
ENDS = ("OPEN", "SHORTED", "LOW", "LEAKY", "WRONG_VALUE", "WRONG_VOLTAGE")
START, RUN = "start capacitor", "run capacitor"
TOLERANCE = {Purpose.START: "−0 % +20 %", Purpose.RUN: "±5 %"}
CLASS = {Purpose.START: ToleranceClass.START_20, Purpose.RUN: ToleranceClass.RUN_5}

CONDITIONS = {
    "": "good",
    "OPEN": "open",
    "SHORTED": "shorted",
    "LOW": "low",
    "LEAKY": "leaky",
    "WRONG_VALUE": "wrong value",
    "WRONG_VOLTAGE": "wrong voltage",
}


@dataclass(frozen=True)
class Job:
    """The cooler, which of its capacitors is to be checked, and what lies beside it."""

    unit: BenchUnit
    component: str
    lead_ohm: float
    slip: ShopSlip
    shelf: dict[str, ShelfSpare]
    owners: str
    pair: OddPair

    @property
    def field(self) -> str:
        """Name of the capacitor among the parts."""
        return self.component.replace(" ", "_")

    @property
    def purpose(self) -> Purpose:
        """Whether it is a start or a run capacitor."""
        return Purpose.START if self.component == START else Purpose.RUN

    @property
    def ends(self) -> tuple[str, str]:
        """Its two terminals."""
        first, second = self.unit.wiring.component(self.component).terminals
        return first, second

    @property
    def made(self) -> Capacitor:
        """The capacitor as the maker fitted it, before anything went wrong."""
        found: Capacitor = getattr(self.unit.healthy, self.field)
        return found

    @property
    def came(self) -> Capacitor:
        """The capacitor that came with the unit."""
        found: Capacitor = getattr(self.unit.parts, self.field)
        return found

    @property
    def ohm_across(self) -> float:
        """Direct-current resistance across the capacitor that came with the unit, off it [Ω]; inf for none."""
        off = replace(self.unit.arrival, removed=frozenset({self.component}))
        return UnitCircuit(self.unit.wiring, self.unit.parts, off).resistance(*self.ends)

    @property
    def farad_in_place(self) -> float:
        """Capacitance that a meter sees across it while it is still wired in [F]."""
        return UnitCircuit(self.unit.wiring, self.unit.parts, self.unit.arrival).capacitance(*self.ends)

    @property
    def plate(self) -> tuple[float, float]:
        """Capacitance and volts on the nameplate [F, V]."""
        return self.unit.cooler.parts.marked[self.field]

    @property
    def tolerance(self) -> ToleranceClass:
        """The maker's tolerance."""
        return CLASS[self.purpose]

    def reasons(self, letter: str) -> list[str]:
        """Why a spare must not take its place; empty if it fits.

        Parameters
        ----------
        letter : str
            Letter of the spare [-]
        """
        farad, volts = self.plate
        wanted = Marking.of(farad, self.tolerance, volts, self.purpose, bleed_ohm=self.made.bleed_ohm)
        return judge_replacement(wanted, self.shelf[letter].marking(self.tolerance), self.unit.cooler.hertz)

    @property
    def fitting(self) -> str:
        """Letter of the spare that fits."""
        return next(letter for letter in self.shelf if not self.reasons(letter))

    @property
    def ending(self) -> str:
        """What is wrong with it, such as "LOW"; empty for nothing."""
        name = self.unit.fault.name
        return "" if name is FaultName.NONE else name.name.split("_CAPACITOR_")[1]


def draw_job(seed: bytes) -> Job:
    """The job that a seed draws; each model, and each condition of its capacitor, as likely.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    draw = Draw(seed)
    model = draw.one_of("model", MODELS)
    component = START if _checks_start(draw, model) else RUN
    word = component.split()[0].upper()
    faults = (FaultName.NONE, *(FaultName[f"{word}_CAPACITOR_{end}"] for end in ENDS))
    unit = drawn_unit(seed, (model,), faults)
    field = component.replace(" ", "_")
    old, marked = getattr(unit.healthy, field), unit.cooler.parts.marked[field]
    slip = drawn_slip(draw, unit.parts, getattr(unit.parts, field) if component == START else None)
    shelf = drawn_shelf(draw, old, marked, unit.cooler.hertz)
    owners = draw.one_of("owner's", [letter for letter, spare in shelf.items() if spare.breaks != FITS])
    spares = {letter: as_fitted(draw, field, spare, old) for letter, spare in shelf.items()}
    job = Job(unit, component, drawn_lead(seed), slip, shelf, owners, drawn_pair(draw, marked[0]))
    return replace(job, unit=replace(unit, complaint=work_order(job), spares={component: spares}))


def _checks_start(draw: Draw, model: str) -> bool:
    if model in ("Tarn 25", "Tarn 15"):
        return draw.fraction("start or run") < 0.5
    return model in ("Tarn 14", "Tarn 24")


def work_order(job: Job) -> str:
    """The work order, the shop's slip and the shelf, in lines.

    Parameters
    ----------
    job : Job
        The job [-]
    """
    slip, volts = job.slip, job.plate[1]
    lines = [
        f"Work order: check the {job.component}. Fit the right one if it is not right.",
        f"The maker's tolerance for it: {TOLERANCE[job.purpose]} of the value on the nameplate.",
        f"Shop slip, rotor held still, run winding alone: {slip.run.text}.",
        f"Shop slip, rotor held still, start winding alone: {slip.start.text}.",
    ]
    if slip.load is not None:
        lines.append(
            f"Shop slip, this capacitor on the supply for one second: {slip.load[0].text}, {slip.load[1].text}."
        )
    elif slip.fuse_blew:
        lines.append("Shop slip, this capacitor on the supply for one second: the test fuse blew at once.")
    lines += ["Spares on the shelf, all with that tolerance:", *(f"  {spare.text}" for spare in job.shelf.values())]
    pair = job.pair
    lines.append(f"The owner brought one like spare {job.owners} along.")
    lines.append(
        f"Odd ones: P {microfarads(pair.p_farad)}, Q {microfarads(pair.q_farad)}; joined, {volts:.0f} V across the two."
    )
    return "\n".join(lines)


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
