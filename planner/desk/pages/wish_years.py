"""The growing year whose wishes are shown or met."""

from __future__ import annotations

from planner.desk.forms.fields import ChoiceField
from planner.desk.model.document import Document


def usual_wish_year(document: Document) -> int:
    """The year shown on the plan where it has wishes, else the next one."""
    now = document.year
    return now if any(one.year == now for one in document.garden.wishes) else now + 1


def offer_wish_years(document: Document, field: ChoiceField, shown: int) -> None:
    """Offer the year shown on the plan, the next one, and the one that is chosen.

    Parameters
    ----------
    document : Document
    field : ChoiceField
    shown : int
        The year that is chosen.
    """
    years = tuple(sorted({document.year, document.year + 1, shown}))
    if field.values != years:
        field.offer([(one, f"{one}") for one in years])
    field.show_value(shown)
