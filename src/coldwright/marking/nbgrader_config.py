"""nbgrader's configuration for a class: the lists of its steps with ours in them, and where things lie.

Nothing of nbgrader is patched. A class folder holds a small `nbgrader_config.py` that calls `configure`, so that
nbgrader's own commands and its grading page give the same marks as ours.
"""

from __future__ import annotations

import os
import tomllib
from pathlib import Path
from typing import Any

from coldwright.errors import CourseError
from coldwright.labs.class_folder import SETTINGS, ClassFolder, open_class
from coldwright.labs.files import write_whole
from coldwright.marking.gradebook import database_url
from coldwright.marking.record import FILE_NAME

CONFIG_NAME = "nbgrader_config.py"
TRUSTED_VARIABLE = "COLDWRIGHT_TRUSTED"
CONFIG_TEXT = '''"""nbgrader's settings for this class; more of them may be added at the end."""

from pathlib import Path

from coldwright.marking.nbgrader_config import configure

configure(get_config(), Path(__file__).parent)  # noqa: F821 - nbgrader gives get_config
'''

RELEASE_STEPS = [  # nbgrader's own, less those that take out solutions and hidden tests: these notebooks hold none
    "nbgrader.preprocessors.IncludeHeaderFooter",
    "nbgrader.preprocessors.LockCells",
    "nbgrader.preprocessors.ClearOutput",
    "nbgrader.preprocessors.CheckCellMetadata",
    "nbgrader.preprocessors.ComputeChecksums",
    "nbgrader.preprocessors.SaveCells",
    "nbgrader.preprocessors.CheckCellMetadata",
]
FIRST_PASS = ["coldwright.marking.bridge.RebuildFromMaster", "nbgrader.preprocessors.CheckCellMetadata"]
SECOND_PASS = [
    "coldwright.marking.bridge.JudgeAnswers",
    "coldwright.marking.bridge.SaveMarks",
    "nbgrader.preprocessors.AssignLatePenalties",
    "nbgrader.preprocessors.CheckCellMetadata",
]
FEEDBACK_STEPS = ["nbgrader.preprocessors.GetGrades", "coldwright.marking.feedback.FeedbackPage"]
FEEDBACK_TEMPLATE = "coldwright_feedback"
TEMPLATES = Path(__file__).parent / "templates"
NOT_COPIED = [".ipynb_checkpoints", "*.pyc", "__pycache__", "feedback", FILE_NAME]


def is_trusted(class_folder: ClassFolder) -> bool:
    """Whether learners' code may run without a sandbox: `trusted = true` in the settings, or the variable is 1.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]

    Raises
    ------
    CourseError
        If the setting is neither true nor false.
    """
    settings = tomllib.loads((class_folder.root / SETTINGS).read_text(encoding="utf-8"))
    said = settings.get("trusted", False)
    if not isinstance(said, bool):
        raise CourseError(f"{class_folder.root / SETTINGS}: trusted is {said!r}; it must be true or false")
    return said or os.environ.get(TRUSTED_VARIABLE) == "1"


def configure(c: Any, class_root: Path) -> None:
    """Set nbgrader up for a class.

    Parameters
    ----------
    c : traitlets.config.Config
        The configuration to add to [-]
    class_root : Path
        The class's folder [-]

    Raises
    ------
    CourseError
        If it is no class folder.
    """
    class_folder = open_class(Path(class_root))
    c.CourseDirectory.root = str(class_folder.root)
    c.CourseDirectory.course_id = class_folder.course
    c.CourseDirectory.db_url = database_url(class_folder)
    c.CourseDirectory.ignore = list(NOT_COPIED)
    c.ClassPreprocessor.class_root = str(class_folder.root)
    c.JudgeAnswers.trusted = is_trusted(class_folder)
    c.GenerateAssignment.preprocessors = list(RELEASE_STEPS)
    c.Autograde.exporter_class = "coldwright.marking.bridge.HandInExporter"
    c.Autograde.sanitize_preprocessors = list(FIRST_PASS)
    c.Autograde.autograde_preprocessors = list(SECOND_PASS)
    c.GenerateFeedback.preprocessors = list(FEEDBACK_STEPS)
    c.GenerateFeedback.exporter_class = "coldwright.marking.bridge.FeedbackExporter"
    c.FeedbackExporter.template_name = FEEDBACK_TEMPLATE
    c.FeedbackExporter.extra_template_basedirs = [str(TEMPLATES)]


def write_class_config(class_folder: ClassFolder) -> Path:
    """The class's `nbgrader_config.py`, written if it is not there yet; what an instructor added is kept.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    """
    path = class_folder.root / CONFIG_NAME
    if not path.exists():
        write_whole(path, CONFIG_TEXT.encode())
    return path
