"""The file of a job sheet, which grows by one line for each act."""

from __future__ import annotations

import os
from pathlib import Path

from coldwright.errors import BenchError


class SheetFile:
    """A job sheet's file, opened for going on.

    Parameters
    ----------
    path : Path
        The file [-]
    text : str
        What it holds from now on; it is written only where it holds something else [-]
    """

    def __init__(self, path: Path, text: str) -> None:
        self._path = path
        if not path.exists() or path.read_bytes() != text.encode():
            part = path.with_name(f".{path.name}.part")
            part.write_text(text, encoding="utf-8", newline="\n")
            os.replace(part, path)
        self._size = path.stat().st_size

    def append(self, line: str) -> None:
        """Add one line, safe on the disk when this returns.

        Parameters
        ----------
        line : str
            The line with its end [-]

        Raises
        ------
        BenchError
            If the file is not as this bench left it.
        """
        if not self._path.exists() or self._path.stat().st_size != self._size:
            raise BenchError(
                "the job sheet was changed outside this window: it is open in another one, or was edited or deleted. "
                "Close the other window, choose Kernel, Restart, and run the cell with the bench again"
            )
        with self._path.open("a", encoding="utf-8", newline="\n") as file:
            file.write(line)
            file.flush()
            os.fsync(file.fileno())
        self._size = self._path.stat().st_size
