"""Numbers as they are written in a sentence."""

from __future__ import annotations

from planner.words.catalogue import say, say_in_context


def number_words(value: float, digits: int) -> str:
    """A number with so many decimals.

    Parameters
    ----------
    value : float
    digits : int

    Examples
    --------
    >>> number_words(2.04, 1)
    '2.0'
    """
    return f"{value:.{digits}f}".replace(".", say_in_context("decimal sign", "."))


def percent(share: float) -> str:
    """A share in hundredths.

    Examples
    --------
    >>> percent(0.352)
    '35 %'
    """
    return say("{number} %", number=number_words(100 * share, 0))
