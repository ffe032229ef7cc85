"""The bridge to nbgrader: two exporters and three preprocessors that its configuration names.

nbgrader's `autograde` makes two passes over a hand-in. In the first, `RebuildFromMaster` puts the answers into the
released notebook; in the second, `JudgeAnswers` writes the judge's marks into the check cells and `SaveMarks` into the
gradebook. No kernel is started, and nothing depends on what a cell printed.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from nbconvert.exporters import HTMLExporter, NotebookExporter
from nbconvert.exporters.exporter import ResourcesDict
from nbformat.notebooknode import NotebookNode
from nbformat.v4 import new_notebook
from nbgrader.preprocessors import NbGraderPreprocessor
from traitlets import Bool, Unicode

from coldwright.labs.catalogue import lab as find_lab
from coldwright.labs.class_folder import ClassFolder, open_class
from coldwright.labs.question import Lab
from coldwright.marking.cell_outputs import write_outputs
from coldwright.marking.collect import answer_cells, collect
from coldwright.marking.gradebook import open_gradebook, write_marks
from coldwright.marking.hand_in import KNOWN_FILES, fingerprint, judge_answers, read_master, refuse
from coldwright.marking.handed_notebook import read_handed_in
from coldwright.marking.intake_notebook import intake_notices
from coldwright.marking.record import FILE_NAME, save_marks

OURS = "coldwright"  # key in a rebuilt notebook's metadata and in nbconvert's resources
TIMESTAMP = "timestamp.txt"

Step = tuple[NotebookNode, ResourcesDict]


class HandInExporter(NotebookExporter):
    """Opens a hand-in without reading it, so that no state of the file can stop nbgrader."""

    def from_filename(self, filename: str, resources: Any = None, **kw: Any) -> Any:
        """A notebook and its resources; a handed-in one stays empty until `RebuildFromMaster` reads it.

        Parameters
        ----------
        filename : str
            The notebook's file [-]
        resources : dict, optional
            nbconvert's resources [-]
        **kw
            What nbconvert adds [-]
        """
        course = self.parent.coursedir
        path = Path(filename)
        if not path.is_relative_to(Path(course.root) / course.submitted_directory):
            return super().from_filename(filename, resources=resources, **kw)
        found = ResourcesDict()
        found.update(resources or {})
        found["metadata"] = ResourcesDict()
        found["metadata"].update(name=path.stem, path=str(path.parent))
        return self.from_notebook_node(new_notebook(), resources=found, **kw)


class FeedbackExporter(HTMLExporter):
    """HTML with a name of its own, so that settings of the feedback page leave nbgrader's grading page alone."""


class ClassPreprocessor(NbGraderPreprocessor):
    """A preprocessor that knows the class folder."""

    class_root = Unicode("", help="The class's folder.").tag(config=True)

    def about(self, resources: ResourcesDict) -> tuple[ClassFolder, Lab, str, Path]:
        """Class, lab, learner, and the folder handed in.

        Parameters
        ----------
        resources : ResourcesDict
            nbconvert's resources, with nbgrader's names in them [-]
        """
        class_folder = open_class(Path(self.class_root))
        lab = find_lab(resources["nbgrader"]["assignment"])
        learner = resources["nbgrader"]["student"]
        return class_folder, lab, learner, class_folder.part("submitted", learner, lab.folder)


class RebuildFromMaster(ClassPreprocessor):
    """Rebuilds the notebook from the released one; only the answer cells come from the hand-in."""

    def preprocess(self, nb: NotebookNode, resources: ResourcesDict) -> Step:  # noqa: ARG002
        """The rebuilt notebook, with notices in its metadata; `nb` is not looked at.

        Parameters
        ----------
        nb : NotebookNode
            Not looked at [-]
        resources : ResourcesDict
            nbconvert's resources, with nbgrader's names in them [-]
        """
        class_folder, lab, learner, _ = self.about(resources)
        metadata = resources["metadata"]
        handed_in, refused = read_handed_in(Path(metadata["path"]) / f"{metadata['name']}.ipynb")
        collected = collect(read_master(class_folder, lab), handed_in, lab)
        notebook = collected.notebook
        notices = [*intake_notices(handed_in), *collected.notices]
        notebook.metadata[OURS] = {"notices": notices, "refused": refused}
        _drop_strangers(class_folder.part("autograded", learner, lab.folder))
        return notebook, resources


def _drop_strangers(folder: Path) -> None:
    """Remove what nbgrader copied beside the notebook and no one asked for; feedback would carry it on."""
    for path in folder.rglob("*"):
        known = path.parent == folder and path.name in (*KNOWN_FILES, TIMESTAMP)
        if not known and not path.is_dir():
            path.unlink()


class JudgeAnswers(ClassPreprocessor):
    """Judges the answers and writes the marks into the check cells."""

    trusted = Bool(False, help="Run learners' code also where there is no sandbox.").tag(config=True)

    def preprocess(self, nb: NotebookNode, resources: ResourcesDict) -> Step:
        """The notebook with marks in it; the marks themselves go on in the resources.

        Parameters
        ----------
        nb : NotebookNode
            What `RebuildFromMaster` gave [-]
        resources : ResourcesDict
            nbconvert's resources, with nbgrader's names in them [-]
        """
        class_folder, lab, learner, folder = self.about(resources)
        told = nb.metadata[OURS]
        if told["refused"]:
            marks = refuse(lab, told["refused"])
        else:
            cells = answer_cells(nb, lab)
            marks = judge_answers(cells, told["notices"], folder, learner, lab, class_folder, self.trusted)
        write_outputs(nb, marks, lab)
        told["fingerprint"] = fingerprint(folder, learner, lab, class_folder, self.trusted)
        resources[OURS] = marks
        return nb, resources


class SaveMarks(ClassPreprocessor):
    """Writes the marks into the gradebook, and then beside the notebook."""

    def preprocess(self, nb: NotebookNode, resources: ResourcesDict) -> Step:
        """The notebook as it came.

        Parameters
        ----------
        nb : NotebookNode
            What `JudgeAnswers` gave [-]
        resources : ResourcesDict
            nbconvert's resources, with nbgrader's names in them [-]
        """
        class_folder, lab, learner, _ = self.about(resources)
        marks = resources[OURS]
        with open_gradebook(class_folder, resources["nbgrader"]["db_url"]) as gradebook:
            write_marks(gradebook, lab, learner, marks)
        save_marks(Path(resources["metadata"]["path"]) / FILE_NAME, marks, nb.metadata[OURS]["fingerprint"])
        return nb, resources
