"""Edits of what a garden uses of its own years."""

from __future__ import annotations

from planner.garden.edits.common import checked
from planner.garden.edits.parts import change_site
from planner.garden.garden import Garden
from planner.garden.learned import LearnedChoice, LearnedKind, LearnedUse


def choose_learned(
    garden: Garden, crop: str, figure: LearnedKind, used: bool | None, variety: str = ""
) -> Garden:
    """Say whether a figure of this garden's own years is used.

    Parameters
    ----------
    garden : Garden
    crop : str
        Key of the crop.
    figure : str
        One of :data:`planner.garden.learned.LEARNED_KINDS`.
    used : bool or None
        None leaves it to the rule: from three years on.
    variety : str
        Empty for plantings that name none.
    """
    learned, same = garden.site.learned, (crop, variety.casefold(), figure)
    choices = tuple(one for one in learned.choices if (one.crop, one.variety.casefold(), one.figure) != same)
    if used is not None:
        new = checked(
            lambda: LearnedChoice.model_validate(
                {"crop": crop, "variety": variety, "figure": figure, "used": used}
            ),
            crop,
        )
        choices = (*choices, new)
    return change_site(garden, learned=learned.with_(choices=choices))


def use_learned(garden: Garden, use: LearnedUse) -> Garden:
    """Say whether figures of this garden's own years are used at all.

    Parameters
    ----------
    garden : Garden
    use : {"after three years", "never"}
    """
    learned = checked(
        lambda: type(garden.site.learned).model_validate(
            {"use": use, "choices": garden.site.learned.choices}
        ),
        garden.site.name,
    )
    return change_site(garden, learned=learned)
