"""All kinds of sheets, and how each is written: the one way for the command line and the window."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import BinaryIO, Literal, get_args

from planner.plan import Plan
from planner.sheets.bed_sheets import Sources, write_bed_sheets
from planner.sheets.label_formats import label_format
from planner.sheets.label_sheets import NO_SHIFT, Shift, write_stake_labels
from planner.sheets.map_sheet import write_map_sheet
from planner.sheets.plan_strip import StripDay, four_days
from planner.sheets.poster import PosterWish
from planner.sheets.raising_sheet import write_raising_sheet
from planner.sheets.sheet_sources import SheetSources
from planner.sheets.shopping_sheet import write_shopping_sheet
from planner.sheets.walk_sheet import write_walk_sheet
from planner.sheets.water_sheet import write_water_sheet
from planner.sheets.weather_sheet import write_weather_sheet
from planner.sheets.week_sheets import write_week_sheets
from planner.sheets.year_sheet import write_year_sheet
from planner.words import later, say

SheetKind = Literal["bed", "week", "year", "raising", "map", "walk", "water", "shopping", "labels", "weather"]
SHEET_KINDS: tuple[SheetKind, ...] = get_args(SheetKind)

#: The title of each kind.
TITLES: dict[SheetKind, str] = {
    "bed": later("Bed sheets"),
    "week": later("Week sheets"),
    "year": later("Year sheet"),
    "raising": later("Raising sheet"),
    "map": later("Garden map"),
    "walk": later("Walk sheet"),
    "water": later("Watering sheet"),
    "shopping": later("Shopping list"),
    "labels": later("Stake labels"),
    "weather": later("Weather of a year"),
}
#: What is on each kind, in a sentence.
CONTENTS: dict[SheetKind, str] = {
    "bed": later("A sheet for each bed, drawn to scale, to plant and tend from."),
    "week": later("The work week by week, for each person, with boxes to tick."),
    "year": later(
        "The year as a picture: all beds week by week, each planting a bar, on one page up to forty beds."
    ),
    "raising": later(
        "What is sown, pricked out and set out from the benches, by week, and what stands on each bench."
    ),
    "map": later("The plan on a day to scale, and what grows where over the year, by crop and by bed."),
    "walk": later("The beds in walking order, with room to note what is seen."),
    "water": later("The watering of a week, bed by bed, in a dry year too, with boxes for its days."),
    "shopping": later("What to get, by which day and where."),
    "labels": later("A label for each planting begun in the year, on sheets of labels or strips to cut."),
    "weather": later(
        "What the recorded years say of the place, as one picture to hang up: warmth, frost and rain."
    ),
}


def title_of(kind: SheetKind) -> str:
    """The title of a kind of sheets."""
    return say(TITLES[kind])


def contents_of(kind: SheetKind) -> str:
    """What is on a kind of sheets, in a sentence."""
    return say(CONTENTS[kind])


#: Kinds of which some beds can be chosen, some days, a day, and the people who tend.
OF_BEDS: tuple[SheetKind, ...] = ("bed", "week", "walk", "water", "labels")
OF_DAYS: tuple[SheetKind, ...] = ("week",)
OF_A_DAY: tuple[SheetKind, ...] = ("map", "walk", "water")
OF_PEOPLE: tuple[SheetKind, ...] = ("week",)
#: Labels where no other sheet is named, by paper.
USUAL_LABELS = {"a4": "a4-3x8", "a3": "a4-3x8", "letter": "letter-3x10"}


@dataclass(frozen=True)
class SheetWish:
    """Which sheets are wanted, and how.

    Attributes
    ----------
    kind : str
    beds : tuple of str or None
        Ids; None for all.
    first, last : date or None
        First and last day of week sheets; those of the growing year where None.
    tended_by : tuple of str or None
        Of week sheets: who tends the plantings, as entered; everybody and nobody where None.
    day : date or None
        Of the walk, the watering or the map; the day of printing where None.
    strip : bool
        Whether the map shows four days of the growing year side by side.
    days : tuple of date
        Days of that strip; one of each season where empty.
    poster : PosterWish or None
        The map as a poster of so many pages, or in such a scale.
    paper : str
        ``a4``, ``a3`` or ``letter``; labels have that of their sheet.
    tint : bool
        Whether plots of bed sheets are tinted by family.
    sources : {"with", "without", "alone"}
        Whether the sources of bed sheets are printed at the end, or nothing but them.
    labels : str
        Sheet of labels, as for :func:`planner.sheets.label_formats.label_format`; the usual one of the paper where empty.
    used : int
        Labels that the first sheet lacks already.
    shift : Shift
        Of labels.
    codes, per_row : bool
        Whether labels have codes, and whether each row has one.
    """

    kind: SheetKind = "bed"
    beds: tuple[str, ...] | None = None
    first: dt.date | None = None
    last: dt.date | None = None
    tended_by: tuple[str, ...] | None = None
    day: dt.date | None = None
    strip: bool = False
    days: tuple[dt.date, ...] = ()
    poster: PosterWish | None = None
    paper: str = "a4"
    tint: bool = False
    sources: Sources = "with"
    labels: str = ""
    used: int = 0
    shift: Shift = NO_SHIFT
    codes: bool = False
    per_row: bool = False


Target = BinaryIO | str | os.PathLike[str]
Progress = Callable[[int, int], None] | None


def write_sheets(
    plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress = None
) -> None:
    """Write sheets as one PDF.

    The same plan, wish and day give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    wish : SheetWish
    today : date
        Day of printing.
    progress : callable, optional
        Called as ``progress(done, all)`` now and then; may raise to stop the work, and nothing is written then.

    Raises
    ------
    SheetError
        Where there is nothing to write, or a path cannot be written.
    UnknownPaperError
        For an unknown paper.
    LabelFormatError
        For an unknown sheet of labels.
    """
    _WRITERS[wish.kind](plan, target, wish, today, progress)


def parts_of(plan: Plan, wish: SheetWish) -> Iterator[SheetWish]:
    """The same sheets in parts that can be made one after the other: a bed each, then the sources of all."""
    chosen = [bed.id for bed in plan.beds if (wish.beds is None or bed.id in wish.beds) and plan.in_bed(bed)]
    if wish.kind != "bed" or len(chosen) < 2:
        yield wish
        return
    for key in chosen:
        yield replace(wish, beds=(key,), sources="without")
    sources = SheetSources(plan)
    for key in chosen:
        sources.add_bed(plan.garden.beds_by_id[key])
    if sources:
        yield replace(wish, sources="alone")


def _bed(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    known = plan.garden.beds_by_id
    beds = None if wish.beds is None else [known[key] for key in wish.beds]
    write_bed_sheets(plan, target, beds, wish.paper, today, progress, tint=wish.tint, sources=wish.sources)


def _week(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    first, last = wish.first or plan.span.first, wish.last or plan.span.last
    write_week_sheets(plan, target, first, last, wish.paper, today, wish.beds, wish.tended_by, progress)


def _map(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    strip: tuple[StripDay, ...] = ()
    if wish.strip:
        strip = tuple(StripDay(day) for day in wish.days) or four_days(plan)
    write_map_sheet(plan, target, wish.day or today, wish.paper, today, strip, wish.poster)


def _walk(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    write_walk_sheet(plan, target, wish.day or today, wish.paper, wish.beds, today)


def _water(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    write_water_sheet(plan, target, wish.day or today, wish.paper, wish.beds, today)


def _shopping(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    write_shopping_sheet(plan, target, wish.paper, today)


def _year(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    write_year_sheet(plan, target, wish.paper, today)


def _raising(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    write_raising_sheet(plan, target, wish.paper, today)


def _labels(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    form = label_format(wish.labels or USUAL_LABELS[wish.paper])
    write_stake_labels(
        plan,
        target,
        form,
        wish.beds,
        used=wish.used,
        shift=wish.shift,
        codes=wish.codes,
        per_row=wish.per_row,
        progress=progress,
    )


def _weather(plan: Plan, target: Target, wish: SheetWish, today: dt.date, progress: Progress) -> None:
    write_weather_sheet(plan, target, wish.paper, today)


_WRITERS: dict[SheetKind, Callable[[Plan, Target, SheetWish, dt.date, Progress], None]] = {
    "bed": _bed,
    "week": _week,
    "year": _year,
    "raising": _raising,
    "map": _map,
    "walk": _walk,
    "water": _water,
    "shopping": _shopping,
    "labels": _labels,
    "weather": _weather,
}
