"""Joining two gardens that began as the same one: what two people planned, or two machines.

A three-way merge by ids, field by field.  A field that only one of the two changed takes that value; where both
changed it in different ways, the first garden's value stays and the second one's is kept as a
:class:`~planner.garden.conflicts.Conflict`, in the garden, until somebody settles it.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from typing import Any, NamedTuple

from pydantic import ValidationError

from planner.garden.conflicts import KEYS, Conflict, KeptFrom, values_as_json
from planner.garden.edits.common import checked
from planner.garden.garden import Garden
from planner.garden.join_ids import with_own_ids
from planner.garden.model import Model
from planner.garden.pocket_notes import MOST_REMOVED_NOTES

#: Fields that mean something only together: a plot is in the coordinates of its bed.
TOGETHER = {"plantings": (("bed", "plot"), ("first", "last")), "structures": (("kind", "material"),)}
#: Values within a thing that are joined field by field too; any other is taken whole.
_JOINED_WITHIN = ("pinned_dates",)


@dataclass(frozen=True)
class Joined:
    """The outcome of a join.

    Attributes
    ----------
    garden : Garden
        Holds the conflicts, too.
    conflicts : tuple of Conflict
        What both changed in different ways, in this join.
    """

    garden: Garden
    conflicts: tuple[Conflict, ...]


class _Versions(NamedTuple):
    """A thing in the three gardens; None where it is not in one."""

    base: Model | None
    mine: Model | None
    theirs: Model | None


def join(base: Garden | None, mine: Garden, theirs: Garden) -> Joined:
    """Join two gardens that began as the same one.

    Ids tell which things are the same.  A thing that one removed and the other changed stays, and what is new
    in both under the same id are two things: theirs gets another id.  A plot stays in the coordinates of its
    bed, so where one resized the bed, the checks tell whether the other's plantings still fit.

    Parameters
    ----------
    base : Garden or None
        The garden that both began with.  Without it the same id is the same thing, and every difference a
        conflict.
    mine : Garden
        Its values stay where both changed the same.
    theirs : Garden

    Returns
    -------
    Joined

    Raises
    ------
    EditError
        Where the two together are more than a garden can hold.
    """
    if mine == theirs or base == theirs:
        return Joined(mine, ())
    if base == mine:
        return Joined(theirs, ())
    start = base if base is not None else Garden()
    return _Join(start, mine, with_own_ids(base, mine, theirs)).run()


class _Join:
    """One join: the three gardens, and the conflicts found so far."""

    def __init__(self, base: Garden, mine: Garden, theirs: Garden) -> None:
        self._base, self._mine, self._theirs = base, mine, theirs
        self._conflicts: list[Conflict] = []

    def run(self) -> Joined:
        """Join part by part."""
        gardens = self._base, self._mine, self._theirs
        parts: dict[str, Any] = {
            name: self._model((name, ""), _Versions(*(getattr(one, name) for one in gardens)))
            for name in ("site", "climate", "weather", "household", "underlay")
        }
        things = {part: self._things(part) for part in KEYS}
        self._bring_back(things)
        for part in KEYS:
            parts[part] = self._in_order(part, things[part])
        there = {one.id for one in parts["records"]}
        removed = [key for key in _in_either(*(one.removed_notes for one in gardens)) if key not in there]
        parts["removed_notes"] = tuple(removed[-MOST_REMOVED_NOTES:])
        found = tuple(self._conflicts)
        parts["conflicts"] = _without_repeats((*_in_either(*(one.conflicts for one in gardens)), *found))
        return Joined(checked(lambda: Garden(**parts), "joined garden"), found)

    # -- things -----------------------------------------------------------------------------

    def _things(self, part: str) -> dict[Hashable, Model]:
        """The joined things of a part, by key."""
        base, mine, theirs = (self._by_key(one, part) for one in (self._base, self._mine, self._theirs))
        joined = {}
        for key in dict.fromkeys((*mine, *theirs)):
            thing = self._thing((part, str(key)), _Versions(base.get(key), mine.get(key), theirs.get(key)))
            if thing is not None:
                joined[key] = thing
        return joined

    @staticmethod
    def _by_key(garden: Garden, part: str) -> dict[Hashable, Model]:
        return {getattr(thing, KEYS[part]): thing for thing in getattr(garden, part)}

    def _thing(self, place: tuple[str, str], versions: _Versions) -> Model | None:
        base, mine, theirs = versions
        if mine == theirs or theirs == base:
            return mine
        if mine == base:
            return theirs
        if mine is None or theirs is None:  # removed by one, changed by the other
            self._note_removed(place, "theirs" if mine is None else "mine")
            return theirs if mine is None else mine
        return self._model(place, versions)

    def _model(self, place: tuple[str, str], versions: _Versions) -> Model:
        """Join a value that both have, field by field; validated as a whole."""
        base, mine, theirs = versions
        assert mine is not None
        assert theirs is not None
        fields, both = _join_fields(place[0], base, mine, theirs)
        try:
            joined = mine.with_(**fields) if fields else mine
        except ValidationError:  # each change is sound, but not the two together
            joined, both = mine, [_changed_names(base, mine, theirs)]
        for names in both:
            self._conflicts.append(Conflict(part=place[0], key=place[1], other=values_as_json(theirs, names)))
        return joined

    def _note_removed(self, place: tuple[str, str], kept: KeptFrom) -> None:
        self._conflicts.append(Conflict(part=place[0], key=place[1], kept=kept, other="null"))

    # -- what belongs together ----------------------------------------------------------------

    def _bring_back(self, things: dict[str, dict[Hashable, Any]]) -> None:
        """Bring back what one removed and the other still builds on, and what that stands in: plantings before their beds."""
        for record in things["records"].values():
            self._keep("plantings", record.planting, things)
            self._keep("beds", record.bed, things)
            self._keep("stock", getattr(record, "lot", None), things)
        for dressing in things["dressings"].values():
            self._keep("plantings", dressing.planting, things)
        for planting in tuple(things["plantings"].values()):
            self._keep("plantings", planting.replaces, things)
            self._keep("plantings", planting.repeats, things)
        for trial in things["trials"].values():
            for entry in trial.entries:
                self._keep("plantings", entry.planting, things)
        for part in ("plantings", "dressings"):
            for thing in tuple(things[part].values()):
                self._keep("beds", thing.bed, things)

    def _keep(self, part: str, key: str | None, things: dict[str, dict[Hashable, Model]]) -> None:
        if key is None or key in things[part]:
            return
        mine, theirs = self._by_key(self._mine, part).get(key), self._by_key(self._theirs, part).get(key)
        thing = mine if mine is not None else theirs
        if thing is not None:
            things[part][key] = thing
            self._note_removed((part, key), "theirs" if mine is None else "mine")

    def _in_order(self, part: str, things: dict[Hashable, Model]) -> tuple[Model, ...]:
        """The order of mine, or of theirs where only they changed it; what is new comes last."""
        base, mine, theirs = (list(self._by_key(one, part)) for one in (self._base, self._mine, self._theirs))
        common = set(base) & set(mine) & set(theirs)
        as_in_base = [key for key in base if key in common]
        theirs_first = [key for key in mine if key in common] == as_in_base
        order = dict.fromkeys((*theirs, *mine) if theirs_first and theirs != base else (*mine, *theirs))
        if theirs_first:  # mine's new things before theirs, as if they had been added first
            new = [key for key in theirs if key not in base and key not in mine]
            order = dict.fromkeys((*(key for key in order if key not in new), *new))
        return tuple(things[key] for key in order if key in things)


# -- fields -------------------------------------------------------------------------------------------


def _join_fields(
    part: str, base: Model | None, mine: Model, theirs: Model
) -> tuple[dict[str, Any], list[tuple[str, ...]]]:
    """Fields to take from theirs, and the groups of fields that both changed in different ways."""
    taken: dict[str, Any] = {}
    both: list[tuple[str, ...]] = []
    for names in _groups(part, mine):
        b, m, t = (_values(model, names) for model in (base, mine, theirs))
        if m == t or t == b:
            continue
        if m == b:
            taken.update(zip(names, t or (), strict=True))
        elif (
            names[0] in _JOINED_WITHIN and (within := _join_within(base, mine, theirs, names[0])) is not None
        ):
            taken[names[0]] = within
        else:
            both.append(names)
    return taken, both


def _join_within(base: Model | None, mine: Model, theirs: Model, name: str) -> Model | None:
    """Join a value within a thing; None where both changed the same of it, or where the two don't agree."""
    inner = getattr(mine, name)
    fields, both = _join_fields(name, getattr(base, name, None), inner, getattr(theirs, name))
    if both:
        return None
    try:
        return inner.with_(**fields)  # type: ignore[no-any-return]
    except ValidationError:
        return None


def _groups(part: str, model: Model) -> list[tuple[str, ...]]:
    """The fields of a model; those that belong together in one tuple."""
    together = TOGETHER.get(part, ())
    single = [name for name in type(model).model_fields if not any(name in names for names in together)]
    return [*((name,) for name in single), *together]


def _values(model: Model | None, names: tuple[str, ...]) -> tuple[Any, ...] | None:
    return None if model is None else tuple(getattr(model, name) for name in names)


def _changed_names(base: Model | None, mine: Model, theirs: Model) -> tuple[str, ...]:
    """Fields that they changed, and that differ from mine."""
    return tuple(
        name
        for name in type(mine).model_fields
        if getattr(theirs, name) != getattr(mine, name)
        and (base is None or getattr(theirs, name) != getattr(base, name))
    )


def _in_either(base: tuple[Any, ...], mine: tuple[Any, ...], theirs: tuple[Any, ...]) -> tuple[Any, ...]:
    """What neither removed, and what either added."""
    old, ours, others = set(base), set(mine), set(theirs)
    kept = (one for one in mine if one not in old or one in others)
    new = (one for one in theirs if one not in old and one not in ours)
    return (*kept, *new)


def _without_repeats(conflicts: Iterable[Conflict]) -> tuple[Conflict, ...]:
    return tuple(dict.fromkeys(conflicts))
