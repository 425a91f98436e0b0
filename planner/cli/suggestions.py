"""Near names for a name that is not known."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planner.words import say


def near_names(name: str, names: Iterable[str], most: int = 1, likeness: float = 0.6) -> list[str]:
    """Return the names most like a name, the likest first; empty where none is like it.

    Parameters
    ----------
    name : str
    names : iterable of str
    most : int
        Most names returned.
    likeness : float
        Least likeness of a name returned. [0 to 1]
    """
    import difflib  # only where a name is not known

    return difflib.get_close_matches(name, list(names), n=most, cutoff=likeness)


def either(names: Sequence[str]) -> str:
    """Join names in quotes: ``'a', 'b' or 'c'``. There is at least one."""
    quoted = [f"'{name}'" for name in names]
    return (
        quoted[0]
        if len(quoted) == 1
        else say("{names} or {last}", names=", ".join(quoted[:-1]), last=quoted[-1])
    )
