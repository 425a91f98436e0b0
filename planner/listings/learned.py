"""A garden's own figures beside the published ones, as lines."""

from __future__ import annotations

from functools import partial

from planner.garden.site import UnitSystem
from planner.listings.left_out import end_lines, left_out_lines
from planner.listings.phrases import start_words
from planner.listings.tables import aligned
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.plan.own_years import YEARS_ENOUGH, GroupLeftOut, OwnYears
from planner.words import capital, later, number_words, percent, say, say_count, say_in_context

#: Feet in a metre: a yield of a foot of row.
_FEET = 3.28084
#: What is learned.
KIND_WORDS = {
    "coming up": later("days until it comes up"),
    "flowering": later("days until it flowers"),
    "first picking": later("days until the first picking"),
    "length of picking": later("days of picking"),
    "emergence": later("seed that comes up"),
    "yield": later("yield"),
}
#: How the table is read.
_OWN = later(
    "Own: the mean of the growing years; plantings of one year are one year. Days until the first picking are those on the plot."
)
_PUBLISHED = later(
    "Published: what the published figures say of the same plantings, in this garden. To plan with: what follows of both; the more years "
    "there are and the less they differ, the more they count beside what is published."
)
_LOST = later("Plantings that were lost are told apart: they make no yield smaller, and tell no days.")


def learned_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print a garden's own figures beside the published ones.

    Parameters
    ----------
    plan : Plan
        Of any growing year.
    room : int, optional
        Width of tables; any by default. [columns]
    """
    lines = [say("{garden}, what its own years tell", garden=plan.garden.site.name)]
    learned = plan.learned
    if not learned.own and not learned.lots and not learned.left_out:
        return [*lines, "", say("No record tells days, yields or seed that came up yet.")]
    if plan.garden.site.learned.use == "never":
        lines += ["", say("None of it is used: the garden is set so.")]
    if learned.own:
        heads = (
            say("figure"), say("years"), say("own"), say_in_context("of several values", "spread"), say("published"), say("to plan with"), say("own years count"), say("used"),
        )  # fmt: skip
        rows: list[tuple[str, ...]] = []
        shown = shown_years(plan)
        for number, one in enumerate(shown):
            if not number or one.key != shown[number - 1].key:
                rows.append((_group_name(plan, one), *[""] * (len(heads) - 1)))
            rows.append(_row(plan, one))
        lines += ["", *aligned(heads, rows, right=(1, 2, 3, 4, 5, 6), room=room)]
        lines += ["", say(_OWN), say(_PUBLISHED), say(_LOST)]
    lines += _left_out_lines(plan)
    if learned.lots:
        lots = {lot.id: lot for lot in plan.garden.stock}
        lot_heads = (
            say("crop"),
            say("variety"),
            say("packed"),
            say("sowings"),
            say("came up"),
            say("tested"),
        )
        lot_rows = [
            (
                crop_name(plan, lots[one.lot].crop),
                lots[one.lot].variety,
                str(lots[one.lot].packed or ""),
                str(one.sowings),
                percent(one.share),
                percent(tested) if (tested := lots[one.lot].germination) is not None else "",
            )
            for one in learned.lots
        ]
        lines += [
            "",
            say("Seed that came up, by packet"),
            *aligned(lot_heads, lot_rows, right=(3, 4, 5), room=room),
        ]
    return lines


def _left_out_lines(plan: Plan) -> list[str]:
    """What was lost and which years are left out, by crop; empty where there is nothing."""
    if not plan.learned.left_out:
        return []
    lines = ["", say("Lost and left out")]
    for group in plan.learned.left_out:
        name = group_name(plan, group)
        lines += [
            say("{group}: {words}.", group=name, words=words)
            for words in left_out_lines(group, plan.garden.site.units)
        ]
    return [*lines, *end_lines(plan.learned.left_out, partial(group_name, plan))]


def group_name(plan: Plan, group: GroupLeftOut) -> str:
    """What is left out is of: ``Carrot Early, sown``."""
    crop, start = capital(crop_name(plan, group.key.crop)), start_words(group.key.start)
    if group.name:
        return say("{crop} {variety}, {start}", crop=crop, variety=group.name, start=start)
    return say("{crop}, {start}", crop=crop, start=start)


def own_of_crop(plan: Plan, crop: str, start: str = "") -> list[OwnYears]:
    """The own figures of all varieties of a crop, used or not; those of one way to start, or of all.

    Parameters
    ----------
    plan : Plan
    crop : str
        Its key.
    start : str, optional
    """
    return [
        one
        for one in plan.learned.own
        if one.key.crop == crop and not one.key.variety and (not start or one.key.start == start)
    ]


def own_sentence(plan: Plan, one: OwnYears) -> str:
    """An own figure beside the published one, without a full stop: ``yield of a metre of row 2.2 kg by this garden's own years ...``."""
    units, published = plan.garden.site.units, one.published
    if published is None:
        return say(
            "{figure}: {together} by this garden's own years, {years}",
            figure=capital(figure_name(one, units)),
            together=together_words(one, units),
            years=years_words(one),
        )
    return say(
        "{figure}: {together} by this garden's own years, {years}; {published} published",
        figure=capital(figure_name(one, units)),
        together=together_words(one, units),
        years=years_words(one),
        published=own_words(one, published, units),
    )


def shown_years(plan: Plan) -> list[OwnYears]:
    """The own years that are told apart: those of all varieties are left out where they are those of a single one.

    Plantings that name no variety use them all the same.
    """
    own = plan.learned.own
    named = {(one.key._replace(variety=""), one.kind, one.years) for one in own if one.name}
    return [one for one in own if one.name or (one.key, one.kind, one.years) not in named]


def crop_name(plan: Plan, key: str) -> str:
    """The name of a crop, or its key where nothing is known of it."""
    crop = plan.catalogue.get(key)
    return crop.name if crop is not None else key


def _group_name(plan: Plan, one: OwnYears) -> str:
    """What figures are of: ``CARROT Early, sown``."""
    name, start = crop_name(plan, one.key.crop).upper(), start_words(one.key.start)
    variety = variety_name(plan, one)
    if variety:
        return say("{crop} {variety}, {start}", crop=name, variety=variety, start=start)
    return say("{crop}, {start}", crop=name, start=start)


def _row(plan: Plan, one: OwnYears) -> tuple[str, ...]:
    units, published = plan.garden.site.units, one.published
    return (
        figure_name(one, units),
        years_words(one),
        own_words(one, one.own, units),
        own_words(one, one.spread, units) if one.spread is not None else "",
        own_words(one, published, units) if published is not None else "",
        together_words(one, units),
        counting_words(one),
        used_words(plan, one),
    )


def variety_name(plan: Plan, one: OwnYears) -> str:
    """The variety of a figure; of one of a crop with varieties that it is of all of them."""
    if one.name or not any(other.name and other.key.crop == one.key.crop for other in plan.learned.own):
        return one.name
    return say("all")


def figure_name(one: OwnYears, units: UnitSystem) -> str:
    """What a figure is, with what a yield is of: ``yield of a plant``."""
    if one.kind != "yield":
        return say(KIND_WORDS[one.kind])
    if one.field == "yield_per_plant":
        return say("yield of a plant")
    return say("yield of a foot of row") if units == "feet_inches" else say("yield of a metre of row")


def years_words(one: OwnYears) -> str:
    """The number of growing years with the first and the last: ``3 (2023-2025)``."""
    years = [year.year for year in one.counted or one.years]
    if years[-1] - years[0] + 1 != len(years) or len(years) == 1:
        return say("{count} ({years})", count=len(years), years=", ".join(map(str, years)))
    return say("{count} ({first}-{last})", count=len(years), first=years[0], last=years[-1])


def own_words(one: OwnYears, value: float, units: UnitSystem) -> str:
    """A value of a figure: days, a share, or a weight of a plant or of row."""
    if one.kind == "emergence":
        return percent(value)
    if one.kind == "yield":
        foot = units == "feet_inches" and one.field == "yield_per_metre"
        return weight_words(value / _FEET if foot else value, units)
    return number_words(value, 0 if value >= 10 else 1)


def together(one: OwnYears) -> float | None:
    """What follows of the own years and the published figure together; None where nothing is learned."""
    if one.shrunk is None:
        return None
    return one.own if one.published is None else one.published * one.shrunk.value


def together_words(one: OwnYears, units: UnitSystem) -> str:
    """The same in words; empty where nothing is learned."""
    value = together(one)
    return own_words(one, value, units) if value is not None else ""


def counting_words(one: OwnYears) -> str:
    """How far the own years count beside the published figure, in percent; empty where nothing is learned."""
    if one.shrunk is None:
        return ""
    return say("alone") if one.published is None else percent(one.shrunk.weight)


#: Parts of a whole in words, from the smallest on.
_PARTS = {
    1 / 4: later("your own years count for one quarter, the published figure for three quarters"),
    1 / 3: later("your own years count for one third, the published figure for two thirds"),
    1 / 2: later("your own years and the published figure count alike"),
    2 / 3: later("your own years count for two thirds, the published figure for one third"),
    3 / 4: later("your own years count for three quarters, the published figure for one quarter"),
    9 / 10: later("your own years count for nine tenths, the published figure for one tenth"),
}


def counting_sentence(one: OwnYears) -> str:
    """How far the own years count, as a sentence without a full stop; empty where nothing is learned."""
    if one.shrunk is None:
        return ""
    if one.published is None:
        return say("nothing is printed of it: your own years count alone")
    weight = one.shrunk.weight
    return say(_PARTS[min(_PARTS, key=lambda part: abs(part - weight))])


def used_words(plan: Plan, one: OwnYears) -> str:
    """Whether a figure is used, and why."""
    if one.learned is None:
        return say("no, only shown")
    if plan.garden.site.learned.use == "never":
        return say("no")
    if one.chosen is not None:
        return say("yes, as chosen") if one.chosen else say("no, as chosen")
    if one.used:
        return say("yes")
    years = len(one.counted)
    if years < YEARS_ENOUGH:
        return say_count("no, {count} year", "no, {count} years", years)
    return say("no, the variety has one from experience")
