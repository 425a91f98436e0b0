"""Sentences about what is spread that pages and forms share."""

from __future__ import annotations

from planner.errors import BedwrightError
from planner.words import say


def unknown_rate(kind: str) -> BedwrightError:
    """That a rate of lime or feed must be given, and who knows it.

    Parameters
    ----------
    kind : str
    """
    return BedwrightError(
        say("how much {kind} is not said", kind=kind),
        fix=say(
            "Have the soil tested and ask the laboratory how many grams a square metre it takes, or read the packet; type it as 200 g/m²"
        ),
    )
