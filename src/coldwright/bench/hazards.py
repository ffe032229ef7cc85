"""What would have hurt someone or broken something, in the words that go on the job sheet."""

from __future__ import annotations

from enum import Enum


class Hazard(Enum):
    """One hazard; the value is what the job sheet says."""

    OHMS_ON_LIVE = "ohms measured on a live unit: the reading means nothing and you and the meter are at risk"
    OHMS_ON_CHARGED = "ohms measured across a charged capacitor: the reading means nothing and the meter is at risk"
    METER_RUINED = "more voltage than the ohms input stands: the meter is ruined"
    TOUCHED_LIVE = "hands on terminals of a unit that was still plugged in: electric shock"
    TOUCHED_CHARGED = "hands on terminals while the capacitor was charged: electric shock"
    ENERGISED_UNDER_VACUUM = "hermetic compressor energised under vacuum: the voltage flashes over inside"
    INSULATION_TEST_UNDER_VACUUM = "insulation test on a hermetic compressor under vacuum: it flashes over inside"
    INSULATION_TEST_ON_ELECTRONICS = "insulation test with the inverter board still connected: 500 V ruins the board"
    INSULATION_TEST_ON_LIVE = "insulation tester put on a live or charged circuit"
    TOUCHED_LIVE_PART = "hands on a part of a unit that was still plugged in: electric shock"
    STARTED_GROUNDED = "start test on a motor just found grounded: its shell and the pipes can become live"
    FUSE_BLOWN = "the meter's current input was put across a voltage: its fuse blew"
    CAPACITANCE_ON_LIVE = "capacitance measured on a live circuit: the reading means nothing and the meter is at risk"
    CAPACITANCE_ON_CHARGED = (
        "capacitance measured on a charged capacitor: the reading means nothing, the meter is at risk"
    )
    DISCHARGED_LIVE = "a capacitor discharged while the unit was plugged in: electric shock and an arc"
    AIR_PUSHED_IN = "gauge hoses joined without purging: their air stays in the condenser and raises the pressure"
    WRONG_REFRIGERANT = "another refrigerant than the nameplate's: mixtures ruin the charge and the cylinder"
