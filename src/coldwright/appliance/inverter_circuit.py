"""What an inverter-driven compressor and its board put between their terminals, as far as a meter goes."""

from __future__ import annotations

import math
from cmath import rect

from coldwright.appliance.circuit_elements import CHARGED_OHM, Moment
from coldwright.appliance.wiring import Component
from coldwright.electrical.network import Branch, Source
from coldwright.electrical.windings import REFERENCE_K, resistance_at

RECTIFIER_OHM = 1e6  # a blocked rectifier as a meter sees it: illustrative
PHASE_SHARE, PHASE_COSINE = 0.3, 0.8  # of the rated volts on a phase, and its power factor: illustrative
BUS_DRIVES_V = 60.0


def inverter_compressor(component: Component, now: Moment) -> None:
    """Put three equal windings and their insulation into the circuit.

    Parameters
    ----------
    component : Component
        The compressor [-]
    now : Moment
        Parts, state, frequency and where the elements go [-]
    """
    first, second, third, shell = now.ends(component)
    star = f"{component.name} star"
    half = resistance_at(now.parts.inverter_pair_ohm / 2, REFERENCE_K, now.state.winding_k)
    turning = _phase_ohm(now) * math.sin(math.acos(PHASE_COSINE)) if _drives(now) else half * (now.hertz / 60)
    at_work = _phase_ohm(now) * PHASE_COSINE if _drives(now) else half
    for node, role in ((first, "first"), (second, "second"), (third, "third")):
        now.into.resistor(f"{component.name}: {role}", star, node, at_work, turning, now.hertz)
    windings = now.parts.windings
    ground = 1 / (1 / windings.insulation_ohm + 1 / windings.ground_ohm)
    now.into.resistor(f"{component.name}: insulation", star, shell, ground)


def _drives(now: Moment) -> bool:
    """Whether the board turns the compressor: at the supply's frequency, with its bus charged and the plug in."""
    return now.hertz == now.parts.supply.hertz and now.state.plugged and now.state.bus_v > BUS_DRIVES_V


def _phase_ohm(now: Moment) -> float:
    """Impedance of one phase at work, so that three of them take the board's watts."""
    board = now.parts.board
    assert board is not None
    return 3 * (PHASE_SHARE * now.parts.supply.rated_volts) ** 2 * PHASE_COSINE / board.watts


def board(component: Component, now: Moment) -> None:
    """Put a board into the circuit: rectifier, bus with its bleed resistor, and what drives the windings.

    Parameters
    ----------
    component : Component
        The board [-]
    now : Moment
        Parts, state, frequency and where the elements go [-]
    """
    made = now.parts.board
    assert made is not None
    live, neutral, first, second, third, plus, minus = now.ends(component)
    star = f"{component.name} star"
    for number, (node, role) in enumerate(((first, "first"), (second, "second"), (third, "third"))):
        now.into.resistor(f"{component.name}: {role}", node, minus, 220e3)
        if _drives(now):
            volts = rect(PHASE_SHARE * now.parts.supply.rated_volts, -number * math.tau / 3)
            now.into.sources.append(Source(f"{component.name}: drives {role}", node, star, volts, now.hertz, 0.5))
    now.into.resistor(f"{component.name}: bleed", plus, minus, made.bleed_ohm)
    for node, to, role in ((live, plus, "live"), (neutral, minus, "neutral")):
        now.into.resistor(f"{component.name}: rectifier, {role}", node, to, RECTIFIER_OHM)
    if now.hertz > 0:
        now.into.branches.append(Branch(f"{component.name}: bus", plus, minus, capacitance=made.bus_farad))
    if now.hertz > 0:
        now.into.resistor(f"{component.name}: input", live, neutral, now.parts.supply.rated_volts**2 / made.watts)
    elif abs(now.state.bus_v) > 0:
        now.into.sources.append(Source(f"{component.name}: bus", plus, minus, now.state.bus_v, 0.0, CHARGED_OHM))
