"""One sentence for several findings about dates: frost, season, warmth of the soil and bolting."""

from __future__ import annotations

from planner.checks.group_subject import Phrases, Subject
from planner.words import say_count


def _spring(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is out before the last spring frost",
        "{crop} in {count} beds is out before the last spring frost",
        of.number,
        crop=of.crop,
    )


def _blossom(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed flowers in nights that kill its flowers",
        "{crop} in {count} beds flowers in nights that kill its flowers",
        of.number,
        crop=of.crop,
    )


def _autumn(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is picked beyond the first autumn frost",
        "{crop} in {count} beds is picked beyond the first autumn frost",
        of.number,
        crop=of.crop,
    )


def _winter(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed stands in colder nights than it bears",
        "{crop} in {count} beds stands in colder nights than it bears",
        of.number,
        crop=of.crop,
    )


def _early(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is started earlier than is usual",
        "{crop} in {count} beds is started earlier than is usual",
        of.number,
        crop=of.crop,
    )


def _late(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is started too late to grow to its size",
        "{crop} in {count} beds is started too late to grow to its size",
        of.number,
        crop=of.crop,
    )


def _unripe(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is not ripe before the first autumn frost",
        "{crop} in {count} beds is not ripe before the first autumn frost",
        of.number,
        crop=of.crop,
    )


def _barely(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is ripe only just before the first autumn frost",
        "{crop} in {count} beds is ripe only just before the first autumn frost",
        of.number,
        crop=of.crop,
    )


def _heat(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed finds too little heat to be ripe",
        "{crop} in {count} beds finds too little heat to be ripe",
        of.number,
        crop=of.crop,
    )


def _killed_first(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is killed by cold before it can be picked",
        "{crop} in {count} beds is killed by cold before it can be picked",
        of.number,
        crop=of.crop,
    )


def _nights(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed has nights that are too cool for it",
        "{crop} in {count} beds has nights that are too cool for it",
        of.number,
        crop=of.crop,
    )


def _cleared(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is cleared before it can be picked",
        "{crop} in {count} beds is cleared before it can be picked",
        of.number,
        crop=of.crop,
    )


def _out_of_order(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is picked before it starts",
        "{crop} in {count} beds is picked before it starts",
        of.number,
        crop=of.crop,
    )


def _cold_soil(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is sown in soil that is too cold",
        "{crop} in {count} beds is sown in soil that is too cold",
        of.number,
        crop=of.crop,
    )


def _hot_soil(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is sown in soil that is too hot",
        "{crop} in {count} beds is sown in soil that is too hot",
        of.number,
        crop=of.crop,
    )


def _bolts(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed runs to seed before it is picked",
        "{crop} in {count} beds runs to seed before it is picked",
        of.number,
        crop=of.crop,
    )


def _chilled(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is chilled, which sends it to seed",
        "{crop} in {count} beds is chilled, which sends it to seed",
        of.number,
        crop=of.crop,
    )


def _left_to_bolt(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed stands on after it has run to seed",
        "{crop} in {count} beds stands on after it has run to seed",
        of.number,
        crop=of.crop,
    )


def _cold_roots(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is set out in soil that is too cold",
        "{crop} in {count} beds is set out in soil that is too cold",
        of.number,
        crop=of.crop,
    )


#: The sentences, by check and kind.
SEASON: Phrases = {
    ("frost", "spring"): _spring,
    ("frost", "autumn"): _autumn,
    ("frost", "blossom"): _blossom,
    ("frost", "winter"): _winter,
    ("season", "early"): _early,
    ("season", "late"): _late,
    ("season", "small"): _late,
    ("season", "frost"): _unripe,
    ("season", "barely"): _barely,
    ("season", "heat"): _heat,
    ("season", "cold"): _killed_first,
    ("season", "nights"): _nights,
    ("season", "cleared"): _cleared,
    ("season", "order"): _out_of_order,
    ("soil warmth", ""): _cold_soil,
    ("soil warmth", "roots"): _cold_roots,
    ("soil warmth", "hot"): _hot_soil,
    ("bolting", ""): _bolts,
    ("bolting", "chilled"): _chilled,
    ("bolting", "left"): _left_to_bolt,
}
