"""A share of a planting as it is typed: ``half``, ``a third``, ``30 %``, ``9 of 28``; a number alone is in hundredths."""

from __future__ import annotations

import re

from planner.errors import BedwrightError
from planner.importing.record_phrases import VOCABULARIES
from planner.words import say

_OF = re.compile(r"(\d+)\s*(?:of(?: the)?|von(?: den)?|/)\s*(\d+)", re.IGNORECASE)


def read_share(text: str) -> float:
    """Return a share from 0 to 1.

    Parameters
    ----------
    text : str

    Raises
    ------
    BedwrightError
        Where it is no share of a whole.
    """
    typed = " ".join(text.casefold().split())
    words = {phrase: share for one in VOCABULARIES for phrase, share in one.shares.items()}
    words |= {phrase.removeprefix("a "): share for phrase, share in words.items()} | {"all": 1.0, "none": 0.0}
    share = words.get(typed.removesuffix(" of it").removesuffix(" of them"), words.get(typed))
    if share is not None:
        return share
    counted = _OF.fullmatch(typed)
    try:
        share = (
            int(counted[1]) / int(counted[2])
            if counted
            else float(typed.replace(",", ".").rstrip(" %")) / 100
        )
    except (ValueError, ZeroDivisionError):
        share = -1.0
    if not 0 <= share <= 1:
        raise BedwrightError(
            say("'{text}' is no share of a whole", text=text), fix=say("Type it like half, 30 % or 9 of 28")
        )
    return share
