"""Season, where summer is too cool: too little heat before the frost, or nights that are never warm."""

from __future__ import annotations

from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Climate, Cover
from planner.garden.units import show_heat, show_temperature
from planner.plan import Plan
from planner.season.frosts import Frosts, shift
from planner.season.practice import COVER_WARMS, WARMING
from planner.season.spans import Span
from planner.words import capital, later, percent, say, say_count

CHECK = "season"
#: Nights below which crops of the tropics do not grow; far above the cold that kills them (practice). [deg C]
_WARM_NIGHTS = {"okra": 15.0, "sweet_potato": 10.0, "watermelon": 13.0, "melon": 13.0}
#: By how much cooler than that the nights of the warmest month may be (practice). [deg C]
NIGHT = 1.0
#: Share of the heat a crop needs below which it fails; figures and means leave the rest in doubt (practice).
FAR_TOO_COOL = 0.75

_RULE = later("What loves warmth ripens where the summer gives it its heat sum before the first autumn frost")


def judge_heat_sum(view: PlantingView, frosts: Frosts) -> Finding | None:
    """Report a planting that finds too little heat before the autumn frost to ripen.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    """
    heat, frost = view.dates.heat, frosts.first_after(view.span.first)
    if heat is None or heat.enough or frost is None or not view.tender:
        return None
    text = say(
        "{planting} finds {heat} before the first autumn frost ({frost}, risk {risk} %), {share} of what its early sorts "
        "need to be ripe",
        planting=view.name,
        heat=show_heat(heat.found, view.units),
        frost=view.day(frost),
        risk=frosts.risk,
        share=percent(heat.found / heat.wanted),
    )
    return planting_finding(
        CHECK,
        "stop" if heat.found < FAR_TOO_COOL * heat.wanted else "mind",
        (view,),
        capital(text),
        say(_RULE),
        view.source("heat_to_harvest" if view.number("heat_to_harvest") else "days_to_maturity"),
        [round(heat.found), round(heat.wanted)],
        Span(view.span.first, frost),
        topic="heat",
        candidates=lambda plan: _warmer_place(plan, view.id),
    )


def judge_cold_nights(view: PlantingView, climate: Climate) -> Finding | None:
    """Report a crop of the tropics where not even the nights of the warmest month are warm enough.

    Parameters
    ----------
    view : PlantingView
    climate : Climate
    """
    least = _WARM_NIGHTS.get(view.planting.crop)
    if least is None or view.sheltered or climate.monthly_minimum is None:
        return None
    night = max(climate.monthly_minimum)
    covered = any(cover.kind in WARMING and cover.last is None for cover in view.planting.covers)
    if night + (COVER_WARMS if covered else 0.0) >= least - NIGHT:
        return None
    text = say(
        "{planting} wants nights of {temperature}; those of the warmest month fall to {night} on the mean",
        planting=view.name,
        temperature=show_temperature(least, view.units),
        night=show_temperature(night, view.units),
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE),
        "practice",
        [round(night), least],
        topic="nights",
        candidates=lambda plan: _warmer_place(plan, view.id),
    )


def _warmer_place(plan: Plan, key: str) -> Iterator[Fix]:
    """Sooner, under a cover, or under glass."""
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for days in (7, 14, 21):
        gain = say_count(
            "{count} day sooner, so much more of the warmth",
            "{count} days sooner, so much more of the warmth",
            days,
        )
        yield fixes.start_on(view, shift(view.span.first, -days), gain)
    if not any(cover.kind in WARMING for cover in view.planting.covers):
        last = max(view.span.first, shift(view.span.last, -1))
        cloche = Cover(kind="cloche", first=view.span.first, last=last)
        yield Fix(
            say("Keep a cloche over it all its time"),
            say("about 2 degrees warmer"),
            fixes.changed(view.planting, covers=(*view.planting.covers, cloche)),
        )
    if not view.sheltered:
        yield from fixes.elsewhere(plan, view, say("about 3 degrees warmer there"), "under glass")
    yield fixes.remove(view, say("no ground is lost to what does not ripen"))
