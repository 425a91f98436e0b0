"""When a planting is harvested, and whether it ripens in time."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import NamedTuple

from planner.crops.figures import THIS_GARDEN
from planner.garden import Outcome
from planner.season import practice
from planner.season.bulbs import day_bulbs_are_ripe, small_bulbs, swells_in_long_days
from planner.season.date_inputs import DateContext
from planner.season.development import (
    Need,
    Stretch,
    day_reached,
    heat_by,
    need_of,
)
from planner.season.emergence import expected_emergence
from planner.season.flowering import expected_flowering
from planner.season.frost_end import end_of_tender_harvest, frost_after_start, ripens_after_frost
from planner.season.frosts import shift, zone_minimum
from planner.season.growing import stretches_of
from planner.season.harvest_end import grows_again, killed_on, last_day_of_harvest, mode_of
from planner.season.observed import SeenStage, day_seen
from planner.season.planting_dates import Dated, HeatSum
from planner.season.sheltered_frosts import first_frost_there
from planner.season.sorts import SORT_WORDS, sort_that_fits
from planner.season.start_day import Start, end_of_growth, growing_days
from planner.season.temperatures import first_day
from planner.season.usual_weather import FULL_DAY
from planner.season.windows import starts_in_autumn
from planner.season.yearly_harvest import first_harvest_of_year
from planner.sun import next_longest_day
from planner.words import day_words, number_words, percent, say, short_number

#: How much warmer or cooler the weeks of a season are than usual in one of two years; the monthly means of temperate
#: places have a standard deviation of about 1.5 (estimate). [deg C]
HALF_OF_YEARS = 1.0
#: A wider range of days says nothing. [days]
WIDEST = 60
#: Share of its warmth below which what is picked in winter as large as it is, is too small to count on (estimate).
SMALL = 0.5


class Harvest(NamedTuple):
    """The harvest of a planting.

    Attributes
    ----------
    first, last : Dated or None
        First and last day of it; None where there is none or it is not known.
    heat : HeatSum or None
        Of what is harvested in the year it starts, where the monthly means are known.
    ripens : bool
        False where it would not be ripe in time.
    missing, doubts : tuple of str
        What could not be worked out, and what is doubtful of it; a sentence each.
    """

    first: Dated | None = None
    last: Dated | None = None
    heat: HeatSum | None = None
    ripens: bool = True
    missing: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


class _Ripe(NamedTuple):
    """First harvest as worked out, with what it was worked out from."""

    first: Dated | None = None
    need: Need | None = None
    missing: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


def work_out_harvest(context: DateContext, start: Start) -> Harvest:
    """First and last harvest: done before pinned, pinned before worked out.

    Parameters
    ----------
    context : DateContext
    start : Start
    """
    first, last = _given_harvest(context)
    on = start.on_plot
    lost = context.outcome if context.outcome is not None and context.outcome.lost else None
    if lost is not None and first is None and not context.stays_for_years:
        return _until_lost(context, start, lost)
    stretches = stretches_of(context, on.day) if on is not None else ()
    if first is None and context.planting.purpose == "green manure":
        return Harvest()
    ripe = (
        _Ripe(first, need_of(context))
        if first is not None
        else _worked_out_harvest(context, start, stretches)
    )
    first, doubts, missing = _not_after_picked(context, ripe.first), ripe.doubts, ripe.missing
    heat = (
        _heat_sum(context, on.day, ripe.need, stretches) if on is not None and ripe.need is not None else None
    )
    if first is None:
        return Harvest(heat=heat, ripens=not doubts, missing=missing, doubts=doubts)
    if last is None:
        last, more = last_day_of_harvest(
            context,
            on.day if on is not None else first.day,
            first.day,
            ripe.need,
            stretches,
        )
        missing += more
    if last is not None and last.day < first.day:
        last = Dated(first.day, say("The first harvest is later than the last one set by hand"))
    ripens = not doubts
    frost = frost_after_start(context, on)
    if frost is not None:
        unripe = ripens_after_frost(context, first, frost)
        ripens, doubts = ripens and not unripe, doubts + unripe
        last = end_of_tender_harvest(context, first, last, frost)
    return Harvest(first, last, heat, ripens, missing, doubts)


def _until_lost(context: DateContext, start: Start, lost: Outcome) -> Harvest:
    """The harvest of what was lost: what is picked over was picked until then, what comes all at once was not."""
    nothing = Harvest(missing=(_lost_words(context, lost),))
    if mode_of(context) in ("at once", "dies back") or context.planting.purpose == "seed":
        return nothing
    whole = work_out_harvest(context._replace(outcome=None), start)
    if whole.first is None or whole.first.day >= lost.day:
        return nothing
    return whole


def _lost_words(context: DateContext, lost: Outcome) -> str:
    """That nothing is picked of what was lost."""
    return say("{crop} was lost on {day} before it was picked", crop=context.name, day=day_words(lost.day))


def _given_harvest(context: DateContext) -> tuple[Dated | None, Dated | None]:
    """First and last harvest done or pinned; of what stays for years those of the year wanted."""
    kind = "lift and cure" if "lift and cure" in context.done else "pick"
    if kind == "pick" and not _first_was_seen(context):
        kind = ""  # a picking, or its tick: others may have gone before
    first = context.given_day(kind, context.pins.first_harvest, say("Harvested from this day on"))
    last = day_seen(context, "last picking") or context.given_day("", context.pins.last_harvest, "")
    if context.stays_for_years:
        first = first if first is not None and context.in_year(first.day) else None
        last = last if last is not None and context.in_year(last.day) else None
    return first, last


def _first_was_seen(context: DateContext) -> bool:
    """Whether a first picking was written down as such; of what is picked but once every picking is one."""
    if any(one.stage in ("first picking", "ripe") for one in context.observed):
        return True
    return context.stays_for_years or mode_of(context) in ("at once", "dies back", "")


def _not_after_picked(context: DateContext, first: Dated | None) -> Dated | None:
    """The first harvest as worked out, or the day on which something was picked where that is before."""
    picked = context.done.get("pick")
    if picked is None or (first is not None and first.day <= picked):
        return first
    return Dated(picked, say("Harvested from this day on"), "", "done")


def _worked_out_harvest(context: DateContext, start: Start, stretches: tuple[Stretch, ...]) -> _Ripe:
    """The first harvest by the rules, with notes and doubts."""
    if context.planting.purpose == "seed" and not practice.lifted_as_seed(context.crop, context.start):
        missing = say(
            "{crop} is grown for seed: days to ripe seed are not known; give its harvest by hand",
            crop=context.name,
        )
        return _Ripe(missing=(missing,))
    on = start.on_plot
    if context.stays_for_years:
        first, missing_days = first_harvest_of_year(context, on)
        return _Ripe(first, missing=missing_days)
    days, need = growing_days(context), need_of(context)
    seen = (
        _stage_seen(context, start, stretches)
        if days is not None and need is not None and on is not None
        else None
    )
    if days is None or need is None:
        words = say("No days to maturity are known for {crop}: its harvest is not known", crop=context.name)
        return _Ripe(missing=context.note_unknown("days_to_maturity", words))
    if on is None:
        return _Ripe()
    if not stretches:
        first = _by_days_alone(context, start.sow, on, days)
        if seen is not None:
            moved = shift(first.day, (seen.seen - seen.expected).days)
            first = replace(
                first,
                day=max(moved, on.day),
                why=say("{reason}; {other}", reason=first.why, other=seen.reason),
            )
        return _Ripe(first, need)
    found = _by_heat(context, on.day, need, stretches)
    if seen is not None and found.need is not None:
        found = _after_stage(context, on.day, found.need, stretches, seen)
    return found._replace(doubts=found.doubts + small_bulbs(context, on.day, found.first))


def _stage_seen(context: DateContext, start: Start, stretches: tuple[Stretch, ...]) -> SeenStage | None:
    """The latest stage that was seen of those from which a harvest follows, beside what was worked out for it.

    Where none was seen, and this garden learned how long it takes to come up, that it comes up by its own years.  Where the garden
    learned its first picking too, that holds what coming up late does to it already.
    """
    unseen = context._replace(observed=())
    figures = context.figures
    late_by_picking = figures.learned_figure("first picking") is not None
    plain = unseen if late_by_picking else unseen._replace(figures=figures.published)
    up = expected_emergence(plain, start.sow, start.on_plot)
    flower = day_seen(context, "flowering")
    if flower is not None:
        first = _worked_out_harvest(unseen, start, stretches).first
        usual_up = expected_emergence(unseen, start.sow, start.on_plot)
        expected = expected_flowering(unseen, usual_up, start.set_out, first)
        if expected is not None:
            return SeenStage("flowering", expected.day, flower.day)
    came_up = day_seen(context, "came up")
    if (
        came_up is not None and up is not None and context.start != "raised"
    ):  # what is raised comes up indoors
        return SeenStage("came up", up.day, came_up.day)
    if (
        figures.learned_figure("coming up") is None
        or late_by_picking
        or up is None
        or context.start == "raised"
    ):
        return None
    own = expected_emergence(unseen, start.sow, start.on_plot)
    return SeenStage("coming up", up.day, own.day) if own is not None and own.day != up.day else None


def _after_stage(
    context: DateContext, on: dt.date, need: Need, stretches: tuple[Stretch, ...], seen: SeenStage
) -> _Ripe:
    """The first harvest of what still needs the same heat after a stage that was seen on another day than worked out."""
    moved = _need_after(on, need, stretches, seen)
    ripe = ripe_on(context, on, moved, stretches)
    small = _before_its_winter(context, on, need, moved, ripe, stretches, (seen.seen - seen.expected).days)
    found = small if small is not None else _ripe_in_time(context, on, moved, ripe, stretches)
    found = found._replace(need=need)  # how long it is picked goes by the crop, not by when it came up
    if found.first is None:
        return found
    return found._replace(
        first=replace(found.first, why=say("{reason}; {other}", reason=found.first.why, other=seen.reason))
    )


def _need_after(on: dt.date, need: Need, stretches: tuple[Stretch, ...], seen: SeenStage) -> Need:
    """What a planting needs from its start on so that it still needs the same heat after a stage that was seen."""
    early, late = sorted((max(seen.expected, on), max(seen.seen, on)))
    between = heat_by(on, late, need, stretches) - heat_by(on, early, need, stretches)
    more = between if seen.seen > seen.expected else -between
    return need._replace(heat=max(need.heat + more, 1.0))


def needs_as_grown(context: DateContext, start: Start) -> tuple[Need, Need] | None:
    """Need of the sort that a planting is taken for, and that until its first harvest; None where none is known.

    The two differ where a stage of it was seen on another day than was worked out.

    Parameters
    ----------
    context : DateContext
    start : Start
    """
    on, need = start.on_plot, need_of(context)
    if on is None or need is None:
        return None
    stretches = stretches_of(context, on.day)
    if not stretches:
        return need, need
    sort, _ = sort_that_fits(context, on.day, need, lambda other: ripe_on(context, on.day, other, stretches))
    told = context.observed or context.figures.learned_figure("coming up") is not None
    seen = _stage_seen(context, start, stretches) if told and growing_days(context) is not None else None
    return sort, sort if seen is None else _need_after(on.day, sort, stretches, seen)


def _before_its_winter(
    context: DateContext,
    on: dt.date,
    usual: Need,
    moved: Need,
    ripe: dt.date | None,
    stretches: tuple[Stretch, ...],
    late: int,
) -> _Ripe | None:
    """The first harvest of what stands its winter and came up too late to be grown before it: as large as it is.

    It would have been picked before the longest night, and does not wait for the warmth of another summer: in spring it runs to
    seed or grows again.  It is picked as many days later as it came up later, at the longest night at the latest, after which it
    is no larger (practice).  None where it is grown before.
    """
    if late <= 0:
        return None
    frost = context.frosts.first_after(on)
    if frost is None or context.tender or mode_of(context) not in ("stands", "with bolting"):
        return None
    if starts_in_autumn(context) or swells_in_long_days(context):
        return None
    stops, _ = end_of_growth(context, frost)
    night = next_longest_day(stops, not context.southern)
    planned = ripe_on(context, on, usual, stretches)
    if planned is None or planned > night:
        return None
    day = min(shift(max(planned, stops), late), night)
    if ripe is not None and ripe <= day:
        return None
    share = max(heat_by(on, day, moved, stretches) - (moved.heat - usual.heat), 0.0) / usual.heat
    why = say(
        "Picked as large as it is when the cold and dark have stopped it, with {share} of the warmth that it needs",
        share=percent(share),
    )
    doubts: tuple[str, ...] = ()
    if share < SMALL:
        doubts = (
            say(
                "{crop} came up so late that it has {share} of the warmth that it needs before the winter: it stays small",
                crop=context.name,
                share=percent(share),
            ),
        )
    return _Ripe(Dated(day, why, "practice"), moved, doubts=doubts)


def _by_days_alone(context: DateContext, sow: Dated | None, on: Dated, days: float) -> Dated:
    """First harvest of a garden of which no temperatures are known, counted from where the crop's days count."""
    counted = context.crop.maturity_from.value if context.crop and context.crop.maturity_from else None
    source = context.source("days_to_maturity")
    if context.start == "raised" and counted == "sowing" and sow is not None:
        whole = context.number("days_to_maturity") or 0
        return Dated(
            max(shift(sow.day, whole), on.day),
            say("{days} days after sowing", days=short_number(whole)),
            source,
        )
    why = (
        say("{days} days after sowing", days=short_number(days))
        if context.start == "sown"
        else say("{days} days after setting out", days=short_number(days))
    )
    return Dated(shift(on.day, days), why, source)


def _by_heat(context: DateContext, on: dt.date, need: Need, stretches: tuple[Stretch, ...]) -> _Ripe:
    """The day on which a planting has had the warmth that the sort needs which it is taken for."""
    need, ripe = sort_that_fits(context, on, need, lambda other: ripe_on(context, on, other, stretches))
    return _ripe_in_time(context, on, need, ripe, stretches)


def _ripe_in_time(
    context: DateContext, on: dt.date, need: Need, ripe: dt.date | None, stretches: tuple[Stretch, ...]
) -> _Ripe:
    """The first harvest on the day on which it is ripe, unless frost or cold end its year before."""
    frost = context.frosts.first_after(on) if context.tender and not context.sheltered else None
    if frost is not None and practice.waits_for_short_days(context.crop):
        short = first_day(stretches[-1].weather.hours < FULL_DAY, next_longest_day(on, context.southern))
        if short is not None and frost < shift(short, practice.SHORT_DAYS_FOR_TUBERS):
            doubt = say(
                "{crop} makes its tubers in days shorter than {full_day} h, from {day}, and the first autumn frost ({day_2}) leaves it no time",
                crop=context.name,
                full_day=short_number(FULL_DAY),
                day=day_words(short),
                day_2=day_words(frost),
            )
            return _Ripe(None, need, doubts=(doubt,))
    if frost is not None and practice.lifted_after_frost(context.crop) and (ripe is None or ripe > frost):
        found = heat_by(on, frost, need, stretches)
        if found >= practice.GROWN_AT_REST * need.heat:
            why = say(
                "Lifted when the first autumn frost has killed its leaves, with {found} of {heat} degree-days",
                found=number_words(found, 0),
                heat=number_words(need.heat, 0),
            )
            return _Ripe(Dated(frost, why, "practice"), need)
    if frost is not None and (ripe is None or ripe > shift(frost, practice.LIGHT_FROST)):
        found = heat_by(on, frost, need, stretches)
        doubt = say(
            "{crop} finds {found} of the {heat} degree-days over {base} °C that it needs before the first autumn frost ({day})",
            crop=context.name,
            found=number_words(found, 0),
            heat=number_words(need.heat, 0),
            base=short_number(need.response.base),
            day=day_words(frost),
        )
        return _Ripe(None, need, doubts=(doubt,))
    autumn = context.frosts.first_after(on) if _lives_by_its_shoots(context) else None
    waits = autumn is not None and (ripe is None or ripe > autumn)
    killed = killed_on(context, autumn, blossom=False) if waits and autumn is not None else None
    if killed is not None and (ripe is None or ripe > shift(killed.day, practice.LIGHT_FROST)):
        found = heat_by(on, killed.day, need, stretches)
        if found >= need.heat:  # it waits for spring
            doubt = say(
                "{crop} is picked after the winter, and the cold that it does not bear is usual before ({day})",
                crop=context.name,
                day=day_words(killed.day),
            )
            return _Ripe(None, need, doubts=(doubt,))
        doubt = say(
            "{crop} finds {found} of the {heat} degree-days over {base} °C that it needs before the cold that it does not bear is usual ({day})",
            crop=context.name,
            found=number_words(found, 0),
            heat=number_words(need.heat, 0),
            base=short_number(need.response.base),
            day=day_words(killed.day),
        )
        return _Ripe(None, need, doubts=(doubt,))
    if ripe is None:
        doubt = say(
            "{crop} does not find the {heat} degree-days it needs in two years",
            crop=context.name,
            heat=number_words(need.heat, 0),
        )
        return _Ripe(None, need, doubts=(doubt,))
    return _Ripe(_dated(context, on, ripe, need, stretches), need)


def _lives_by_its_shoots(context: DateContext) -> bool:
    """Whether cold that kills its shoots kills it: not what frost kills sooner, and not a planted bulb or tuber."""
    known = zone_minimum(context.climate.zone) is not None  # else nothing is known of the cold of its winters
    return known and not context.tender and context.start not in practice.LIFTED


def ripe_on(context: DateContext, on: dt.date, need: Need, stretches: tuple[Stretch, ...]) -> dt.date | None:
    """First harvest by warmth, and of bulbs by the length of the day.

    What stands into the winter is picked as soon as it is nearly grown once the cold and dark have slowed it, if that is
    before the longest night: a few days of sowing are no winter of waiting.  What is grown
    for the shoots that it makes after a winter's chill is not cut before the spring.
    """
    if swells_in_long_days(context):
        return day_bulbs_are_ripe(context, on, need, stretches)
    ripe = day_reached(on, need, stretches)
    frost = context.frosts.first_after(on)
    if frost is not None and not context.tender and mode_of(context) in ("stands", "with bolting"):
        stops, _ = end_of_growth(context, frost)
        if ripe is None or ripe > stops:
            nearly = day_reached(on, need, stretches, heat=practice.GROWN_AT_REST * need.heat)
            if nearly is not None and nearly <= next_longest_day(stops, not context.southern):
                return max(nearly, stops, on)
    if ripe is not None and shoots_after_winter(context):
        shortest = next_longest_day(on, not context.southern)
        spring = grows_again(context, stretches[-1].weather, shortest)
        return max(ripe, spring) if spring is not None else ripe
    return ripe


def shoots_after_winter(context: DateContext) -> bool:
    """Whether it stands a winter and then makes the shoots that are eaten, as sprouting broccoli does."""
    days, chill = context.number("days_to_maturity"), context.number("chill_to_bolt")
    return (
        chill is not None
        and days is not None
        and days >= practice.LONG_CROP
        and mode_of(context) == "after weeks"
    )


def _dated(
    context: DateContext, on: dt.date, ripe: dt.date, need: Need, stretches: tuple[Stretch, ...]
) -> Dated:
    """A first harvest with its reason, and the days of the earlier and the later half of years."""
    half = shift(on, (ripe - on).days / 2)
    so_far = heat_by(on, half, need, stretches)
    heat = say(
        "{heat} degree-days over {base} °C",
        heat=number_words(need.heat, 0),
        base=short_number(need.response.base),
    )
    if need.sort in SORT_WORDS:
        heat = say("{heat}, {sort}", heat=heat, sort=say(SORT_WORDS[need.sort]))
    if need.source.startswith(THIS_GARDEN):
        heat = say("{heat}, by this garden's own years", heat=heat)
    why = say("{heat}; {part} of them by {day}", heat=heat, part=number_words(so_far, 0), day=day_words(half))
    if stretches[0].weather.rough:
        why = say("{reason}, roughly: no monthly means are known", reason=why)
    others = [
        ripe_on(context, on, need, stretches_of(context, on, warmer))
        for warmer in (HALF_OF_YEARS, -HALF_OF_YEARS)
    ]
    # where summers are too hot for it, a cooler year is the earlier one
    earliest = min(ripe, *(day for day in others if day is not None))
    latest = None if None in others else max(ripe, *(day for day in others if day is not None))
    if latest is not None and (latest - ripe).days > WIDEST:
        latest = None  # the other half of the years waits for spring: no range of days
    return Dated(ripe, why, need.source, earliest=earliest, latest=latest)


def _heat_sum(
    context: DateContext, on: dt.date, need: Need, stretches: tuple[Stretch, ...]
) -> HeatSum | None:
    """Warmth that a planting needs, and finds before frost, cold or darkness end its year.

    None where it is planted for the year after, and where the temperatures are not known.
    """
    frost = context.frosts.first_after(on)
    if frost is None or not stretches or stretches[0].weather.rough or context.stays_for_years:
        return None
    if starts_in_autumn(context):
        return None
    until = first_frost_there(context, frost)
    if not context.tender:
        until, _ = end_of_growth(context, frost)
    early = need_of(context, "early")
    least = min(need.heat, early.heat) if early is not None else need.heat
    return HeatSum(least, heat_by(on, until, need, stretches), need.response.base, until)
