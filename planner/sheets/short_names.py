"""Shorter names of plantings by one rule, for the sheet on the screen and on paper."""

from __future__ import annotations

#: Fewer letters of a name say nothing.
LEAST_LETTERS = 4


def shorter_crop_names(crop: str) -> tuple[str, ...]:
    """A crop's name, then shorter ones, the longest first.

    Without what is in brackets; its first words as letters (``B. lettuce``); its last word; that cut to four letters or more.

    Parameters
    ----------
    crop : str
        As shown, the first letter large.

    Examples
    --------
    >>> shorter_crop_names("Sweet pepper")
    ('Sweet pepper', 'S. pepper', 'Pepper', 'Pepp.')
    """
    plain = crop.split(" (")[0].split(",")[0]
    *first, last = plain.split() or [plain]
    initials = " ".join([*(f"{word[0].upper()}." for word in first), last])
    last = last[:1].upper() + last[1:]
    cut = (f"{last[:letters]}." for letters in range(min(len(last) - 2, 8), LEAST_LETTERS - 1, -1))
    return tuple(dict.fromkeys((crop, plain, initials, last, *cut)))
