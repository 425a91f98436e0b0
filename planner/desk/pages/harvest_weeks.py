"""The harvest of a year as a picture over its weeks, and each week in words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence

from planner.amounts.closing import gaps_of, time_of
from planner.amounts.eating import ALL_YEAR
from planner.amounts.harvest import Harvest
from planner.amounts.harvest_years import HIGH, LOW, HarvestYears, harvest_years
from planner.amounts.supply_year import CropYear, Gap, Glut
from planner.desk.pages.stack_lines import Mark
from planner.desk.pages.stacked_weeks import Band, Stack
from planner.listings.harvest_years import week_spread_words, year_spread_words
from planner.listings.phrases import days_in_short
from planner.listings.weights import OUNCE, POUND, weight_words
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.season.tasks import monday
from planner.words import capital, day_words, join_list, say

Chosen = Sequence[tuple[CropYear, tuple[Harvest, ...]]]
#: Most crops that a week names.
MOST_NAMED = 8


def mondays_of(span: Span) -> tuple[dt.date, ...]:
    """Mondays of all weeks of which a day lies in a span."""
    first = monday(span.first)
    return tuple(shift(first, 7 * number) for number in range((span.last - first).days // 7 + 1))


def scale_of(plan: Plan, highest: float) -> tuple[str, float]:
    """Unit of a picture whose highest value is so many grams, and the grams of one."""
    if plan.garden.site.units == "feet_inches":
        return ("oz", OUNCE) if highest < POUND else ("lb", POUND)
    return ("g", 1.0) if highest < 1000 else ("kg", 1000.0)


def harvest_stack(plan: Plan, chosen: Chosen) -> Stack:
    """What is picked week by week, with what the household would eat of it.

    Of a single crop each planting is a band, what is eaten is a second line, and weeks with too much and too little are
    marked; of several each crop is a band.

    Parameters
    ----------
    plan : Plan
    chosen : sequence of (CropYear, tuple of Harvest)
    """
    mondays = mondays_of(plan.span)
    single = chosen[0][0] if len(chosen) == 1 else None
    parts = _plantings(plan, chosen) if single is not None else _crops(plan, chosen)
    wanted, eaten = _wanted(plan, chosen, mondays)
    sums = [sum(weeks.get(day, 0) for *_, weeks in parts) for day in mondays]
    years = years_of(plan, chosen)
    highs = years.quantile(HIGH).tolist() if years is not None else []
    unit, grams = scale_of(plan, max((*sums, *highs, *(value or 0 for value in wanted)), default=0))
    bands = tuple(
        Band(key, name, family, tuple(weeks.get(day, 0) / grams for day in mondays))
        for key, name, family, weeks in parts
    )
    return Stack(
        mondays,
        plan.span,
        bands,
        _scaled(wanted, grams),
        say("wanted") if any(wanted) else "",
        unit,
        second=_scaled(eaten, grams) if single is not None else (),
        marks=tuple(_marks(plan, single, mondays)) if single is not None else (),
        spread=_spread(years, grams) if years is not None else (),
    )


def years_of(plan: Plan, chosen: Chosen) -> HarvestYears | None:
    """What is picked of the chosen crops in each recorded year."""
    return harvest_years(plan, [one for _, harvests in chosen for one in harvests])


def _spread(years: HarvestYears, grams: float) -> tuple[tuple[float, float] | None, ...]:
    """Between which sums most years lie, of weeks in which they differ by a gram."""
    both = zip(years.quantile(LOW).tolist(), years.quantile(HIGH).tolist(), strict=True)
    return tuple((low / grams, high / grams) if high - low >= 1 else None for low, high in both)


def _scaled(values: Sequence[float | None], grams: float) -> tuple[float | None, ...]:
    if not any(values):
        return ()
    return tuple(None if value is None else value / grams for value in values)


#: Key, name and family of a band, and its grams by Monday.
_Part = tuple[str, str, str, Mapping[dt.date, int]]


def _crops(plan: Plan, chosen: Chosen) -> list[_Part]:
    """Each crop with its weeks, those of a family beside each other."""
    crops: dict[str, list[Harvest]] = {}
    for _, harvests in chosen:
        for one in harvests:
            crops.setdefault(one.planting.crop, []).append(one)
    found = [
        (key, of_crop[0].crop, _family(plan, of_crop[0]), _added(one.weeks(plan.span) for one in of_crop))
        for key, of_crop in crops.items()
    ]
    return sorted(found, key=lambda part: (part[2], part[1].casefold()))


def _added(weeks: Iterable[Mapping[dt.date, int]]) -> Mapping[dt.date, int]:
    sums: dict[dt.date, int] = {}
    for one in weeks:
        for day, grams in one.items():
            sums[day] = sums.get(day, 0) + grams
    return sums


def _plantings(plan: Plan, chosen: Chosen) -> list[_Part]:
    several = len({one.crop for _, harvests in chosen for one in harvests}) > 1
    return [
        (one.planting.id, _name(one, several), _family(plan, one), one.weeks(plan.span))
        for _, harvests in chosen
        for one in sorted(harvests, key=lambda one: one.picks[0].day if one.picks else plan.span.last)
    ]


def _name(one: Harvest, with_crop: bool) -> str:
    words = [one.crop if with_crop else "", one.variety, one.bed.name]
    return ", ".join(word for word in words if word)


def _family(plan: Plan, one: Harvest) -> str:
    crop = plan.figures_of(one.planting).crop
    return crop.family if crop is not None else ""


# -- what is wanted and eaten ---------------------------------------------------------------------


def wanted_in(plan: Plan, year: CropYear) -> dict[dt.date, tuple[int, int]]:
    """What is wanted and eaten of a crop by Monday, in the weeks in which it may be had or that it is eaten in all year. [g]"""
    time = (dt.date.min, dt.date.max) if year.appetite.weeks >= ALL_YEAR else time_of(plan, year)
    if time is None:
        return {}
    first = monday(time[0]) if time[0] > dt.date.min else time[0]
    return {week.monday: (week.wanted, week.eaten) for week in year.weeks if first <= week.monday <= time[1]}


def _wanted(
    plan: Plan, chosen: Chosen, mondays: Sequence[dt.date]
) -> tuple[list[float | None], list[float | None]]:
    """Wanted and eaten of all chosen crops, week by week; None in weeks without. [g]"""
    weeks: dict[dt.date, list[int]] = {}
    for year, _ in chosen:
        for day, (wanted, eaten) in wanted_in(plan, year).items():
            both = weeks.setdefault(day, [0, 0])
            both[0] += wanted
            both[1] += eaten
    found = [weeks.get(day) for day in mondays]
    return [one[0] if one else None for one in found], [one[1] if one else None for one in found]


def _marks(plan: Plan, year: CropYear, mondays: Sequence[dt.date]) -> Iterable[Mark]:
    units = plan.garden.site.units
    for glut in year.gluts:
        yield from _mark(
            glut, mondays, say("{weight} too much", weight=weight_words(glut.grams, units)), lacks=False
        )
    for gap in gaps_of(plan, year):
        yield from _mark(
            gap, mondays, say("{weight} too little", weight=weight_words(gap.grams, units)), lacks=True
        )


def _mark(weeks: Glut | Gap, mondays: Sequence[dt.date], name: str, *, lacks: bool) -> Iterable[Mark]:
    inside = [number for number, day in enumerate(mondays) if weeks.first <= day <= weeks.last]
    if inside:
        yield Mark(inside[0], inside[-1], name, lacks)


# -- words ----------------------------------------------------------------------------------------


def week_words(plan: Plan, chosen: Chosen, week: dt.date) -> str:
    """A week in words: what is picked, and of a single crop what is wanted and eaten, and whether it is one of a glut or gap.

    Parameters
    ----------
    plan : Plan
    chosen : sequence of (CropYear, tuple of Harvest)
    week : date
        Its Monday.
    """
    units = plan.garden.site.units
    single = chosen[0][0] if len(chosen) == 1 else None
    parts = _plantings(plan, chosen) if single is not None else _crops(plan, chosen)
    picked = sorted(((weeks.get(week, 0), name) for _, name, _, weeks in parts), key=lambda one: -one[0])
    picked = [one for one in picked if one[0]]
    sentences = [_picked_words(plan, week, picked)]
    years = years_of(plan, chosen)
    if years is not None and years.of_week(week)[2] >= 1:
        sentences.append(week_spread_words(plan, years, week))
    if single is not None and (both := wanted_in(plan, single).get(week)) is not None:
        sentences.append(
            say(
                "Wanted {wanted}, eaten {eaten}.",
                wanted=weight_words(both[0], units),
                eaten=weight_words(both[1], units),
            )
        )
    for year, _ in chosen if single is not None else ():
        sentences += [
            _run_words(plan, run, lacks=False) for run in year.gluts if run.first <= week <= run.last
        ]
        sentences += [
            _run_words(plan, run, lacks=True) for run in gaps_of(plan, year) if run.first <= week <= run.last
        ]
    return " ".join(sentences)


def _picked_words(plan: Plan, week: dt.date, picked: Sequence[tuple[int, str]]) -> str:
    day, units = day_words(week, plan.year), plan.garden.site.units
    if not picked:
        return say("Week of {day}: nothing is picked.", day=day)
    named = [
        say("{name} {weight}", name=name, weight=weight_words(grams, units))
        for grams, name in picked[:MOST_NAMED]
    ]
    rest = picked[MOST_NAMED:]
    if rest:
        named.append(say("others {weight}", weight=weight_words(sum(grams for grams, _ in rest), units)))
    return say(
        "Week of {day}: {weight} picked: {what}.",
        day=day,
        weight=weight_words(sum(grams for grams, _ in picked), units),
        what=join_list(named),
    )


def _run_words(plan: Plan, run: Glut | Gap, *, lacks: bool) -> str:
    weight, days = weight_words(run.grams, plan.garden.site.units), days_in_short(run.first, run.last)
    if lacks:
        return say("Too little, {days}: {weight} less than is eaten.", days=days, weight=weight)
    return say("Too much, {days}: {weight} more than is eaten before it spoils.", days=days, weight=weight)


def year_words(plan: Plan, years: Sequence[CropYear], persons: str) -> str:
    """The whole year in a sentence or two.

    Parameters
    ----------
    plan : Plan
    years : sequence of CropYear
    persons : str
        How many eat, in words; empty where that is not known.
    """
    units = plan.garden.site.units
    grams = sum(one.within(plan.span) for year in years for one in year.harvests)
    words = say("In {year} {weight} are picked.", year=plan.year, weight=weight_words(grams, units))
    spread = harvest_years(plan, [one for year in years for one in year.harvests])
    if spread is not None:
        words = " ".join((words, *year_spread_words(plan, spread)))
    if not persons:
        return words
    eaten = sum(week.eaten for year in years for week in year.weeks)
    more = say(
        "{persons} eat {weight} of it, or of what was stored before, in the year.",
        persons=capital(persons),
        weight=weight_words(eaten, units),
    )
    return " ".join((words, more))
