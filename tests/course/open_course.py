"""The course, opened for a test: a process of its own, closed again whatever happens."""

import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

PROGRAM = """
import sys
from pathlib import Path
from coldwright.course.jupyter import open_course
sys.exit(open_course(Path(sys.argv[1]), browser=False))
"""


@dataclass
class Opened:
    """The process, the address it gave, and what it said in all."""

    process: "subprocess.Popen[str]"
    address: str
    said: list[str] = field(default_factory=list)

    @property
    def base(self) -> str:
        """Address of the server itself."""
        return self.address.split("lab/", 1)[0]

    @property
    def token(self) -> str:
        """The token of this run."""
        return self.address.split("token=", 1)[1]


@contextmanager
def opened(folder: Path) -> Iterator[Opened]:
    """The course of a folder, open."""
    command = [sys.executable, "-c", PROGRAM, str(folder)]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    assert process.stdout is not None
    try:
        line = process.stdout.readline()
        found = re.search(r"http://\S+", line)
        assert found, line + process.stdout.read()
        course = Opened(process, found[0])
        yield course
        process.terminate()
        rest, _ = process.communicate(timeout=30)
        course.said += [each.strip() for each in (line + rest).splitlines() if each.strip()]
    finally:
        if process.poll() is None:
            process.terminate()
            process.wait(30)
