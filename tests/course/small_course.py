"""A small course for tests: a lesson of three cells and a lab with every question of the winding checks, blank."""

from pathlib import Path

from coldwright.labs.catalogue import lab

LAB = lab("winding_checks")
LESSON = """# %% [markdown] key="title"
# # Winding checks: the lesson
#
# Pull the plug first. Then read each pair of pins.

# %% hide="true" key="set-up"
room = "20 °C"

# %%
print("The room is at", room)
"""


def lab_script() -> str:
    """A lab with an answer cell and a check cell for each question."""
    cells = ['# %% [markdown] key="title"\n# # Winding checks: the lab\n']
    for question in LAB.questions:
        if question.answers:
            lines = "\n".join(f'{answer.name} = ""  # type it here' for answer in question.answers)
            cells.append(f'# %% answer="{question.name}"\n{lines}\n')
        cells.append(f'# %% check="{question.name}"\n')
    return "\n".join(cells)


def write_sources(folder: Path, lesson: str | None = LESSON, lab_text: str | None = None) -> Path:
    """A folder of sources with topic 03; a text of None leaves the script out."""
    topic = folder / LAB.folder
    topic.mkdir(parents=True, exist_ok=True)
    if lesson is not None:
        (topic / "lesson.py").write_text(lesson, encoding="utf-8")
    (topic / "lab.py").write_text(lab_script() if lab_text is None else lab_text, encoding="utf-8")
    return folder
