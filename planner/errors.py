"""Base class of every error that a user can cause.

An error builds one line from three parts: what is wrong, where, and how to fix it.  Window and command line show
``str(error)`` and nothing else.
"""

from __future__ import annotations


class BedwrightError(Exception):
    """An error that a user can fix.

    Parameters
    ----------
    what : str
        What is wrong, as a sentence without its full stop.
    where : str
        The place: a file, a bed, a field.  May be empty.
    fix : str
        How to fix it, as a sentence without its full stop.  May be empty.
    """

    def __init__(self, what: str, where: str = "", fix: str = "") -> None:
        self.what = what
        self.where = where
        self.fix = fix
        super().__init__(what, where, fix)

    def __str__(self) -> str:
        head = f"{self.where}: {self.what}" if self.where else self.what
        return " ".join(" ".join(_ended(part) for part in (head, self.fix) if part).split())


def _ended(sentence: str) -> str:
    return sentence if sentence.rstrip().endswith((".", "?", "!")) else f"{sentence}."
