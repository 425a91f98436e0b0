"""What the page of a proposed layout says of where its search stands."""

from __future__ import annotations

from collections.abc import Sequence

from planner.desk.model.layout_search import LayoutSearch
from planner.listings.found_layout import FoundLayout
from planner.words import later, say, say_count

_NO_WISHES = later(
    "No wishes for {year} yet. Say on the Wishes page what it should bring: they can be made there from what was planted in the year "
    "before, or from what the household eats."
)
_NO_BEDS = later("No bed is in use in {year}. Draw beds on the plan first.")
_READY = later(
    "Search looks for a place in the beds for each wish of {year}. Nothing in the garden changes until you take something over."
)
_OUTDATED = later("The garden has changed since: what is shown is for the garden as it was. Search again.")


def state_words(search: LayoutSearch, year: int, *, wished: bool, beds: bool) -> Sequence[str]:
    """Sentences that say where a search stands.

    Parameters
    ----------
    search : LayoutSearch
    year : int
    wished, beds : bool
        Whether there are wishes for the year, and beds in use.
    """
    found = search.found
    if search.failed:
        return (search.failed,)
    if search.is_outdated and (found is not None or search.state != "idle"):
        return (say(_OUTDATED), *(_found_words(search, found) if found is not None else ()))
    if search.state == "begun" and found is None:
        return (say("Looking where each wish could stand…"),)
    if found is not None:
        return _found_words(search, found)
    if not beds:
        return (say(_NO_BEDS, year=year),)
    return (say(_READY, year=year) if wished else say(_NO_WISHES, year=year),)


def _found_words(search: LayoutSearch, found: FoundLayout) -> Sequence[str]:
    lines = [say("{sentence}.", sentence=line) for line in found.lines]
    if search.state == "searching" and found.solver:
        lines.append(
            say_count("Searching, {count} round so far…", "Searching, {count} rounds so far…", found.round)
            if found.round
            else say("This is the first answer; better ones are being searched for…")
        )
    elif search.state in ("judging", "searching"):
        lines.append(say("The checks are being asked…"))
    elif search.state == "unlike":
        lines.append(say("Layouts unlike this one are being searched for…"))
    elif search.no_others:
        lines.append(say("No layout about as good was found that is unlike this one."))
    return lines
