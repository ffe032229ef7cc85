"""The kinds of quantity that the course deals in."""

from enum import Enum


class Kind(Enum):
    """What a number stands for. Two kinds never mix, even where their units look alike."""

    RESISTANCE = "resistance"
    VOLTAGE = "voltage"
    CURRENT = "current"
    POWER = "power"
    ENERGY = "energy"
    CAPACITANCE = "capacitance"
    CHARGE = "electric charge"
    FREQUENCY = "frequency"
    TIME = "time"
    MASS = "mass"
    LENGTH = "length"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature difference"
    PRESSURE_ABSOLUTE = "absolute pressure"
    PRESSURE_GAUGE = "gauge pressure"
    RATIO = "ratio"

    @property
    def noun(self) -> str:
        """Name of the kind as it stands in a sentence."""
        return self.value

    @property
    def phrase(self) -> str:
        """Name of the kind with its article, such as "an energy"."""
        return f"{'an' if self.noun[0] in 'aeiou' else 'a'} {self.noun}"


PRESSURES = (Kind.PRESSURE_GAUGE, Kind.PRESSURE_ABSOLUTE)
