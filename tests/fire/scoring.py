"""What an attack tried, and what went wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from random import Random

#: One try: a seeded source of chance, in; an empty text where all held, else what went wrong.
Try = Callable[[Random], str]


@dataclass
class Score:
    """Tries of one attack.

    Attributes
    ----------
    name : str
    tried : int
    failed : list of str
        What went wrong, with the seed of the try.
    """

    name: str
    tried: int = 0
    failed: list[str] = field(default_factory=list)

    def line(self) -> str:
        """One line of the report."""
        head = f"{self.name}: {self.tried} tried, {len(self.failed)} failed"
        return "\n".join([head, *(f"    {one}" for one in self.failed[:5])])


def attack(name: str, one: Try, more: Iterator[int]) -> Score:
    """Try an attack with each seed.

    Parameters
    ----------
    name : str
    one : callable
    more : iterator of int
        Seeds; it ends the attack.
    """
    score = Score(name)
    for seed in more:
        score.tried += 1
        try:
            wrong = one(Random(seed))
        except Exception as fault:
            wrong = f"{type(fault).__name__}: {fault}"
        if wrong:
            score.failed.append(f"seed {seed}: {wrong[:300]}")
    return score
