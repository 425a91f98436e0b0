"""Edits of trials."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import partial
from typing import Any

from planner.garden.edits.common import checked, put_thing, remove_things
from planner.garden.edits.plantings import add_planting
from planner.garden.garden import Garden
from planner.garden.plots import Plot
from planner.garden.trials import Trial, TrialEntry


def put_trial(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change a trial, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the trial; without one a new trial is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    return put_thing(garden, "trials", Trial, key, fields, letter="x", named_by="question")


def lay_trial(
    garden: Garden,
    bed: str,
    crop: str,
    year: int,
    question: str,
    places: Iterable[tuple[str, str, Plot]],
    fields: Mapping[str, Mapping[str, Any]] | None = None,
    measure: str = "",
) -> tuple[Garden, str]:
    """Plant a trial: one planting for each of its places, and the trial that compares them.

    Parameters
    ----------
    garden : Garden
    bed : str
        Id of the bed.
    crop : str
        Key of the crop.
    year : int
        Growing year.
    question : str
    places : iterable of (str, str, Plot)
        Treatment, block and plot of each.
    fields : mapping of str to mapping, optional
        Fields of a planting by its treatment; where it has none, its variety is the treatment.
    measure : str
        What is measured; the mass picked where empty.

    Returns
    -------
    garden, id of the trial
    """
    entries, after = [], garden
    for treatment, block, plot in places:
        own = (fields or {}).get(treatment, {"variety": treatment})
        after, key = add_planting(after, bed, crop, year, **{"purpose": "trial", "plot": plot, **own})
        entries.append(checked(partial(TrialEntry, planting=key, treatment=treatment, block=block), question))
    return put_trial(after, question=question, measure=measure, entries=tuple(entries))


def remove_trials(garden: Garden, keys: Iterable[str]) -> Garden:
    """Remove trials; their plantings and records stay.

    Parameters
    ----------
    garden : Garden
    keys : iterable of str
        Their ids.
    """
    return remove_things(garden, "trials", Trial, keys)
