"""How wide text is on a terminal."""

from __future__ import annotations

import unicodedata


def width(text: str) -> int:
    """Columns a text takes on a terminal: marks none, wide signs two."""
    total = 0
    for sign in text:
        if unicodedata.combining(sign) or unicodedata.category(sign) in ("Cf", "Me", "Mn"):
            continue
        total += 2 if unicodedata.east_asian_width(sign) in ("W", "F") else 1
    return total
