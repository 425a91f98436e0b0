"""One sentence for several findings of one kind, by check and kind.

Each sentence names the crop, in how many beds it is so, and what is behind it where that tells the findings of
one kind apart.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from planner.words import say_count


class Subject(NamedTuple):
    """What several findings have in common.

    Attributes
    ----------
    crop, other : str
        Names of the crop they are about, and of the other one of pairs; may be empty.
    cause : str
        What is behind them; may be empty.
    number : int
        Beds of them; of findings about beds or ways, the findings themselves.
    """

    crop: str
    other: str
    cause: str
    number: int


#: Sentence of a number of findings, from what they have in common.
Phrase = Callable[[Subject], str]


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


def _unsupported(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed has no support",
        "{crop} in {count} beds has no support",
        of.number,
        crop=of.crop,
    )


def _low_support(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed grows higher than its support",
        "{crop} in {count} beds grows higher than its support",
        of.number,
        crop=of.crop,
    )


def _wrong_support(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed cannot hold on to its support",
        "{crop} in {count} beds cannot hold on to its support",
        of.number,
        crop=of.crop,
    )


def _in_flower(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is covered while it flowers",
        "{crop} in {count} beds is covered while it flowers",
        of.number,
        crop=of.crop,
    )


def _hoops_too_low(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed grows higher than the hoops over it",
        "{crop} in {count} beds grows higher than the hoops over it",
        of.number,
        crop=of.crop,
    )


def _pests(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is never covered against {cause}",
        "{crop} in {count} beds is never covered against {cause}",
        of.number,
        crop=of.crop,
        cause=of.cause,
    )


def _pests_partly(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is not covered for long enough against {cause}",
        "{crop} in {count} beds is not covered for long enough against {cause}",
        of.number,
        crop=of.crop,
        cause=of.cause,
    )


def _film(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed cannot come up through the film over it",
        "{crop} in {count} beds cannot come up through the film over it",
        of.number,
        crop=of.crop,
    )


def _few_for_seed(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed gives seed from too few plants",
        "{crop} in {count} beds gives seed from too few plants",
        of.number,
        crop=of.crop,
    )


def _crossing(of: Subject) -> str:
    return say_count(
        "{crop} grown for seed in {count} bed may cross with {other}",
        "{crop} grown for seed in {count} beds may cross with {other}",
        of.number,
        crop=of.crop,
        other=of.other,
    )


def _ears(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed is in silk with {other}",
        "{crop} in {count} beds is in silk with {other}",
        of.number,
        crop=of.crop,
        other=of.other,
    )


def _reach(of: Subject) -> str:
    return say_count(
        "{count} bed has ground out of a hand's reach",
        "{count} beds have ground out of a hand's reach",
        of.number,
    )


def _path(of: Subject) -> str:
    return say_count("{count} path is too narrow", "{count} paths are too narrow", of.number)


def _lost(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed has lost plants",
        "{crop} in {count} beds has lost plants",
        of.number,
        crop=of.crop,
    )


def _seed_short(of: Subject) -> str:
    return say_count("Of {count} sort seed is short", "Of {count} sorts seed is short", of.number)


def _seed_old(of: Subject) -> str:
    return say_count("Of {count} sort the seed is too old", "Of {count} sorts the seed is too old", of.number)


def _no_seed(of: Subject) -> str:
    return say_count("Of {count} sort no seed is on hand", "Of {count} sorts no seed is on hand", of.number)


def _seed_not_counted(of: Subject) -> str:
    return say_count(
        "Of {count} sort it cannot be counted whether the seed is enough",
        "Of {count} sorts it cannot be counted whether the seed is enough",
        of.number,
    )


def _store_short(of: Subject) -> str:
    return say_count(
        "{crop} for the store in {count} bed keeps for a short time only",
        "{crop} for the store in {count} beds keeps for a short time only",
        of.number,
        crop=of.crop,
    )


def _store_early(of: Subject) -> str:
    return say_count(
        "{crop} for the store in {count} bed is lifted too early to last",
        "{crop} for the store in {count} beds is lifted too early to last",
        of.number,
        crop=of.crop,
    )


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


def _full_bench(of: Subject) -> str:
    return say_count(
        "{count} bench has too little room for young plants",
        "{count} benches have too little room for young plants",
        of.number,
    )


def _far_from_tap(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed wants water often, far from the tap",
        "{crop} in {count} beds wants water often, far from the tap",
        of.number,
        crop=of.crop,
    )


def _dry_ground(of: Subject) -> str:
    return say_count(
        "{crop} in {count} bed wants water where little rain comes",
        "{crop} in {count} beds wants water where little rain comes",
        of.number,
        crop=of.crop,
    )


def _unlike_line(of: Subject) -> str:
    return say_count(
        "The drip lines of {count} bed water what is unlike",
        "The drip lines of {count} beds water what is unlike",
        of.number,
    )


#: Kinds of findings that are about the garden, its beds or its seed, whatever the crop.
ANY_CROP: frozenset[tuple[str, str]] = frozenset(
    {
        ("outside", "site"),
        ("overlap", "beds"),
        ("reach", ""),
        ("path", ""),
        ("acidity", "acid"),
        ("acidity", "lime"),
        ("stock", "short"),
        ("stock", "old"),
        ("stock", "none"),
        ("stock", "unknown"),
        ("bench", "full"),
        ("water", "unlike"),
    }
)
#: The sentences, by check and kind; a kind without one is listed finding by finding.
PHRASES: dict[tuple[str, str], Phrase] = {
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
    ("rotation", ""): _rotation,
    ("neighbours", "bad"): _bad_neighbours,
    ("neighbours", "good"): _good_neighbours,
    ("neighbours", "block"): _block,
    ("neighbours", "tree"): _tree,
    ("support", "none"): _unsupported,
    ("support", "low"): _low_support,
    ("support", "kind"): _wrong_support,
    ("cover", "flower"): _in_flower,
    ("cover", "height"): _hoops_too_low,
    ("cover", "pests"): _pests,
    ("cover", "pests partly"): _pests_partly,
    ("cover", "film"): _film,
    ("seed purity", "few"): _few_for_seed,
    ("seed purity", "crossing"): _crossing,
    ("seed purity", "ears"): _ears,
    ("reach", ""): _reach,
    ("path", ""): _path,
    ("losses", "lost"): _lost,
    ("stock", "short"): _seed_short,
    ("stock", "old"): _seed_old,
    ("stock", "none"): _no_seed,
    ("stock", "unknown"): _seed_not_counted,
    ("bench", "full"): _full_bench,
    ("water", "far"): _far_from_tap,
    ("water", "dry"): _dry_ground,
    ("water", "unlike"): _unlike_line,
    ("store", "short"): _store_short,
    ("store", "early"): _store_early,
    ("light", ""): _dark,
    ("light", "takes"): _takes_light,
}
