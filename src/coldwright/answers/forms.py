"""The form of an answer, and what a person typed read into it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from coldwright.errors import AnswerError
from coldwright.quantities import Kind, read

BLANKS = ("", "?", "...", "…")
ODD_FORMS = "type one value in quotes, such as"


@dataclass(frozen=True)
class ChoiceForm:
    """One word out of a few. Each choice maps to other spellings that count as the same."""

    choices: Mapping[str, tuple[str, ...]]

    @property
    def example(self) -> str:
        """Choices as they stand in a message."""
        return ", ".join(f'"{choice}"' for choice in self.choices)


@dataclass(frozen=True)
class NumberForm:
    """A number with a unit of one kind, or one of a few words such as OL."""

    kind: Kind
    example: str
    words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


Form = ChoiceForm | NumberForm


@dataclass(frozen=True)
class Given:
    """An answer as it was read: a number in SI or a word, and how to show it back."""

    shown: str
    number: float | None = None
    word: str | None = None


def normalise(text: str) -> str:
    """Text with case, blanks, hyphens and a leading "pin" set aside.

    Parameters
    ----------
    text : str
        What was typed [-]
    """
    plain = re.sub(r"[\s_\-\u00a0]+", " ", text.casefold().replace("’", "'")).strip(" .'\"")
    return plain.removeprefix("pin ").strip()


def is_blank(raw: object) -> bool:
    """Whether nothing was answered.

    Parameters
    ----------
    raw : object
        What stands in the answer cell [-]
    """
    return raw is None or (isinstance(raw, str) and raw.strip() in BLANKS)


def _find_word(text: str, choices: Mapping[str, tuple[str, ...]]) -> str | None:
    wanted = normalise(text)
    for choice, spellings in choices.items():
        if wanted in (normalise(choice), *map(normalise, spellings)):
            return choice
    return None


def read_answer(form: Form, raw: str | int | float) -> Given:
    """An answer read into its form; says nothing of right or wrong.

    Parameters
    ----------
    form : ChoiceForm or NumberForm
        The form wanted [-]
    raw : str, int or float
        What was typed; not blank [-]

    Raises
    ------
    AnswerError
        If it cannot be read; the message says which form is wanted.
    """
    if type(raw) not in (str, int, float):
        raise AnswerError(f"this is not one value; {ODD_FORMS} {form.example}")
    text = str(raw)
    if len(text) > 64:
        raise AnswerError(f"this is {len(text)} characters long; an answer has at most 64, such as {form.example}")
    if isinstance(form, ChoiceForm):
        word = _find_word(text, form.choices)
        if word is None:
            raise AnswerError(f"this is none of the words asked for; choose one of {form.example}")
        return Given(word, word=word)
    word = _find_word(text, form.words)
    if word is not None:
        return Given(word, word=word)
    reading = read(text, form.kind)
    return Given(f"{reading.number} {reading.unit}", number=reading.value)
