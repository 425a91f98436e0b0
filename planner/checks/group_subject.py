"""What several findings of one kind have in common, of which one sentence is made."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple


class Subject(NamedTuple):
    """What several findings have in common.

    Attributes
    ----------
    crop, other : str
        Names of the crop they are about, and of the other one of pairs; may be empty.
    cause : str
        What is behind them; may be empty.
    number : int
        Beds of them; of findings about beds or ways, the findings themselves.
    """

    crop: str
    other: str
    cause: str
    number: int


#: Sentence of a number of findings, from what they have in common.
Phrase = Callable[[Subject], str]
#: Sentences by check and kind of finding.
Phrases = Mapping[tuple[str, str], Phrase]
