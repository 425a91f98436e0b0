"""One sentence for several findings about places: ground, room, rotation, neighbours, reach and light."""

from __future__ import annotations

from planner.checks.group_subject import Phrases, Subject
from planner.words import say_count


def _outside(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed lies partly outside its bed",
        "{crop} in {count} beds lies partly outside its bed",
        of.number,
        crop=of.crop,
    )


def _beyond_edge(of: Subject) -> str:
    return say_count(
        "{count} bed lies partly beyond the edge of the garden",
        "{count} beds lie partly beyond the edge of the garden",
        of.number,
    )


def _overlap(of: Subject) -> str:
    return say_count(
        "{crop} and {other} take the same ground in {count} bed",
        "{crop} and {other} take the same ground in {count} beds",
        of.number,
        crop=of.crop,
        other=of.other,
    )


def _beds_overlap(of: Subject) -> str:
    return say_count("{count} pair of beds overlaps", "{count} pairs of beds overlap", of.number)


def _standing(of: Subject) -> str:
    return say_count(
        "{crop} takes ground of {other} in {count} bed",
        "{crop} takes ground of {other} in {count} beds",
        of.number,
        crop=of.crop,
        other=of.other,
    )


def _within(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed stands closer than its published spacings",
        "{crop} in {count} beds stands closer than its published spacings",
        of.number,
        crop=of.crop,
    )


def _between(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed stands too near to {other}",
        "{crop} in {count} beds stands too near to {other}",
        of.number,
        crop=of.crop,
        other=of.other,
    )


def _vines(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed runs over {other}",
        "{crop} in {count} beds runs over {other}",
        of.number,
        crop=of.crop,
        other=of.other,
    )


def _shallow(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed has too little soil for its roots",
        "{crop} in {count} beds has too little soil for its roots",
        of.number,
        crop=of.crop,
    )


def _too_acid(of: Subject) -> str:
    return say_count(
        "{count} planting grows in soil more acid than it wants",
        "{count} plantings grow in soil more acid than they want",
        of.number,
    )


def _too_limy(of: Subject) -> str:
    return say_count(
        "{count} planting grows in soil less acid than it wants",
        "{count} plantings grow in soil less acid than they want",
        of.number,
    )


def _rotation(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed comes too soon after {cause}",
        "{crop} in {count} beds comes too soon after {cause}",
        of.number,
        crop=of.crop,
        cause=of.cause,
    )


def _bad_neighbours(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed suffers from {other} beside it",
        "{crop} in {count} beds suffers from {other} beside it",
        of.number,
        crop=of.crop,
        other=of.other,
    )


def _good_neighbours(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is helped by {other} beside it",
        "{crop} in {count} beds is helped by {other} beside it",
        of.number,
        crop=of.crop,
        other=of.other,
    )


def _block(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed stands in too few rows for its pollen",
        "{crop} in {count} beds stands in too few rows for its pollen",
        of.number,
        crop=of.crop,
    )


def _tree(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed stands too near to {cause}",
        "{crop} in {count} beds stands too near to {cause}",
        of.number,
        crop=of.crop,
        cause=of.cause,
    )


def _reach(of: Subject) -> str:
    return say_count(
        "{count} bed has ground out of a hand's reach",
        "{count} beds have ground out of a hand's reach",
        of.number,
    )


def _path(of: Subject) -> str:
    return say_count("{count} path is too narrow", "{count} paths are too narrow", of.number)


def _dark(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed has less sun than it needs",
        "{crop} in {count} beds has less sun than it needs",
        of.number,
        crop=of.crop,
    )


def _takes_light(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed takes the sun from others",
        "{crop} in {count} beds takes the sun from others",
        of.number,
        crop=of.crop,
    )


#: The sentences, by check and kind.
GROUND: Phrases = {
    ("outside", ""): _outside,
    ("outside", "site"): _beyond_edge,
    ("overlap", "plots"): _overlap,
    ("overlap", "beds"): _beds_overlap,
    ("standing", ""): _standing,
    ("crowding", "within"): _within,
    ("crowding", "rows"): _within,
    ("crowding", "between"): _between,
    ("crowding", "hanging"): _between,
    ("crowding", "vines"): _vines,
    ("depth", ""): _shallow,
    ("acidity", "acid"): _too_acid,
    ("acidity", "lime"): _too_limy,
    ("rotation", ""): _rotation,
    ("neighbours", "bad"): _bad_neighbours,
    ("neighbours", "good"): _good_neighbours,
    ("neighbours", "block"): _block,
    ("neighbours", "tree"): _tree,
    ("reach", ""): _reach,
    ("path", ""): _path,
    ("light", ""): _dark,
    ("light", "takes"): _takes_light,
}
