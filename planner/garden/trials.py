"""Trials: plantings that are compared, with a question."""

from __future__ import annotations

from typing import Self

from pydantic import Field, model_validator

from planner.garden.model import Id, Label, Model, Name, Notes
from planner.words import say

MOST_ENTRIES = 500


class TrialEntry(Model):
    """A planting in a trial.

    Entries of one ``treatment`` are alike in what is compared; entries of one ``block`` stand under like conditions, side by side
    in one bed, and are compared with each other.
    """

    planting: Id
    treatment: Name = Field(description="What is tried there: a variety, a cover, a spacing.")
    block: Label = Field(
        default="", description="Those of one block stand under like conditions; none where not given."
    )


class Trial(Model):
    """Two or more plantings that are compared to answer a question."""

    id: Id
    question: Name
    measure: Label = Field(
        default="", description="What is measured, as its records name it; the mass picked where not given."
    )
    entries: tuple[TrialEntry, ...] = Field(default=(), max_length=MOST_ENTRIES)
    lost_counts: bool = Field(
        default=False,
        description="Whether a planting that was lost counts as one of which nothing was picked; else it is left out.",
    )
    notes: Notes = ""

    @model_validator(mode="after")
    def _each_once(self) -> Self:
        keys = [entry.planting for entry in self.entries]
        if len(set(keys)) < len(keys):
            twice = next(key for key in keys if keys.count(key) > 1)
            raise ValueError(say("planting '{twice}' is in the trial twice; give it once", twice=twice))
        return self
