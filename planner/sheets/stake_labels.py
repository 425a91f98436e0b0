"""What stands on stake labels: a label a planting, or one a row."""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

from planner.amounts.begun import begun_in_year
from planner.garden import Bed, Planting
from planner.listings.phrases import Measure, day, season
from planner.plan import Plan
from planner.plan.drawing_groups import plot_letters
from planner.sheets.steps import steps
from planner.words import capital, say

#: The work whose days stand on a label.
BEGINNINGS = ("sow", "set out", "plant")


class StakeLabel(NamedTuple):
    """What is on one label.

    Attributes
    ----------
    bed : str
        Name of its bed.
    name, variety : str
        Crop and variety; the variety may be empty.
    lines : tuple of str
        Bed with its plot, days.
    codes : tuple of str
        Texts of its code, the fullest first: with all work of its planting, and with its beginning only.
    """

    bed: str
    name: str
    variety: str
    lines: tuple[str, ...]
    codes: tuple[str, ...]


def stake_labels(
    plan: Plan, beds: Collection[str] | None = None, *, per_row: bool = False
) -> tuple[StakeLabel, ...]:
    """Labels of the plantings begun in the growing year, bed by bed.

    Parameters
    ----------
    plan : Plan
    beds : collection of str, optional
        Ids of beds; all by default.
    per_row : bool
        Whether each row has a label.
    """
    found = []
    for bed, planting in _begun(plan, beds):
        rows = len(plan.placed(planting).layout.rows) if per_row else 1
        found += [_label(plan, bed, planting)] * max(1, rows)
    return tuple(found)


def _begun(plan: Plan, beds: Collection[str] | None) -> list[tuple[Bed, Planting]]:
    begun = {one.id for one in begun_in_year(plan)}
    chosen = [bed for bed in plan.beds if beds is None or bed.id in beds]
    return [(bed, one) for bed in chosen for one in plan.in_bed(bed) if one.id in begun]


def _label(plan: Plan, bed: Bed, planting: Planting) -> StakeLabel:
    name = capital(plan.catalogue.name_of(planting.crop))
    place = say("{bed}, plot {letter}", bed=bed.name, letter=plot_letters(plan, bed).get(planting.id, ""))
    dates = plan.dates(planting)
    done = [step for step in steps(planting, dates, thinned=False, year=plan.span) if step.at is not None]
    begins = [step for step in done if step.word in ("sow", "set out", "plant")]
    days = tuple(
        say("{work} {day}", work=step.words, day=day(step.at.day)) for step in begins if step.at is not None
    )
    codes = tuple(_code_text(plan, planting, name, place, words) for words in (None, BEGINNINGS))
    return StakeLabel(bed.name, name, planting.variety, (place, *days), codes)


def _dated(plan: Plan, planting: Planting, words: Collection[str] | None) -> list[str]:
    """The work of a planting with its days; that of some words, or all."""
    found = steps(planting, plan.dates(planting), thinned=False, year=plan.span)
    return [
        say("{work} {day}", work=step.words, day=day(step.at.day))
        for step in found
        if step.at is not None and (words is None or step.word in words)
    ]


def _code_text(plan: Plan, planting: Planting, name: str, place: str, work: Collection[str] | None) -> str:
    """Everything a telephone shows: name, place, spacing, days of work."""
    measure, layout = Measure(plan.garden.site.units), plan.placed(planting).layout
    title = say("{crop} ‘{variety}’", crop=name, variety=planting.variety) if planting.variety else name
    garden = say(
        "{garden} {season}", garden=plan.garden.site.name, season=season(plan.garden.site, plan.year)
    )
    lines = [title, place, garden]
    if layout.in_row_spacing and layout.row_spacing:
        lines.append(
            say(
                "{apart} in the row, rows {rows} apart",
                apart=measure.spacing(layout.in_row_spacing),
                rows=measure.spacing(layout.row_spacing),
            )
        )
    lines += _dated(plan, planting, work)
    return "\n".join(line.replace("\u00a0", " ") for line in lines)
