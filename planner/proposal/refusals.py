"""Why a crop does not fit into free ground, one line each."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.checks.rotation import Interval
from planner.crops import Crop
from planner.crops.families import family_words
from planner.garden.site import UnitSystem
from planner.garden.units import show_spacing
from planner.season.spans import Span
from planner.season.start_windows import StartWindow
from planner.words import day_words, number_words, say, say_count


class Refusal(NamedTuple):
    """Why a crop does not fit.

    Attributes
    ----------
    step : int
        How far it came: of several beds, the reason of the one that nearly fits says the most.
    why : str
        One line.
    """

    step: int
    why: str


def out_of_season(window: StartWindow | None) -> Refusal:
    """It is not begun at this time of the year."""
    if window is None:
        return Refusal(0, say("not begun at this time"))
    if window.first == window.last:
        return Refusal(0, say("goes in about {day}", day=day_words(window.first)))
    return Refusal(
        0,
        say("goes in {first} to {last}", first=day_words(window.first), last=day_words(window.last)),
    )


def not_harvested(window: StartWindow | None, day: dt.date) -> Refusal:
    """Begun now it would come to no good harvest."""
    if window is not None and not window.first <= day <= window.last:
        return Refusal(1, out_of_season(window).why)
    return Refusal(1, say("no good harvest if begun now"))


def too_long(span: Span) -> Refusal:
    """The ground is wanted again before it is cleared."""
    if span.open:
        return Refusal(2, say("takes the ground for good"))
    return Refusal(2, say("takes the ground until {day}", day=day_words(span.last)))


def no_ground(span: Span) -> Refusal:
    """No stretch is free for all its days."""
    if span.open:
        return Refusal(3, say("no ground free for good"))
    return Refusal(
        3,
        say(
            "no ground free {first} to {last}",
            first=day_words(span.first),
            last=day_words(span.last),
        ),
    )


def family_too_soon(crop: Crop, ago: int | None, years: Interval | None) -> Refusal:
    """The ground carried its family too short a time ago, or will soon."""
    family = family_words(crop.family)
    if ago is None or years is None or ago >= years.wanted:
        return Refusal(4, say("{family} follows too soon", family=family))
    if ago == 0:
        return Refusal(4, say("{family} grew there this year", family=family))
    wanted = number_words(years.wanted, 0 if years.wanted == int(years.wanted) else 1)
    return Refusal(
        4,
        say_count(
            "wants {wanted} years of rest: {family} a year ago",
            "wants {wanted} years of rest: {family} {count} years ago",
            ago,
            family=family,
            wanted=wanted,
        ),
    )


def too_shallow(least: float, depth: float, units: UnitSystem) -> Refusal:
    """The soil is not deep enough."""
    return Refusal(
        5,
        say(
            "wants {least} of soil, has {depth}",
            least=show_spacing(least, units),
            depth=show_spacing(depth, units),
        ),
    )


def too_dark(need: float | None, missing: float) -> Refusal:
    """The bed has too little direct sun."""
    return Refusal(
        6,
        say(
            "wants {need} h of sun, lacks {missing} h",
            need=number_words(need or 0, 0),
            missing=number_words(missing, 1),
        ),
    )


def no_room() -> Refusal:
    """Not one plant finds room."""
    return Refusal(7, say("not one plant finds room"))
