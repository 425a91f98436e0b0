"""The sample gardens that ship with the program, by name."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from planner import resources
from planner.cli.errors import UsageError
from planner.cli.suggestions import near_names
from planner.words import say

#: Ending of a garden file's name.
SUFFIX = ".bedwright"


def samples() -> dict[str, Path]:
    """Return the files of the sample gardens by name."""
    return {path.stem: path for path in sorted(resources.sample_folder().glob(f"*{SUFFIX}"))}


def sample(name: str) -> Path:
    """Return the file of a sample garden.

    Raises
    ------
    UsageError
        For a name that no sample has.
    """
    by_name = samples()
    path = by_name.get(name.removesuffix(SUFFIX))
    if path is None:
        close = near_names(name, by_name, likeness=0.5)
        raise UsageError(
            say("there is no sample '{name}'", name=name),
            fix=_samples_words(", ".join(by_name) or say("none"), close),
        )
    return path


def _samples_words(names: str, close: Sequence[str]) -> str:
    """Which samples there are, and which one may be meant."""
    if close:
        return say("Did you mean {name}? Samples are: {names}", name=close[0], names=names)
    return say("Samples are: {names}", names=names)
