"""A picture with its words: a cycle on the pressure-enthalpy chart, from settings or from a learner's readings."""

from __future__ import annotations

from coldwright.answers.forms import is_blank
from coldwright.errors import AnswerError
from coldwright.panels.figures import Picture
from coldwright.panels.ph_chart import ph_chart
from coldwright.quantities import Kind, read
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.atmosphere import station_pressure
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.sealed_system.cycle import cycle_at
from coldwright.sealed_system.cycle_readings import CycleReadings, ReadCycle, ReadingLimits, cycle_from_readings
from coldwright.sealed_system.cycle_states import Cycle, Settings


def cycle_figure(
    refrigerant: str = "R-134a",
    evaporating: str = "-20 °C",
    condensing: str = "45 °C",
    superheat: str = "8 K",
    subcooling: str = "6 K",
    efficiency: str = "60 %",
    exchanger: str = "0 %",
) -> Picture:
    """The cycle between two temperatures on the p-h chart: what does each change do to cold, work and discharge?

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    evaporating, condensing : str
        Temperatures, such as "-20 °C"; dew temperatures of a blend [-]
    superheat, subcooling : str
        Differences, such as "8 K" [-]
    efficiency : str
        Isentropic efficiency of the compressor, such as "60 %" [-]
    exchanger : str
        Effectiveness of the suction-line exchanger, such as "70 %"; zero for none [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read, or the values fit no cycle.
    """
    settings = Settings(
        superheat_k=_typed("superheat", superheat, Kind.TEMPERATURE_DIFFERENCE),
        subcooling_k=_typed("subcooling", subcooling, Kind.TEMPERATURE_DIFFERENCE),
        isentropic_efficiency=_typed("efficiency", efficiency, Kind.RATIO),
        exchanger=_typed("exchanger", exchanger, Kind.RATIO),
    )
    made = cycle_at(
        refrigerant_named(refrigerant).name,
        _typed("evaporating", evaporating, Kind.TEMPERATURE),
        _typed("condensing", condensing, Kind.TEMPERATURE),
        settings,
    )
    return Picture(ph_chart(made, measured=False), f"{_states(made)} {_results(made)}")


def readings_figure(
    refrigerant: str = "R-134a",
    suction: str = "0.30 bar gauge",
    discharge: str = "10.6 bar gauge",
    suction_line: str = "20 °C",
    discharge_line: str = "100 °C",
    liquid_line: str = "39 °C",
    evaporator_outlet: str = "-12 °C",
    exchanger: bool = True,
    altitude: str = "0 m",
    low_limit: str = "0.03 bar gauge",
    high_limit: str = "0.2 bar gauge",
    thermometer: str = "1 K",
) -> Picture:
    """A learner's readings on the p-h chart, the cycle through them, and how far its results can be off.

    Parameters
    ----------
    refrigerant : str
        Name as on the nameplate [-]
    suction, discharge : str
        What the gauges show, such as "0.30 bar gauge" or "4 psig" [-]
    suction_line, discharge_line, liquid_line : str
        Temperatures of the pipes at the compressor and after the condenser [-]
    evaporator_outlet : str
        Temperature of the pipe there; blank if it was not read [-]
    exchanger : bool
        Whether capillary and suction line are soldered together [-]
    altitude : str
        Height of the place [-]
    low_limit, high_limit : str
        Most that each gauge can be off, such as "0.03 bar gauge" [-]
    thermometer : str
        Most that the thermometer can be off, such as "1 K" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read, or the readings fit no cycle.
    """
    readings = CycleReadings(
        suction_gauge_pa=_typed("suction", suction, Kind.PRESSURE_GAUGE),
        discharge_gauge_pa=_typed("discharge", discharge, Kind.PRESSURE_GAUGE),
        suction_k=_typed("suction_line", suction_line, Kind.TEMPERATURE),
        discharge_k=_typed("discharge_line", discharge_line, Kind.TEMPERATURE),
        liquid_k=_typed("liquid_line", liquid_line, Kind.TEMPERATURE),
        evaporator_outlet_k=None
        if is_blank(evaporator_outlet)
        else _typed("evaporator_outlet", evaporator_outlet, Kind.TEMPERATURE),
        has_exchanger=exchanger,
        atmosphere_pa=station_pressure(_typed("altitude", altitude, Kind.LENGTH)),
    )
    limits = ReadingLimits(
        _typed("low_limit", low_limit, Kind.PRESSURE_GAUGE),
        _typed("high_limit", high_limit, Kind.PRESSURE_GAUGE),
        _typed("thermometer", thermometer, Kind.TEMPERATURE_DIFFERENCE),
    )
    found = cycle_from_readings(refrigerant_named(refrigerant).name, readings, limits)
    words = " ".join((_states(found.cycle), _results(found.cycle), _spread(found), *found.remarks))
    return Picture(ph_chart(found.cycle, measured=True), words)


def _typed(name: str, text: str, kind: Kind) -> float:
    try:
        return read(text, kind).value
    except AnswerError as error:
        raise AnswerError(f"{name}: {error}") from None


def _states(made: Cycle) -> str:
    """Every point of the chart in numbers."""
    points = "; ".join(
        f"{number} {name}: {state.pressure_pa / 1e5:.2f} bar absolute, {state.temperature_k - ICE_POINT_K:.1f} °C, "
        f"{state.enthalpy_j_per_kg / 1e3:.1f} kJ/kg"
        for number, (name, state) in enumerate(made.states, start=1)
    )
    quality = made.evaporator_inlet.quality
    flash = f" {quality:.0%} of it is vapour when it enters the evaporator." if quality is not None else ""
    return f"Pressure-enthalpy chart of {made.refrigerant}. {points}.{flash}"


def _results(made: Cycle) -> str:
    """What follows for each kilogram."""
    discharge_c = made.discharge.temperature_k - ICE_POINT_K
    exchanged = f" The exchanger moves {made.exchanged / 1e3:.1f} kJ." if made.exchanged > 0 else ""
    return (
        f"It evaporates at {made.evaporating_k - ICE_POINT_K:.1f} °C and condenses at "
        f"{made.condensing_k - ICE_POINT_K:.1f} °C. Superheat {made.superheat:.1f} K at the evaporator, "
        f"{made.suction_superheat:.1f} K at the compressor; subcooling {made.subcooling:.1f} K. Each kilogram takes up "
        f"{made.refrigerating_effect / 1e3:.1f} kJ of heat in the evaporator and {made.work / 1e3:.1f} kJ of work, and "
        f"gives off {made.condenser_heat / 1e3:.1f} kJ.{exchanged} COP {made.cop:.2f}; Carnot's would be "
        f"{made.carnot_cop:.2f}. Pressure ratio {made.pressure_ratio:.1f}. Discharge {discharge_c:.0f} °C "
        f"({discharge_c * 1.8 + 32:.0f} °F). Isentropic efficiency {made.isentropic_efficiency:.0%}."
    )


def _spread(found: ReadCycle) -> str:
    limits = found.limits
    return (
        f"The readings leave ±{limits['superheat']:.1f} K in superheat, ±{limits['subcooling']:.1f} K in subcooling, "
        f"±{limits['refrigerating_effect'] / 1e3:.1f} kJ in cold, ±{limits['work'] / 1e3:.1f} kJ in work and "
        f"±{limits['cop']:.2f} in COP."
    )
