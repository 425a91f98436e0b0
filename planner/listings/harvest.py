"""The harvest of a year as lines: by planting, by week, and against what a household eats."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Container, Iterable, Iterator, Sequence

from planner.amounts.closing import Closing, closings
from planner.amounts.harvest import Harvest, not_eaten
from planner.amounts.harvest_years import harvest_years
from planner.amounts.larder import LotCourse
from planner.amounts.supply_year import CropYear, Gap, crop_years
from planner.checks.unfit_ground import unfit_ground
from planner.crops.figures import ESTIMATE, PRACTICE
from planner.garden import Bed, Planting
from planner.garden.site import UnitSystem
from planner.garden.units import show_length
from planner.listings.harvest_years import low_high_words, year_spread_words
from planner.listings.household import persons_words
from planner.listings.phrases import days_in_short
from planner.listings.tables import aligned
from planner.listings.weights import weight_cell, weight_head, weight_words
from planner.plan import Plan
from planner.plan.yields import Yield
from planner.words import capital, day_words, join_list, later, percent, say, say_count, uncapital

#: Shown for a number that is not known.
UNKNOWN = "?"
#: What is weighed of pods and seed.
_WEIGHED = {"pods": later("pods"), "green seed": later("shelled"), "dry seed": later("dry seed")}
#: Green seed that is weighed in its husks.
_IN_HUSKS = ("sweet_corn",)
#: Share of a lot from which what is left of it is told (practice).
LEFT_OVER = 0.1


def harvest_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print the harvest of a growing year.

    Parameters
    ----------
    plan : Plan
    room : int, optional
        Width of tables; any by default. [columns]
    """
    years = crop_years(plan)
    found = [one for year in years for one in year.harvests]
    lines = [
        say("{garden}, harvest of the growing year {year}", garden=plan.garden.site.name, year=plan.year)
    ]
    if not found:
        return [*lines, "", say("Nothing is harvested in {year}.", year=plan.year)]
    known = [one for one in found if one.picks]
    if known:
        lines += ["", say("By planting"), *_planting_table(plan, known, room)]
        lines += ["", say("By week"), *_week_table(plan, known, room)]
    cut_off = [f"  {line}" for one in known for line in lost_lines(plan, one)]
    if cut_off:
        lines += ["", say("Cut off"), *cut_off]
    lines += _household_lines(plan, years, room)
    missing = [f"  {one.bed.name}: {one.missing}." for one in found if one.missing]
    if missing:
        lines += ["", say("Not counted"), *dict.fromkeys(missing)]
    counted = {one.planting.crop for one in known}
    apart = list(dict.fromkeys(uncounted_name(plan, one, counted) for one in not_eaten(plan)))
    if apart:
        lines += ["", say("Grown for seed or for cutting, and not counted: {crops}.", crops=join_list(apart))]
    return lines


def uncounted_name(plan: Plan, planting: Planting, counted: Container[str]) -> str:
    """The name of a crop; with its bed where another planting of it is counted.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Which is not counted.
    counted : container of str
        Keys of the crops of which a harvest is counted.
    """
    figures = plan.figures_of(planting)
    name = figures.crop.name if figures.crop is not None else ""
    if planting.crop not in counted:
        return name
    return say("{crop} in {bed}", crop=name, bed=plan.bed_of(planting).name)


def _planting_table(plan: Plan, found: Sequence[Harvest], room: int | None) -> list[str]:
    units = plan.garden.site.units
    unit = weight_head(units)
    heads = (
        say("crop"), say("variety"), say("bed"), say("picked from"), say("until"), say("in all\n{unit}", unit=unit), say("in {year}\n{unit}", year=plan.year, unit=unit), say("least\n{unit}", unit=unit), say("most\n{unit}", unit=unit), say("pieces"),
        say("yield from"),
    )  # fmt: skip
    rows = [_planting_row(plan, one, units) for one in found]
    sums = (sum(one.picked for one in found), sum(one.within(plan.span) for one in found))
    rows.append((say("together"), "", "", "", "", *(weight_cell(grams, units) for grams in sums), *("",) * 4))
    return aligned(heads, rows, right=range(5, 10), room=room)


def _planting_row(plan: Plan, one: Harvest, units: UnitSystem) -> tuple[str, ...]:
    assert one.picking is not None
    share = one.picked / one.amount.grams if one.amount.grams else 0.0
    return (
        harvested_words(plan, one),
        one.variety,
        one.bed.name,
        day_words(one.picking.first, plan.year),
        day_words(one.picking.last, plan.year),
        weight_cell(one.picked, units),
        weight_cell(one.within(plan.span), units),
        weight_cell((one.amount.low or 0) * share, units),
        weight_cell((one.amount.high or 0) * share, units),
        str(round(one.amount.pieces * share)) if one.amount.pieces is not None else "",
        yield_source_words(plan, one.amount),
    )


def lost_lines(plan: Plan, one: Harvest) -> Iterator[str]:
    """Say what of a planting's yield would come after frost or clearing has ended its harvest.

    Parameters
    ----------
    plan : Plan
    one : Harvest
    """
    if one.picking is None or one.picking.over is None or not one.lost:
        return
    units = plan.garden.site.units
    outcome = plan.garden.outcome(one.planting)
    if outcome is not None and outcome.lost:
        yield say(
            "{crop} in {bed} was lost on {day}: {weight} of {whole} would still have come, until {over}",
            crop=capital(one.crop),
            bed=one.bed.name,
            day=day_words(outcome.day, plan.year),
            weight=weight_words(one.lost, units),
            whole=weight_words(one.amount.grams or 0, units),
            over=day_words(one.picking.over, plan.year),
        )
        return
    yield say(
        "{crop} in {bed} is over on {day}: {weight} of {whole} would come after that, until {over}",
        crop=capital(one.crop),
        bed=one.bed.name,
        day=day_words(one.picking.last, plan.year),
        weight=weight_words(one.lost, units),
        whole=weight_words(one.amount.grams or 0, units),
        over=day_words(one.picking.over, plan.year),
    )


def harvested_words(plan: Plan, one: Harvest) -> str:
    """A crop, with what of it is weighed where that may be doubtful: pods, shelled or dry seed."""
    crop = plan.figures_of(one.planting).crop
    product = crop.product.value if crop is not None and crop.product is not None else None
    if product not in _WEIGHED or one.planting.crop in _IN_HUSKS or one.amount.pieces is not None:
        return one.crop
    return say("{crop} ({what})", crop=one.crop, what=say(_WEIGHED[product]))


def _week_table(plan: Plan, found: Sequence[Harvest], room: int | None) -> list[str]:
    units = plan.garden.site.units
    years = harvest_years(plan, found)
    weeks: dict[dt.date, dict[str, int]] = {}
    for one in found:
        for week, grams in one.weeks(plan.span).items():
            crops = weeks.setdefault(week, {})
            crops[one.crop] = crops.get(one.crop, 0) + grams
    spread = {day: years.of_week(day) for day in years.mondays} if years is not None else {}
    rows = []
    for week in sorted({*weeks, *(day for day, (_, _, high) in spread.items() if high >= 1)}):
        crops = weeks.get(week, {})
        most_first = sorted((crop for crop in crops if crops[crop]), key=lambda crop: -crops[crop])
        what = ", ".join(f"{crop} {weight_words(crops[crop], units)}" for crop in most_first)
        both = [weight_cell(spread[week][end], units) for end in (0, 2)] if spread else []
        rows.append((day_words(week, plan.year), weight_cell(sum(crops.values()), units), *both, what))
    unit = weight_head(units)
    if years is None:
        return aligned((say("week of"), unit, say("of which")), rows, right=(1,), room=room)
    heads = (
        say("week of"),
        unit,
        say("low\n{unit}", unit=unit),
        say("high\n{unit}", unit=unit),
        say("of which"),
    )
    lines = aligned(heads, rows, right=(1, 2, 3), room=room)
    return [*lines, "", *(f"  {one}" for one in (*year_spread_words(plan, years), low_high_words(plan)))]


# -- the household ------------------------------------------------------------------------------------


def unknown_household() -> str:
    """Say that nobody is known to eat from a garden, and how to mend it."""
    return say(
        "How many eat from the garden is not known, so nothing is held against it; give it with: "
        "bedwright kitchen FILE --persons 4"
    )


def _household_lines(plan: Plan, years: Sequence[CropYear], room: int | None) -> list[str]:
    if not plan.garden.household.persons:
        return ["", unknown_household()]
    units = plan.garden.site.units
    told = [year for year in years if year.course is not None and year.harvests]
    rows = [_eaten_row(plan, year, units) for year in told]
    unit = weight_head(units)
    heads = (say("crop"), say("picked\n{unit}", unit=unit), say("a person\nin a year, {unit}", unit=unit), say("weeks"), say("wanted\na week, {unit}", unit=unit), say("eaten in\nthe year, {unit}", unit=unit), say("amount from"))  # fmt: skip
    lines = ["", say("What {persons} eat of it", persons=persons_words(plan.garden.household.persons))]
    lines += aligned(heads, rows, right=range(1, 6), room=room)
    much = [f"  {line}" for year in told for line in glut_lines(year, plan)]
    unfit = unfit_ground(plan)
    if much:
        lines += ["", say("Too much"), *much]
    little = [
        f"  {line}"
        for year in told
        for gap, closing in closings(plan, year, unfit)
        for line in gap_lines(plan, year, gap, closing)
    ]
    if little:
        lines += ["", say("Too little"), *little]
    unknown = join_list(dict.fromkeys(year.name for year in years if year.course is None and year.harvests))
    if unknown:
        lines += ["", say("How much is eaten is not known of {crops}.", crops=unknown)]
    return lines


def _eaten_row(plan: Plan, year: CropYear, units: UnitSystem) -> tuple[str, ...]:
    eats = year.appetite
    return (
        year.name,
        weight_cell(sum(week.picked for week in year.weeks), units),
        weight_cell((eats.yearly or 0) * 1000, units),
        str(eats.weeks),
        weight_cell(eats.weekly or 0, units),
        weight_cell(sum(week.eaten for week in year.weeks), units),
        source_words(plan, eats.source),
    )


def figure_words(plan: Plan, source: str, provenance: str) -> str:
    """Where a figure comes from, in a few words; of one from memory that it is."""
    brief = plan.catalogue.source_in_brief(source)
    if provenance == ESTIMATE and source != ESTIMATE:
        return say("{source}, from memory", source=brief)
    return brief


def yield_source_words(plan: Plan, amount: Yield) -> str:
    """Where a yield comes from, in a few words; of a variety's own figure that it is."""
    if amount.learned:
        return plan.catalogue.source_in_brief(amount.source)
    if not amount.own:
        return figure_words(plan, amount.source, amount.provenance)
    if amount.source in (PRACTICE, ESTIMATE):
        return say("own figure")
    return say("own figure, {source}", source=plan.catalogue.source_in_brief(amount.source))


def source_words(plan: Plan, key: str) -> str:
    """Where an amount comes from, in a few words."""
    return say("own amount") if key == "own" else plan.catalogue.source_in_brief(key)


def _days(plan: Plan, first: dt.date, last: dt.date) -> str:
    """Days in short, with their year where that is not the plan's."""
    short = days_in_short(first, last)
    return short if first.year == plan.year or first.year != last.year else f"{short} {last.year}"


def glut_lines(year: CropYear, plan: Plan) -> Iterator[str]:
    """Say in which weeks a crop is picked that spoils, and what of it is left where it waited.

    Parameters
    ----------
    year : CropYear
    plan : Plan
    """
    units = plan.garden.site.units
    for glut in year.gluts:
        yield say(
            "{crop}, {days}: {weight} more than is eaten before it spoils",
            crop=capital(year.name),
            days=_days(plan, glut.first, glut.last),
            weight=weight_words(glut.grams, units),
        )
    for one, course in left_over(plan, year):
        yield say(
            "{crop} in {bed}: {weight} of {whole} are not eaten by {day}, when they are over",
            crop=capital(one.crop),
            bed=one.bed.name,
            weight=weight_words(course.spoilt, units),
            whole=weight_words(course.lot.grams, units),
            day=day_words(course.lot.last, plan.year),
        )


def left_over(plan: Plan, year: CropYear) -> list[tuple[Harvest, LotCourse]]:
    """This year's lots that wait in the ground or in store, and of which too much is not eaten before they are over.

    Parameters
    ----------
    plan : Plan
    year : CropYear
    """
    owners = {one.planting.id: one for one in year.harvests}
    return [
        (owners[course.lot.planting], course)
        for course in year.waiting
        if course.lot.planting in owners and course.lot.first >= plan.span.first and is_left(course)
    ]


def is_left(course: LotCourse) -> bool:
    """Whether so much of a lot spoils that it is worth telling."""
    return course.spoilt > LEFT_OVER * course.lot.grams


def gap_lines(plan: Plan, year: CropYear, gap: Gap, closing: Closing | None) -> Iterable[str]:
    """Say how much is missing when, and what closes the gap.

    Parameters
    ----------
    plan : Plan
    year : CropYear
    gap : Gap
    closing : Closing or None
    """
    units = plan.garden.site.units
    missing = say(
        "{crop}, {days}: {weight} less than is eaten",
        crop=capital(year.name),
        days=_days(plan, gap.first, gap.last),
        weight=weight_words(gap.grams, units),
    )
    if closing is None:
        return (missing,)
    return (say("{missing}. {mend}", missing=missing, mend=closing_words(plan, closing)),)


def closing_words(plan: Plan, closing: Closing) -> str:
    """Say what closes a gap, and where there is room for it; without a full stop."""
    units, dates = plan.garden.site.units, closing.dates
    assert dates.on_plot is not None
    assert closing.first is not None
    amount = amount_words(closing.needed.metres, closing.needed.plants, units)
    crop, day = closing.crop.name, day_words(dates.on_plot.day, plan.year)
    harvest = day_words(closing.first, plan.year)
    weight = weight_words(closing.within, units)
    if dates.start == "raised" and dates.sow is not None:
        begin = say(
            "Set out {amount} more of {crop} on {day}, sown indoors on {sow}: {weight} of that time, picked from {harvest}",
            amount=amount,
            crop=crop,
            day=day,
            sow=day_words(dates.sow.day, plan.year),
            weight=weight,
            harvest=harvest,
        )
    elif dates.start == "sown":
        begin = say(
            "Sow {amount} more of {crop} on {day}: {weight} of that time, picked from {harvest}",
            amount=amount,
            crop=crop,
            day=day,
            weight=weight,
            harvest=harvest,
        )
    else:
        begin = say(
            "Plant {amount} more of {crop} on {day}: {weight} of that time, picked from {harvest}",
            amount=amount,
            crop=crop,
            day=day,
            weight=weight,
            harvest=harvest,
        )
    return say("{begin}; {room}", begin=begin, room=_room_words(plan, closing))


def _room_words(plan: Plan, closing: Closing) -> str:
    dates = closing.dates
    last = dates.clear or dates.last_harvest or dates.first_harvest
    if not closing.spots and closing.refused:
        return refused_words(closing.refused)
    if not closing.spots:
        assert dates.on_plot is not None
        assert last is not None
        return say(
            "no bed has free ground for it from {first} to {last}",
            first=day_words(dates.on_plot.day, plan.year),
            last=day_words(last.day, plan.year),
        )
    beds = join_list(dict.fromkeys(spot.bed.name for spot in closing.spots))
    if closing.whole:
        return say("there is room in {beds}", beds=beds)
    share = sum(spot.grams for spot in closing.spots) / closing.needed.grams
    return say("there is room for {share} of it in {beds}", share=percent(share), beds=beds)


def refused_words(refused: Sequence[tuple[Bed, str]]) -> str:
    """Say that beds have free ground that a crop should not have, and why of the first; without a full stop."""
    return say(
        "there is free ground in {beds}, but not for it: {why}",
        beds=join_list([bed.name for bed, _ in refused]),
        why=uncapital(refused[0][1]),
    )


def amount_words(metres: float | None, plants: int | None, units: UnitSystem) -> str:
    """How much is planted: ``2.2 m of row (9 plants)``."""
    count = say_count("{count} plant", "{count} plants", plants) if plants is not None else ""
    if metres is None:
        return count
    row = say("{length} of row", length=show_length(math.ceil(10 * metres - 1e-6) / 10, units))
    return say("{row} ({plants})", row=row, plants=count) if count else row
