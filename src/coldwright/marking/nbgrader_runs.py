"""nbgrader's own steps run in this process, with the configuration of the class: release, autograde, feedback.

What nbgrader says goes to `nbgrader.log` in the class folder.
"""

from __future__ import annotations

import logging
import os
import shutil
import sys
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from nbgrader.converters import Autograde, GenerateAssignment, GenerateFeedback
from nbgrader.converters.base import BaseConverter, NbGraderException
from nbgrader.coursedir import CourseDirectory
from sqlalchemy.exc import SQLAlchemyError
from traitlets.config import Config, PyFileConfigLoader

from coldwright.errors import ColdwrightError, CourseError
from coldwright.labs.class_folder import NOTEBOOK, ClassFolder
from coldwright.labs.question import Lab
from coldwright.marking.gradebook import enrol
from coldwright.marking.nbgrader_config import CONFIG_NAME, write_class_config

LOG_NAME = "nbgrader.log"


def load_config(class_folder: ClassFolder, trusted: bool = False) -> Config:
    """The configuration that nbgrader's own commands use in this class.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    trusted : bool
        Run code also where there is no sandbox; the class's settings may allow it too [-]

    Raises
    ------
    CourseError
        If the settings cannot be run.
    """
    path = write_class_config(class_folder)
    try:
        config = PyFileConfigLoader(CONFIG_NAME, path=str(class_folder.root)).load_config()
    except ColdwrightError:
        raise
    except Exception as error:  # the file is a program that the instructor may add to: anything can come out of it
        raise CourseError(
            f"the settings {path} cannot be run ({type(error).__name__}: {error}). Put right what was added to the "
            "file, or delete it: then it is written anew"
        ) from error
    if trusted:
        config.JudgeAnswers.trusted = True
    return config


@contextmanager
def nbgrader_log(class_folder: ClassFolder) -> Iterator[logging.Logger]:
    """A log for nbgrader, and the programs it calls on the path, as long as it is needed.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    """
    log = logging.Logger("nbgrader", logging.INFO)
    handler = logging.FileHandler(class_folder.root / LOG_NAME, encoding="utf-8")
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
    log.addHandler(handler)
    before, here = os.environ.get("PATH", ""), str(Path(sys.executable).parent)
    os.environ["PATH"] = os.pathsep.join((here, before))
    try:
        with warnings.catch_warnings():
            warnings.filterwarnings("ignore", module="nbgrader")  # its own, about the order it fills its tables in
            yield log
    finally:
        os.environ["PATH"] = before
        handler.close()


def _run(converter: type[BaseConverter], config: Config, log: logging.Logger, lab: Lab, learner: str) -> bool:
    """Whether nbgrader's step went through."""
    course = CourseDirectory(config=config, log=log, assignment_id=lab.folder, student_id=learner)
    step: Any = converter(coursedir=course, config=config, log=log)
    step.force = True
    try:
        step.start()
    except NbGraderException:
        return False
    except (OSError, SQLAlchemyError):
        log.exception("%s could not write or read what it needs", converter.__name__)
        return False
    return True


def release(class_folder: ClassFolder, lab: Lab) -> Path:
    """Make the release version of a lab from `source`, as `nbgrader generate_assignment` does, and enrol the roster.

    Parameters
    ----------
    class_folder : ClassFolder
        The class, with the lab's notebook in its `source` [-]
    lab : Lab
        The lab [-]

    Returns
    -------
    Path
        Folder of the released notebook.

    Raises
    ------
    CourseError
        If nbgrader does not accept the notebook.
    """
    with nbgrader_log(class_folder) as log:
        config = load_config(class_folder)
        enrol(class_folder)
        if not _run(GenerateAssignment, config, log, lab, "*"):
            raise CourseError(
                f"nbgrader did not accept the notebook of {lab.folder}; {class_folder.root / LOG_NAME} says why"
            )
    return class_folder.part("release", ".", lab.folder)


def autograde(class_folder: ClassFolder, lab: Lab, learner: str, config: Config, log: logging.Logger) -> bool:
    """Whether one hand-in went through `nbgrader autograde`.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    learner : str
        Learner's id [-]
    config : Config
        What `load_config` gave [-]
    log : Logger
        What `nbgrader_log` gave [-]
    """
    whole = _run(Autograde, config, log, lab, learner)
    if not whole:
        shutil.rmtree(class_folder.part("autograded", learner, lab.folder), ignore_errors=True)
    return whole


def generate_feedback(
    class_folder: ClassFolder, lab: Lab, learner: str, config: Config, log: logging.Logger
) -> Path | None:
    """One learner's feedback page by `nbgrader generate_feedback`; None where it did not go through.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    learner : str
        Learner's id [-]
    config : Config
        What `load_config` gave [-]
    log : Logger
        What `nbgrader_log` gave [-]
    """
    page = class_folder.part("feedback", learner, lab.folder) / f"{NOTEBOOK}.html"
    return page if _run(GenerateFeedback, config, log, lab, learner) and page.is_file() else None
