"""A pseudo-language: every message in marks, and every letter of it replaced."""

from __future__ import annotations

import gettext
import re
import string
from collections.abc import Iterator
from contextlib import contextmanager

from planner.words import use_translations

OPEN, CLOSE = "⟦", "⟧"
#: ASCII letters, each with its full-width form, in which no name is written.
_WIDE = {ord(letter): chr(ord(letter) + 0xFEE0) for letter in string.ascii_letters}
#: Abbreviations of units behind a number, as lengths, areas and temperatures are shown.
_UNIT = re.compile(r"(?<=\d) (?:m²|m|cm|ft|in|sq ft|miles?|°C|°F|x|degree-days over \d+ °[CF])(?![\w²])")


class Pseudo(gettext.NullTranslations):
    """Messages in marks and wide letters; their parts are left as they are."""

    def gettext(self, message: str) -> str:
        text = "".join(
            literal.translate(_WIDE) + ("{" + name + "}" if name is not None else "")
            for literal, name, _, _ in string.Formatter().parse(message)
        )
        return OPEN + text + CLOSE

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return "," if context == "decimal sign" else self.gettext(message)


@contextmanager
def pseudo_language() -> Iterator[None]:
    """Use the pseudo-language within a block, then the language before."""
    before = use_translations(Pseudo())
    try:
        yield
    finally:
        use_translations(before)


def is_whole(text: str) -> bool:
    """Whether a text is one message from beginning to end, and no glued fragments.

    Examples
    --------
    >>> is_whole("⟦ａ ⟦ｂ⟧ c⟧"), is_whole("⟦ａ⟧ ⟦ｂ⟧"), is_whole("a")
    (True, False, False)
    """
    depth = 0
    for place, sign in enumerate(text):
        depth += (sign == OPEN) - (sign == CLOSE)
        if depth <= 0 and place < len(text) - 1:
            return False
    return bool(text) and depth == 0 and text[-1] == CLOSE


def untranslated(text: str, names: frozenset[str]) -> str:
    """Words of a text that are not from the catalogue: neither translated, nor names, nor units of numbers.

    Parameters
    ----------
    text : str
    names : frozenset of str

    Examples
    --------
    >>> untranslated("⟦kale ｉｎ b1 ｎｅｅｄｓ 10 1/2 in of room⟧", frozenset({"kale", "b1"}))
    'of room'
    """
    for name in sorted(names, key=len, reverse=True):
        text = text.replace(name, " ")
    text = _UNIT.sub(" ", text)
    return " ".join("".join(sign if sign.isascii() and sign.isalpha() else " " for sign in text).split())
