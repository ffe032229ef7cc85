"""The topics of the course, in their order."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.errors import CourseError


@dataclass(frozen=True)
class Topic:
    """One topic. `number` has two digits; `line` says in one line what a learner does there."""

    number: str
    name: str
    title: str
    line: str

    @property
    def folder(self) -> str:
        """Name of its folder, in the sources and in the course."""
        return f"{self.number}_{self.name}"


TOPICS = (
    Topic("00", "safe_isolation", "Safe isolation and the meter", "Prove a circuit dead and read a meter with its ±."),
    Topic("01", "stored_charge", "Stored charge", "Find what a capacitor holds and how to let it out safely."),
    Topic("02", "reading_the_circuit", "Reading the circuit", "Follow a schematic and hunt for the break."),
    Topic("03", "winding_checks", "Winding checks", "Find common, start and run, and say if a winding is good."),
    Topic("04", "start_circuits", "Start circuits", "Find out which start device has failed."),
    Topic("05", "capacitors", "Capacitors", "Test a capacitor and choose the right one."),
    Topic("06", "overloads", "Overloads and locked rotor", "Find out why it clicks, and prove the repair."),
    Topic("07", "pressure_and_temperature", "Pressure and temperature", "Read gauges, superheat and subcooling."),
    Topic("08", "cycle", "The cycle on a p-h chart", "Draw the cycle and see what a dirty condenser does."),
    Topic("09", "opening_the_system", "Opening the system", "Test for leaks, recover, evacuate and close again."),
    Topic("10", "charging", "Charge by weight and by pressure", "Weigh in a charge, and know when pressure misleads."),
    Topic("11", "proof", "Proof of the repair", "Show that the cabinet cools, and hand it over."),
    Topic("12", "cases", "Whole cases", "Go from the complaint to the job record."),
)


def topic(folder: str) -> Topic:
    """The topic of a folder.

    Parameters
    ----------
    folder : str
        Name of the folder, such as `03_winding_checks` [-]

    Raises
    ------
    CourseError
        If the course has no such topic; the message lists those it has.
    """
    for found in TOPICS:
        if found.folder == folder:
            return found
    raise CourseError(
        f"folder {folder!r} is no topic of the course; it has {', '.join(each.folder for each in TOPICS)}"
    )
