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
    return f"{value:z.{digits}f}".replace(".", say_in_context("decimal sign", "."))


def short_number(value: float, digits: int = 6) -> str:
    """A number with no more decimals than it needs.

    Parameters
    ----------
    value : float
    digits : int
        Most significant figures.

    Examples
    --------
    >>> short_number(2.50), short_number(3.0)
    ('2.5', '3')
    """
    return f"{value:z.{digits}g}".replace(".", say_in_context("decimal sign", "."))


def whole_words(value: float) -> str:
    """A whole number, with a sign between its thousands.

    Examples
    --------
    >>> whole_words(2016), whole_words(-3)
    ('2,016', '-3')
    """
    return f"{value:,.0f}".replace(",", say_in_context("sign between thousands", ","))


def percent(share: float) -> str:
    """A share in hundredths.

    Examples
    --------
    >>> percent(0.352)
    '35 %'
    """
    return say("{number} %", number=number_words(100 * share, 0))
