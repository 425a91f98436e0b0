"""Texts in tables that no spreadsheet computes, and how they are read again.

A spreadsheet takes a cell that begins with one of :data:`FORMULA_SIGNS` for a formula; an apostrophe before it makes it a
text.  Names may begin with a sign as well: ``-1 °C shelf``, ``+Plus``.  After a plus or a minus, plain words are left as they are:
they name nothing that a table without names of its own could compute.
"""

from __future__ import annotations

import re
import unicodedata

#: A text that begins with one of these is a formula to a spreadsheet.
FORMULA_SIGNS = tuple("=+-@|%＝＋－＠")
_SIGNS = re.escape("".join(FORMULA_SIGNS))
_INNER = re.compile(rf"([;\t\r\n]\s*)('*)(?=([{_SIGNS}][^;\t\r\n]*))")
_GUARDED_INNER = re.compile(rf"([;\t\r\n]\s*)'('*)(?=[{_SIGNS}])")
#: A plus or minus before plain words: letters, digits, degree signs, single spaces, points, hyphens and apostrophes between them.
_SIGNED_WORDS = re.compile(r"[+-] ?°?\w+(?:(?:[ .’'-]|\. | °|° )?\w+)*[.°]?")
#: Words that are the name of a cell (A1, or R1C1), or a value.
_COMPUTED_WORD = re.compile(r"[a-z]{1,3}\d+|r\d*c\d*|[rc]\d*|true|false", re.IGNORECASE)
#: A word that is only a name: two letters or more, without digits.
_NAME = re.compile(r"[^\W\d_]{2,}")


def might_be_computed(text: str) -> bool:
    """Whether a spreadsheet might take a text for a formula.

    Parameters
    ----------
    text : str
        A cell, or a part of one.

    Examples
    --------
    >>> [might_be_computed(text) for text in ("=1", "-1", "+A1", "-SUM(A1)", "-1 °C shelf", "+Plus", "leek")]
    [True, True, True, True, False, False, False]
    """
    text = text.lstrip()
    if not text.startswith(FORMULA_SIGNS):
        return False
    plain = unicodedata.normalize("NFKC", text).rstrip()
    if not _SIGNED_WORDS.fullmatch(plain) or "_" in plain:
        return True
    words = [word for word in re.split(r"[^\w°]+", plain) if word]
    named = any(_NAME.fullmatch(word) for word in words)
    return not named or any(_COMPUTED_WORD.fullmatch(word) for word in words)


def safe_text(text: str) -> str:
    """A text that a spreadsheet shows as it is: with an apostrophe before what might be a formula.

    A spreadsheet that separates cells by semicolons or tabs finds further cells within a text; what might be a formula there
    gets one too.
    """
    inner = _INNER.sub(_guarded, text)
    begins = might_be_computed(text) or text.startswith(("\t", "\r", "\n"))
    return f"'{inner}" if begins else inner


def _guarded(found: re.Match[str]) -> str:
    """A separator, with a guard before what follows it where that might be computed, or has an apostrophe of its own."""
    separator, apostrophes, rest = found.groups()
    return f"{separator}'{apostrophes}" if apostrophes or might_be_computed(rest) else separator


def without_inner_guards(text: str) -> str:
    """Take away the apostrophes that :func:`safe_text` has put into the middle of a text."""
    return _GUARDED_INNER.sub(r"\1\2", text)
