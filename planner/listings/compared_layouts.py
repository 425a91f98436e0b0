"""A layout beside the one that is shown, in words."""

from __future__ import annotations

from collections.abc import Iterator

from planner.proposal.compared_layouts import Comparison, Merits, Verdict, worse_or_better
from planner.words import join_list, later, say, say_count

_VERDICTS: dict[Verdict, str] = {
    "as good": later(
        "The new search found another layout that is as good as the one that is shown: {differences}."
    ),
    "better": later("The new search found a better layout than the one that was shown: {differences}."),
    "worse": later(
        "The new search found nothing better. The best that it found, beside what is shown: {differences}."
    ),
}


def comparison_words(new: Merits, shown: Merits) -> str:
    """What a new search found beside the layout that is shown, a sentence or two; empty where they are for other wishes.

    Parameters
    ----------
    new, shown : Merits
    """
    found = worse_or_better(new, shown)
    if found is None:
        return ""
    if found.verdict == "same":
        return say("The new search found the layout that is shown, and no better one.")
    return say(_VERDICTS[found.verdict], differences=join_list(difference_words(found)))


def difference_words(found: Comparison) -> Iterator[str]:
    """What a layout has more or less than another, as short phrases; what it costs where nothing else tells them apart.

    Parameters
    ----------
    found : Comparison
    """
    said = False
    for words in _counted(found):
        said = True
        yield words
    if found.points > 0:
        yield say_count("{count} point more", "{count} points more", found.points)
    elif found.points < 0:
        yield say_count("{count} point less", "{count} points less", -found.points)
    elif not said:
        yield say("plantings in other places")


def _counted(found: Comparison) -> Iterator[str]:
    if found.musts > 0:
        yield say_count(
            "{count} wish that must be met is not any more",
            "{count} wishes that must be met are not any more",
            found.musts,
        )
    elif found.musts < 0:
        yield say_count(
            "{count} wish more is met that must be", "{count} wishes more are met that must be", -found.musts
        )
    if found.whole > 0:
        yield say_count("{count} wish more met whole", "{count} wishes more met whole", found.whole)
    elif found.whole < 0:
        yield say_count("{count} wish less met whole", "{count} wishes less met whole", -found.whole)
    if found.in_part > 0:
        yield say_count("{count} more met in part", "{count} more met in part", found.in_part)
    elif found.in_part < 0:
        yield say_count("{count} less met in part", "{count} less met in part", -found.in_part)
    if found.moved > 0:
        yield say_count(
            "{count} more in another bed than this year",
            "{count} more in other beds than this year",
            found.moved,
        )
    elif found.moved < 0:
        yield say_count(
            "{count} less in another bed than this year",
            "{count} less in other beds than this year",
            -found.moved,
        )
    if found.shifted > 0:
        yield say_count(
            "{count} more begun on another day", "{count} more begun on other days", found.shifted
        )
    elif found.shifted < 0:
        yield say_count(
            "{count} less begun on another day", "{count} less begun on other days", -found.shifted
        )
    if found.divided > 0:
        yield say_count("{count} more divided", "{count} more divided", found.divided)
    elif found.divided < 0:
        yield say_count("{count} less divided", "{count} less divided", -found.divided)
    if found.families > 0:
        yield say_count(
            "families scattered over {count} bed more",
            "families scattered over {count} beds more",
            found.families,
        )
    elif found.families < 0:
        yield say_count(
            "families scattered over {count} bed less",
            "families scattered over {count} beds less",
            -found.families,
        )
