"""Frost in spring: plants that are out earlier than the last frost allows."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix
from planner.checks.frame.fixes import other_start
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import frost_gain, frosty_until
from planner.checks.frost_kills import Bears, young_bear
from planner.garden.units import show_degrees, show_temperature
from planner.plan import Plan
from planner.season.frosts import Frosts, shift
from planner.season.practice import WARMING
from planner.season.spans import Span
from planner.season.usual_weather import UsualWeather
from planner.words import capital, later, say, say_count

CHECK = "frost"
#: Least days too early that are reported: frost dates are no more exact. [days]
SLACK = 3
#: Days before the last frost from which shoots that it cuts grow again from the tuber, or are earthed over (practice). [days]
SHOOTS_REGROW = 14
#: Days too early from which a tender planting fails rather than suffers. [days]
FAILS = 14
#: Most days from a start to the last spring frost that it is judged by. [days]
SPRING = 150
#: The same where that frost falls in another calendar year than the growing year's. [days]
NEXT_SPRING = 120
#: Days before a start in which the autumn frost it follows is looked for. [days]
AUTUMN_BEFORE = 30
#: Days beyond those it is too early that are tried for another start. [days]
MOST_TRIED = 60
#: A cover stays on after the last night that is too cold. [days]
COVERED_AFTER = 14

#: Starts that are in the ground before their leaves are out.
_FROM_BELOW = ("sown", "tubers")

_RULE = later("Frost kills tender plants; they go out after the last spring frost at the risk planned with")
_RULE_HARDY = later("Hardy plants go out when nights that are colder than their young plants bear are over")


def judge_spring(view: PlantingView, frosts: Frosts, outside: UsualWeather | None) -> Finding | None:
    """Report a planting whose leaves are out before nights are over that are colder than it bears.

    Parameters
    ----------
    view : PlantingView
        Of a crop with a hardiness class.
    frosts : Frosts
        Of the growing year it belongs to.
    outside : UsualWeather, optional
        The usual weather of the garden.
    """
    out, bears = _first_day_out(view), young_bear(view)
    if out is None or bears is None:
        return None
    last = _last_frost_ahead(view, frosts, out)
    safe = _safe_from(view, last, out, bears, outside) if last is not None else None
    if last is None or safe is None:
        return None
    early = (safe - out).days
    if early <= SLACK:
        return None
    frost_kills = view.tender or view.tender_shoots
    warm = frost_gain(view, out)
    return planting_finding(
        CHECK,
        "stop" if view.tender and early > FAILS else "mind",
        (view,),
        capital(_text(view, out, last, frosts.risk, bears, warm)),
        say(_RULE) if frost_kills else say(_RULE_HARDY),
        view.source(bears.field),
        [str(out), str(last), round(warm, 1)],
        Span(out, max(out, safe)),
        topic="spring",
        candidates=lambda plan: _start_later(plan, view.id, early, out),
    )


def _first_day_out(view: PlantingView) -> dt.date | None:
    """First day on which its leaves are out in the weather; None for cloves and sets, which bear it."""
    dates = view.dates
    if dates.start in ("sets", "cloves"):
        return None
    if dates.start in _FROM_BELOW and dates.emerge is not None:
        return dates.emerge.day
    return dates.on_plot.day if dates.on_plot is not None else None


def _last_frost_ahead(view: PlantingView, frosts: Frosts, out: dt.date) -> dt.date | None:
    """The last spring frost that a planting out on a day meets; None where that is not its own spring's."""
    last = frosts.last_after(shift(out, -SLACK))
    if last is None or frosts.last is None:
        return None
    days = (last - out).days
    if days > SPRING or (last.year != frosts.last.year and days > NEXT_SPRING):
        return None
    autumn = frosts.first_after(shift(out, -AUTUMN_BEFORE))
    overwinters = autumn is not None and autumn <= last and not view.tender
    return None if overwinters else last  # the cold of a whole winter is judged in ``frost_winter``


def _safe_from(
    view: PlantingView, last: dt.date, out: dt.date, bears: Bears, outside: UsualWeather | None
) -> dt.date | None:
    """First day from which no night is colder than it bears, with its glass and covers; None where nothing says which."""
    covered = frost_gain(view, out) > 0
    if outside is None:
        return None if covered or bears.temperature < 0 else last
    frosty = frosty_until(view, outside, bears.temperature, out, last)
    safe = shift(frosty, 1) if frosty is not None else out
    if view.tender_shoots:
        return shift(safe, -SHOOTS_REGROW)
    warm_nights = shift(last, _days_to_warm_nights(view))
    return max(safe, warm_nights) if view.tender and not covered and warm_nights > last else safe


def _days_to_warm_nights(view: PlantingView) -> float:
    """Days from the last frost to nights that are warm enough for a crop that loves warmth. [days]"""
    if view.crop is None or view.crop.hardiness is None:
        return 0.0
    weeks = _weeks_from_frost(view)
    if view.crop.hardiness.value != "warm-loving" or weeks is None or view.dates.start == "sown":
        return 0.0
    return max(0.0, 7 * weeks)


def _weeks_from_frost(view: PlantingView) -> float | None:
    """Weeks from the last frost at which it may go out at the earliest, by any source."""
    figure = view.figure("set_out_from")
    return figure.least if figure is not None else view.number("set_out_from")


# -- the sentence --------------------------------------------------------------------------------


def _text(view: PlantingView, out: dt.date, last: dt.date, risk: int, bears: Bears, warm: float) -> str:
    event, before = _event(view, out, last, risk), out < last
    if view.tender_shoots:
        text = say("{event}, and its shoots bear no frost", event=event)
    elif view.tender and before:
        text = say("{event}, and bears no frost", event=event)
    elif view.tender:
        text = say("{event}, and wants warm nights", event=event)
    else:
        cold = show_temperature(bears.temperature, view.units)
        text = say("{event}; young plants bear {temperature} at the least", event=event, temperature=cold)
    if not warm:
        return text
    degrees = show_degrees(warm, view.units)
    return say("{event}; glass and cover hold off {degrees}", event=text, degrees=degrees)


def _event(view: PlantingView, out: dt.date, last: dt.date, risk: int) -> str:
    """That its leaves are out, and how long before or after the last spring frost."""
    days, day, frost = (last - out).days, view.day(out), view.day(last)
    if view.dates.start in _FROM_BELOW:
        return _comes_up(view.name, days, day, frost, risk)
    if days > 0:
        return say_count(
            "{planting} is out on {day}, {count} day before the last spring frost ({frost}, risk {risk} %)",
            "{planting} is out on {day}, {count} days before the last spring frost ({frost}, risk {risk} %)",
            days,
            planting=view.name,
            day=day,
            frost=frost,
            risk=risk,
        )
    if days < 0:
        return say_count(
            "{planting} is out on {day}, {count} day after the last spring frost ({frost}, risk {risk} %)",
            "{planting} is out on {day}, {count} days after the last spring frost ({frost}, risk {risk} %)",
            -days,
            planting=view.name,
            day=day,
            frost=frost,
            risk=risk,
        )
    return say(
        "{planting} is out on {day}, on the day of the last spring frost ({frost}, risk {risk} %)",
        planting=view.name,
        day=day,
        frost=frost,
        risk=risk,
    )


def _comes_up(name: str, days: int, day: str, frost: str, risk: int) -> str:
    """That it comes up so many days before the last spring frost, or after it where negative."""
    if days > 0:
        return say_count(
            "{planting} comes up on {day}, {count} day before the last spring frost ({frost}, risk {risk} %)",
            "{planting} comes up on {day}, {count} days before the last spring frost ({frost}, risk {risk} %)",
            days,
            planting=name,
            day=day,
            frost=frost,
            risk=risk,
        )
    if days < 0:
        return say_count(
            "{planting} comes up on {day}, {count} day after the last spring frost ({frost}, risk {risk} %)",
            "{planting} comes up on {day}, {count} days after the last spring frost ({frost}, risk {risk} %)",
            -days,
            planting=name,
            day=day,
            frost=frost,
            risk=risk,
        )
    return say(
        "{planting} comes up on {day}, on the day of the last spring frost ({frost}, risk {risk} %)",
        planting=name,
        day=day,
        frost=frost,
        risk=risk,
    )


# -- fixes ---------------------------------------------------------------------------------------


def _start_later(plan: Plan, key: str, early: int, out: dt.date) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield other_start(view, range(early, early + MOST_TRIED), _later)
    if view.sheltered or any(cover.kind in WARMING for cover in view.planting.covers):
        return
    until = shift(out, early + COVERED_AFTER)
    for kind, text in (
        ("fleece", say("Keep fleece over it until {day}", day=view.day(until))),
        ("cloche", say("Keep a cloche over it until {day}", day=view.day(until))),
    ):
        cover = {"kind": kind, "first": view.span.first, "last": until}
        covers = (*view.planting.covers, cover)
        yield Fix(text, say("it may stay as early"), fixes.changed(view.planting, covers=covers))


def _later(days: int) -> str:
    return say_count(
        "{count} day later, past the frost it cannot bear",
        "{count} days later, past the frost it cannot bear",
        days,
    )
