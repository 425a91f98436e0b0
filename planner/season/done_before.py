"""Work that must have been done since later work of the same planting was: set out, it was sown."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from dataclasses import replace

from planner.season.tasks import Task

#: Steps with which a planting begins, in their order.
_BEGINNING = ("chit", "sow", "prick out", "pot on", "harden off", "set out")
#: What else happens to a planting, and the last of those steps that it was through by then.  What may be done before,
#: as mulching or covering, tells nothing.
_THROUGH = {
    **dict.fromkeys(("thin", "came up", "ended"), "sow"),
    **dict.fromkeys(("earth up", "earth up again", "tie in", "pinch out", "stop"), "set out"),
    **dict.fromkeys(("pick", "lift and cure", "lift and store", "cut back"), "set out"),
    **dict.fromkeys(("flowering", "ripe", "first picking", "last picking"), "set out"),
}
#: Work in pairs, of which the second cannot be without the first.
_FIRST_OF = {"earth up again": "earth up", "cover off": "cover on", "film up": "film down"}


def with_done_before(
    work: tuple[Task, ...], happened: Collection[str], ended: dt.date | None = None
) -> tuple[Task, ...]:
    """The work on a planting with what is done before what happened to it; no day is made up for it.

    Parameters
    ----------
    work : tuple of Task
        On one planting.
    happened : collection of str
        Kinds of work that are written down, stages that were seen, and ``ended``.
    ended : date, optional
        The day on which it ended: the steps with which it began and whose day was not after that are over.
    """
    begins = [kind for kind in _BEGINNING if any(task.kind == kind for task in work)]
    through = [_BEGINNING.index(kind) for kind in happened if kind in _BEGINNING]
    through += [_BEGINNING.index(_THROUGH[kind]) for kind in happened if kind in _THROUGH]
    if "ended" in happened and begins:  # whatever it was begun with
        through.append(_BEGINNING.index("sow" if "sow" in begins else begins[-1]))
    if ended is not None:
        through += [_BEGINNING.index(one.kind) for one in work if one.kind in begins and one.date <= ended]
    last = max(through, default=-1)
    over = set(_BEGINNING[: last + 1]) - set(happened)
    firsts = {
        (_FIRST_OF[task.kind], task.material)
        for task in work
        if task.done is not None and task.kind in _FIRST_OF
    }
    return tuple(
        replace(task, done_before=True)
        if task.done is None and (task.kind in over or (task.kind, task.material) in firsts)
        else task
        for task in work
    )
