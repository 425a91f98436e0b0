"""What keeps a wish out of beds, in words, with the names of some of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planner.proposal.offers import GardenPuzzle
from planner.proposal.reasons import OtherBed, Verdict
from planner.words import join_list, say, say_count

#: Most beds that are named for each reason.
MOST_NAMES = 3


def shut_words(of: GardenPuzzle, others: Iterable[OtherBed]) -> str:
    """What keeps a wish out of beds, with their numbers and names, as a part of a sentence; empty where nothing does.

    Parameters
    ----------
    of : GardenPuzzle
    others : iterable of OtherBed
    """
    names: dict[Verdict, list[str]] = {}
    for one in others:
        if one.verdict != "dearer":
            names.setdefault(one.verdict, []).append(of.strips[one.bed].bed.name)
    words = [
        say("{reason} ({beds})", reason=verdict_words(verdict, len(beds)), beds=names_words(beds))
        for verdict, beds in sorted(names.items(), key=lambda item: (-len(item[1]), item[0]))
    ]
    return join_list(words)


def names_words(names: Sequence[str]) -> str:
    """Names of beds; of many the first ones, and how many more there are.

    Parameters
    ----------
    names : sequence of str
    """
    if len(names) <= MOST_NAMES:
        return join_list(names)
    shown = names[: MOST_NAMES - 1]
    return say_count(
        "{names} and {count} more",
        "{names} and {count} more",
        len(names) - len(shown),
        names=", ".join(shown),
    )


def verdict_words(verdict: Verdict, count: int) -> str:
    """What keeps a wish out of so many beds, a part of a sentence."""
    match verdict:
        case "rotation":
            return say_count(
                "{count} carried its family too lately", "{count} carried its family too lately", count
            )
        case "light":
            return say_count("{count} is too dark", "{count} are too dark", count)
        case "depth":
            return say_count("{count} is too shallow", "{count} are too shallow", count)
        case "stands":
            return say_count("{count} is taken by what stays", "{count} are taken by what stays", count)
        case "built":
            return say_count("{count} is built on", "{count} are built on", count)
        case "short":
            return say_count("{count} is too short", "{count} are too short", count)
        case "full":
            return say_count("{count} is full", "{count} are full", count)
        case "objected":
            return say_count("{count} is ruled out by a check", "{count} are ruled out by a check", count)
        case "apart":
            return say_count(
                "{count} has what it is kept apart from", "{count} have what it is kept apart from", count
            )
    return ""
