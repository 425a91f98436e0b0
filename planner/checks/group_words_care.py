"""One sentence for several findings about what plants are given and what they give: supports, covers, seed, water, stores."""

from __future__ import annotations

from planner.checks.group_subject import Phrases, Subject
from planner.words import say_count


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


#: The sentences, by check and kind.
CARE: Phrases = {
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
}
