"""The exceptions a person may meet.

Each message names the thing, its value with unit, the rule it breaks and, where one is likely, the slip behind it.
Anything else that is raised is a bug.
"""


class ColdwrightError(Exception):
    """Base of every error that coldwright raises on purpose."""


class InputError(ColdwrightError, ValueError):
    """A value lies outside what a function or a model covers."""


class AnswerError(InputError):
    """What a person typed cannot be read; the message says which form is wanted."""


class BenchError(ColdwrightError):
    """An act cannot be done on the bench as it stands now."""


class SheetError(ColdwrightError):
    """A job sheet cannot be read, or its lines do not hang together."""


class TicketError(ColdwrightError):
    """A ticket is missing, altered, of another version or belongs to someone else."""


class HandInError(ColdwrightError):
    """What was handed in cannot be taken in; the message says why."""


class SandboxError(ColdwrightError):
    """There is no sandbox on this machine, or it does not hold."""


class CourseError(ColdwrightError):
    """The course cannot be built, handed out or opened."""
