"""A garden's own figures beside the published ones, as lines."""

from __future__ import annotations

from planner.garden.site import UnitSystem
from planner.listings.phrases import start_words
from planner.listings.tables import aligned
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.plan.own_years import YEARS_ENOUGH, OwnYears
from planner.words import later, number_words, percent, say, say_count

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
    "Published: what the published figures say of the same plantings, in this garden. Times published: the own figure over it, drawn "
    "towards it by the weights (percent of own years : of the published figure); of days until the first picking it is warmth over warmth."
)
_LOST = later("What was lost counts in yields with what was picked, and not in days.")


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
    if not learned.own and not learned.lots:
        return [*lines, "", say("No record tells days, yields or seed that came up yet.")]
    if plan.garden.site.learned.use == "never":
        lines += ["", say("None of it is used: the garden is set so.")]
    if learned.own:
        heads = (
            say("figure"), say("years"), say("own"), say("spread"), say("published"), say("times published"), say("weights"), say("used"),
        )  # fmt: skip
        rows: list[tuple[str, ...]] = []
        shown = shown_years(plan)
        for number, one in enumerate(shown):
            if not number or one.key != shown[number - 1].key:
                rows.append((_group_name(plan, one), *[""] * (len(heads) - 1)))
            rows.append(_row(plan, one))
        lines += ["", *aligned(heads, rows, right=(1, 2, 3, 4, 5), room=room)]
        lines += ["", say(_OWN), say(_PUBLISHED), say(_LOST)]
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
    times = one.shrunk if published is not None else None
    return (
        figure_name(one, units),
        years_words(one),
        own_words(one, one.own, units),
        own_words(one, one.spread, units) if one.spread is not None else "",
        own_words(one, published, units) if published is not None else "",
        number_words(times.value, 2) if times is not None else "",
        weights_in_short(one),
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


def weights_words(one: OwnYears) -> str:
    """How far the own years and the published figure count: ``62 % own, 38 % published``; empty where nothing is learned."""
    if one.shrunk is None:
        return ""
    if one.published is None:
        return say("own alone")
    own = round(one.shrunk.weight * 100)
    return say("{own} % own, {published} % published", own=own, published=100 - own)


def weights_in_short(one: OwnYears) -> str:
    """How far the own years and the published figure count, in percent: ``62 : 38``; empty where nothing is learned."""
    if one.shrunk is None or one.published is None:
        return weights_words(one)
    own = round(one.shrunk.weight * 100)
    return say("{own} : {published}", own=own, published=100 - own)


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
