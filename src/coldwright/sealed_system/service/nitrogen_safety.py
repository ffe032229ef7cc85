"""What must be in order before nitrogen goes into a system, each fault with its hazard in words.

Nitrogen in a cylinder stands at some 150 bar to 200 bar: without a regulator it bursts the unit. Oxygen or air with oil
explodes. The unit's nameplate and its maker's instructions set the test pressure, not this page.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import BenchError, InputError
from coldwright.sealed_system.service.inputs import BAR, MOST_TEST_PA, PSI, check_positive

LEAST_TEST_GAUGE_PA = 1.0 * BAR


class TestGas(Enum):
    """Gas that someone means to put in; the value is its name."""

    NITROGEN = "dry nitrogen"
    NITROGEN_WITH_TRACER = "nitrogen with 5 % hydrogen, a mix that does not burn"
    OXYGEN = "oxygen"
    COMPRESSED_AIR = "compressed air"
    REFRIGERANT = "refrigerant"

    __test__ = False  # pytest: no test in spite of its name


class NitrogenHazard(Enum):
    """What is wrong with a rig; the value is what the job sheet says."""

    OXYGEN = "oxygen let into a system with oil: it explodes. Never oxygen, whatever the pressure"
    COMPRESSED_AIR = (
        "compressed air let in: its oxygen with oil, or with a flammable refrigerant, can explode, and it brings water"
    )
    REFRIGERANT = "refrigerant used to find a leak: venting it is forbidden; use nitrogen"
    NO_REGULATOR = "nitrogen taken from the cylinder without a regulator: full cylinder pressure bursts the unit"
    REGULATOR_TOO_HIGH = "the regulator is set above the unit's test pressure: the weaker side can burst"
    NO_RELIEF = "no relief valve behind the regulator: if the regulator creeps, nothing stops the pressure"
    RELIEF_TOO_HIGH = "the relief valve opens only above 1.1 times the test pressure: it would come too late"
    NOT_TIED = "the nitrogen cylinder stands loose: if it falls and the valve breaks off, it flies"
    NOT_RECOVERED = "refrigerant still in the system: recover it before nitrogen goes in"
    COMPRESSOR_PLUGGED_IN = "the unit is plugged in: a compressor that runs on nitrogen overloads and overheats"


@dataclass(frozen=True)
class Rig:
    """A unit made ready for a nitrogen test. Pressures are gauge pressures, as on nameplate and regulator."""

    gas: TestGas
    has_regulator: bool
    regulator_gauge_pa: float
    relief_gauge_pa: float | None
    low_side_gauge_pa: float
    high_side_gauge_pa: float
    sides_joined: bool = True
    cylinder_tied: bool = True
    recovered: bool = True
    unplugged: bool = True


def _check_nameplate(name: str, gauge_pa: float) -> None:
    check_positive(name, gauge_pa, "Pa gauge", "Was it read off the wrong line of the nameplate?")
    bar = gauge_pa / BAR
    if gauge_pa > MOST_TEST_PA:
        raise InputError(
            f"{name} is {bar:.4g} bar gauge; no small appliance is tested above {MOST_TEST_PA / BAR:g} bar. "
            f"Was it {bar:.4g} psi, which is {bar * PSI / BAR:.3g} bar?"
        )
    if gauge_pa < LEAST_TEST_GAUGE_PA:
        raise InputError(
            f"{name} is {bar:.4g} bar gauge; a test pressure is at least {LEAST_TEST_GAUGE_PA / BAR:g} bar. "
            f"Was it {gauge_pa:.4g} bar or psi, typed where pascal is asked for?"
        )


def highest_test_pressure(low_side_gauge_pa: float, high_side_gauge_pa: float, sides_joined: bool = True) -> float:
    """Highest gauge pressure that the nameplate allows for the test.

    Parameters
    ----------
    low_side_gauge_pa : float
        Nameplate pressure of the low side [Pa gauge]
    high_side_gauge_pa : float
        Nameplate pressure of the high side [Pa gauge]
    sides_joined : bool
        Whether gas can pass from one side to the other, as through a capillary tube [-]

    Returns
    -------
    float
        The lower of the two where the sides are joined, else that of the high side [Pa gauge]

    Raises
    ------
    InputError
        If a pressure is none that stands on a nameplate, or the low side's is above the high side's.
    """
    _check_nameplate("the low side's nameplate pressure", low_side_gauge_pa)
    _check_nameplate("the high side's nameplate pressure", high_side_gauge_pa)
    if low_side_gauge_pa > high_side_gauge_pa:
        raise InputError(
            f"the low side's nameplate pressure is {low_side_gauge_pa / BAR:.4g} bar gauge, above the high side's "
            f"{high_side_gauge_pa / BAR:.4g} bar; it never is. Were the two swapped?"
        )
    return low_side_gauge_pa if sides_joined else high_side_gauge_pa


def hazards(rig: Rig) -> tuple[NitrogenHazard, ...]:
    """All that is wrong with a rig, worst first; nothing if the test may start.

    Parameters
    ----------
    rig : Rig
        Unit, gas and fittings [-]

    Returns
    -------
    tuple of NitrogenHazard
        Empty if nothing is wrong

    Notes
    -----
    That the relief valve opens at no more than 1.1 times the test pressure is common practice, no source.
    """
    most = highest_test_pressure(rig.low_side_gauge_pa, rig.high_side_gauge_pa, rig.sides_joined)
    relief = rig.relief_gauge_pa
    found = {
        NitrogenHazard.OXYGEN: rig.gas is TestGas.OXYGEN,
        NitrogenHazard.COMPRESSED_AIR: rig.gas is TestGas.COMPRESSED_AIR,
        NitrogenHazard.REFRIGERANT: rig.gas is TestGas.REFRIGERANT,
        NitrogenHazard.NO_REGULATOR: not rig.has_regulator,
        NitrogenHazard.REGULATOR_TOO_HIGH: rig.has_regulator and rig.regulator_gauge_pa > most,
        NitrogenHazard.NO_RELIEF: relief is None,
        NitrogenHazard.RELIEF_TOO_HIGH: relief is not None and relief > 1.1 * most,
        NitrogenHazard.NOT_TIED: not rig.cylinder_tied,
        NitrogenHazard.NOT_RECOVERED: not rig.recovered,
        NitrogenHazard.COMPRESSOR_PLUGGED_IN: not rig.unplugged,
    }
    return tuple(hazard for hazard, there in found.items() if there)


def check_rig(rig: Rig) -> None:
    """Raises if anything is wrong with a rig, with every hazard in words.

    Parameters
    ----------
    rig : Rig
        Unit, gas and fittings [-]

    Raises
    ------
    BenchError
        If there is a hazard.
    """
    found = hazards(rig)
    if found:
        raise BenchError("do not open the nitrogen: " + "; ".join(hazard.value for hazard in found))
