"""The commands. Each parses, calls one function of the package and prints.

Answers go to stdout, talk and progress to stderr. Exit 0 for yes, 1 where the check says no, 2 for a bad command.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from pathlib import Path

from coldwright import __version__
from coldwright.cli.talk import say
from coldwright.errors import ColdwrightError

Command = Callable[[argparse.Namespace], int]


def repository() -> Path:
    """The clone that this package runs from.

    Raises
    ------
    ColdwrightError
        If the package was installed without the course around it.
    """
    root = Path(__file__).resolve().parents[3]
    if not (root / "source_notebooks").is_dir():
        raise ColdwrightError("the course's own folders are not here; run this in a clone of coldwright")
    return root


def _open(args: argparse.Namespace) -> int:
    from coldwright.course.jupyter import open_course
    from coldwright.course.study import course_folder, own_copy

    folder = course_folder(args.folder)
    for line in own_copy(repository() / "course", folder).lines:
        say(line)
    return open_course(folder, browser=not args.no_browser, port=args.port)


def _demo(args: argparse.Namespace) -> int:
    from coldwright.cli.demo import run_demo

    return run_demo(repository(), Path(args.into), as_json=args.json, trusted=args.trusted, lab_name=args.lab)


def _build(args: argparse.Namespace) -> int:
    from coldwright.course.build import build, check_built
    from coldwright.course.readability import reading_grades, too_hard

    root = repository()
    wrong = []
    if args.check:
        wrong = check_built(root / "source_notebooks", root / "course")
        if not wrong:
            print("course/ is what the sources build")
    else:
        for path in build(root / "source_notebooks", root / "course"):
            print(path.relative_to(root))
    grades = reading_grades(root / "source_notebooks")
    for script, grade in grades.items():
        say(f"reading grade of {script}: {grade:.1f}")
    wrong += too_hard(grades)
    for line in wrong:
        print(line)
    return 1 if wrong else 0


def _new_class(args: argparse.Namespace) -> int:
    from coldwright.cli.teaching import new_class

    return new_class(repository(), Path(args.folder), args.course, Path(args.roster))


def _hand_out(args: argparse.Namespace) -> int:
    from coldwright.cli.teaching import hand_out_lab

    return hand_out_lab(repository(), Path(args.folder), args.lab)


def _take_in(args: argparse.Namespace) -> int:
    from coldwright.cli.teaching import take_in_lab

    return take_in_lab(Path(args.folder), args.lab, Path(args.hand_ins))


def _mark(args: argparse.Namespace) -> int:
    from coldwright.cli.teaching import mark_lab

    return mark_lab(Path(args.folder), args.lab, as_json=args.json, trusted=args.trusted)


def parser() -> argparse.ArgumentParser:
    """The command line."""
    top = argparse.ArgumentParser(
        prog="python3 course",
        description="A training course in servicing small hermetic refrigeration. With no command it opens the course.",
    )
    top.add_argument("--version", action="version", version=__version__)
    commands = top.add_subparsers(title="commands", metavar="command")

    def add(name: str, run: Command, text: str) -> argparse.ArgumentParser:
        made = commands.add_parser(name, help=text, description=text)
        made.set_defaults(run=run)
        return made

    opened = add("open", _open, "open your own copy of the course in JupyterLab (the same as no command)")
    for where in (top, opened):
        where.add_argument("--folder", help="folder for your own copy (default: coldwright-course in your home folder)")
        where.add_argument("--no-browser", action="store_true", help="print the address, open no browser")
        where.add_argument("--port", type=int, help="port to serve on (default: a free one)")
    top.set_defaults(run=_open)

    demo = add("demo", _demo, "run an invented class through a lab, from hand-out to explained marks")
    demo.add_argument("--lab", default="winding_checks", help="name of the lab (default: winding_checks)")
    demo.add_argument("--into", default="demo_class", help="folder for the demo class (default: demo_class)")
    demo.add_argument("--json", action="store_true", help="print the marks as JSON")
    _add_trusted(demo)

    built = add("build", _build, "build the notebooks in course/ from source_notebooks/")
    built.add_argument("--check", action="store_true", help="only say whether course/ is what the sources build")

    started = add("new-class", _new_class, "make a class folder from a roster (CSV with id, first_name, last_name)")
    started.add_argument("folder", help="class folder to make")
    started.add_argument("--roster", required=True, help="CSV file with the learners")
    started.add_argument("--course", default="coldwright", help="name of the course on the tickets")

    for name, run, text in (
        ("hand-out", _hand_out, "release a lab and write one folder with a ticket for each learner"),
        ("take-in", _take_in, "take in hand-ins: a folder with one folder or zip file per learner id"),
        ("mark", _mark, "mark what was taken in, write feedback pages and marks.csv, print the table"),
    ):
        made = add(name, run, text)
        made.add_argument("folder", help="class folder")
        made.add_argument("lab", help="lab, such as winding_checks")
        if name == "take-in":
            made.add_argument("hand_ins", help="folder with the hand-ins")
        if name == "mark":
            made.add_argument("--json", action="store_true", help="print the marks as JSON")
            _add_trusted(made)
    return top


def _add_trusted(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--trusted", action="store_true", help="run learner code without a sandbox; only for people you trust"
    )


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code.

    Parameters
    ----------
    argv : sequence of str, optional
        The words after the program's name; those of the process if left out [-]
    """
    args = parser().parse_args(argv)
    try:
        return int(args.run(args))
    except ColdwrightError as error:
        say(f"coldwright: {error}")
        return 2
    except KeyboardInterrupt:
        say("stopped")
        return 130
