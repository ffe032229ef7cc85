"""The process that runs a hand-in's code: started, listened to, and ended with all that it started.

What it sends is cut off at a number of bytes and taken line by line; what the lines mean is the caller's business.
"""

from __future__ import annotations

import contextlib
import json
import os
import platform
import queue
import signal
import subprocess
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import IO, Any

from coldwright.marking import jail
from coldwright.marking.inside import READY

OUT_OF_TIME = "The code did not end in time and was stopped."  # on the clock or computing: which comes first is chance
START_S = 10.0  # a start takes 0.1 s; one that takes longer than this is a fault of the machine
_LAST_S = 0.3  # for the process to end once its channel is closed
_CHUNK = 65_536


@dataclass(frozen=True)
class Limits:
    """What a hand-in's code may use, all its cells together.

    `wall_s` and `cpu_s` are times [s], `memory_mb` is the memory of one process [MB], `file_mb` the size of one file
    and of all files together [MB], `processes` how many at once, threads included [-], `output_kb` what may come back
    [kB].
    """

    wall_s: float = 5.0
    cpu_s: int = 4
    memory_mb: int = 1000
    file_mb: int = 1
    processes: int = 1
    output_kb: int = 64


@dataclass(frozen=True)
class Ended:
    """How a run ended: a sentence for the learner, the limit that ended it, and why it never started if it did not."""

    message: str = ""
    limit: str | None = None
    not_started: str | None = None


def resource_limits(limits: Limits) -> dict[str, list[int]]:
    """Limits that the system keeps for each process, soft and hard, by the system's names.

    Parameters
    ----------
    limits : Limits
        What the code may use [-]
    """
    memory, file_size = limits.memory_mb * 1_000_000, limits.file_mb * 1_000_000
    return {
        "AS": [memory, memory],
        "CPU": [limits.cpu_s, max(limits.cpu_s, int(limits.wall_s)) + 2],  # who ignores the first meets the clock
        "FSIZE": [file_size, file_size],
        "NOFILE": [64, 64],
        "NPROC": [limits.processes, limits.processes],
        "CORE": [0, 0],
    }


def run(job: Mapping[str, Any], limits: Limits, used: jail.Jail | None, take: Callable[[bytes], bool]) -> Ended:
    """How the run of a job ended; nothing that it started is left alive in a jail.

    Parameters
    ----------
    job : mapping
        The job, as the program inside reads it [-]
    limits : Limits
        What the code may use [-]
    used : Jail, optional
        The jail; None to run without one [-]
    take : callable
        Gets each record; says whether more are wanted, and raises ValueError if it is none [-]
    """
    with tempfile.TemporaryFile() as job_file, tempfile.TemporaryFile() as errors:
        job_file.write(json.dumps(job).encode("ascii"))
        job_file.seek(0)
        try:
            with _started(limits, used, job_file, errors) as process:
                ended = _listen(process, limits, take)
        except OSError as error:
            return Ended(not_started=str(error))
        errors.seek(0)
        said = errors.read(_CHUNK).decode("utf-8", "replace").strip().splitlines()
    if ended.not_started is not None and said:
        return Ended(not_started=said[-1])
    return ended


@contextlib.contextmanager
def _started(
    limits: Limits, used: jail.Jail | None, job: IO[bytes], errors: IO[bytes]
) -> Iterator[subprocess.Popen[bytes]]:
    with contextlib.ExitStack() as stack:
        environment = dict(jail.ENVIRONMENT)
        if used is None:
            folder = stack.enter_context(tempfile.TemporaryDirectory(ignore_cleanup_errors=True))
            needed = {name: os.environ[name] for name in ("SYSTEMROOT",) if name in os.environ}  # Windows
            environment |= {"HOME": folder, **needed}
            command, open_files = [jail.python_program(), jail.PYTHON_FLAGS, str(jail.INSIDE)], list[int]()
        else:
            folder, open_files = "/", [stack.enter_context(_filter_pipe())]
            command = jail.jail_command(used, open_files[0], limits.file_mb * 1_000_000)
        process = subprocess.Popen(
            command,
            stdin=job,
            stdout=subprocess.PIPE,
            stderr=errors,
            cwd=folder,
            env=environment,
            pass_fds=open_files,
            start_new_session=True,
        )
        try:
            yield process
        finally:
            _end(process)


@contextlib.contextmanager
def _filter_pipe() -> Iterator[int]:
    """An open file with the system call filter, as bubblewrap wants it."""
    reading, writing = os.pipe()
    try:
        os.write(writing, jail.system_call_filter(platform.machine()))
        os.close(writing)
        yield reading
    finally:
        os.close(reading)


def _end(process: subprocess.Popen[bytes]) -> None:
    """Kill the process and its group; in a jail, everything in it dies with it."""
    if hasattr(os, "killpg"):
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGKILL)
    else:
        process.kill()
    process.wait()


def _read(pipe: IO[bytes], chunks: queue.Queue[bytes], most: int) -> None:
    """Puts what comes into the queue, at most so many bytes and one chunk; an empty chunk is the end."""
    got, chunk = 0, b"start"
    with pipe:
        while chunk and got <= most:
            chunk = os.read(pipe.fileno(), _CHUNK)
            got += len(chunk)
            chunks.put(chunk)


def _listen(process: subprocess.Popen[bytes], limits: Limits, take: Callable[[bytes], bool]) -> Ended:
    assert process.stdout is not None
    chunks: queue.Queue[bytes] = queue.Queue()
    most = limits.output_kb * 1000
    threading.Thread(target=_read, args=(process.stdout, chunks, most), daemon=True).start()
    deadline, started, got, rest = time.monotonic() + START_S, False, 0, b""
    while True:
        try:
            chunk = chunks.get(timeout=max(0.0, deadline - time.monotonic()))
        except queue.Empty:
            if not started:
                return Ended(not_started=f"it had not started after {START_S:g} s")
            return Ended(OUT_OF_TIME, "time")
        if not chunk:
            return _by_itself(process, started)
        got += len(chunk)
        if got > most:
            return Ended(f"The code gave back more than {limits.output_kb} kB and was stopped.", "output")
        *lines, rest = (rest + chunk).split(b"\n")
        for line in lines:
            if not started:
                if line + b"\n" != READY:
                    return Ended(not_started="it did not answer as it should")
                started, deadline = True, time.monotonic() + limits.wall_s
                continue
            try:
                if not take(line):
                    return Ended()
            except ValueError:
                return Ended("The code wrote where only results may go and was stopped.")


def _by_itself(process: subprocess.Popen[bytes], started: bool) -> Ended:
    """Why a process ended, or closed its channel, before its last record."""
    if not started:
        return Ended(not_started="it ended at once")
    try:
        code = process.wait(timeout=_LAST_S)
    except subprocess.TimeoutExpired:
        return Ended("The code closed the channel for its results and was stopped.")
    number = -code if code < 0 else code - 128  # bubblewrap adds 128 to the number of a signal
    if number == getattr(signal, "SIGXCPU", None):
        return Ended(OUT_OF_TIME, "time")
    if number in (signal.SIGSEGV, signal.SIGABRT, getattr(signal, "SIGBUS", None)):
        return Ended("The code crashed Python.")
    if number == getattr(signal, "SIGKILL", None):
        return Ended("The system stopped the code, most likely because it used too much memory or time.")
    return Ended("The code ended the program before its own end.")
