"""Numbers drawn from a seed by name, so that a new draw never moves an old one."""

from __future__ import annotations

import hashlib
import hmac
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")


class Draw:
    """Draws that depend on nothing but the seed and the name asked for.

    Parameters
    ----------
    seed : bytes
        The seed [-]
    """

    def __init__(self, seed: bytes):
        self._seed = seed

    def fraction(self, name: str) -> float:
        """A number from 0 up to but not including 1.

        Parameters
        ----------
        name : str
            What is drawn [-]
        """
        digest = hmac.new(self._seed, name.encode(), hashlib.sha256).digest()
        return (int.from_bytes(digest[:8], "big") >> 11) / 2**53

    def between(self, name: str, low: float, high: float) -> float:
        """A number from low to high, each as likely.

        Parameters
        ----------
        name : str
            What is drawn [-]
        low, high : float
            Ends of the span [any]
        """
        return low + (high - low) * self.fraction(name)

    def one_of(self, name: str, choices: Sequence[T]) -> T:
        """One of the choices, each as likely.

        Parameters
        ----------
        name : str
            What is drawn [-]
        choices : sequence
            At least one choice [-]
        """
        return choices[int(self.fraction(name) * len(choices))]

    def order(self, name: str, items: Sequence[T]) -> list[T]:
        """The items in a drawn order.

        Parameters
        ----------
        name : str
            What is drawn [-]
        items : sequence
            Items to order [-]
        """
        return sorted(items, key=lambda item: self.fraction(f"{name} {item}"))
