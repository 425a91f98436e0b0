"""The cache of derived facts.

A kind of fact is declared once, with :func:`fact`, as a function of one value.  That value is the key in
the cache and the argument of the work, so no input can be forgotten::

    class SpanInputs(NamedTuple):
        site: Site
        planting: Planting
        dates: Dates

    @fact("span")
    def span_of_planting(inputs: SpanInputs) -> Span:
        return planting_span(inputs.site, inputs.planting, inputs.dates)

    plan.cached(span_of_planting, planting.id, SpanInputs(site, planting, dates))

Values are immutable and depend on nothing but their inputs.  So one cache serves all plans of a garden,
whatever its history, and any number of threads.
"""

from __future__ import annotations

import datetime as dt
import inspect
import operator
import threading
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, Protocol, TypeVar

I = TypeVar("I", bound=tuple[Any, ...])  # noqa: E741  # inputs
T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)

#: What a fact is about: an id, or a tuple of ids, days and words.
Subject = Hashable
#: Values of one subject that are kept: that of the garden now, and those of the steps before it.
HISTORY = 3
#: Facts that nothing asked for over so many edits are dropped.
IDLE_EDITS = 500
#: Inputs of these types are compared by value, all others by identity.
_BY_VALUE = (int, float, str, bytes, bool, dt.date, frozenset, type(None))


class FactError(TypeError):
    """A kind of fact that is declared wrongly: a fault of the program, seen at import."""


@dataclass(frozen=True, eq=False)
class Fact(Generic[I, T_co]):
    """A kind of derived fact.

    Attributes
    ----------
    name : str
        Unique in the program.
    work : callable
        Works the fact out from its inputs alone; or, of a batch fact, the facts of several inputs at once.
    equal : callable, optional
        Whether two values are the same.  A new value that equals the old one is replaced by it, so that the facts
        which depend on it stay valid.
    """

    name: str
    work: Callable[[I], T_co]
    equal: Callable[[Any, Any], bool] | None = None

    def __call__(self, inputs: I) -> T_co:
        """Work the fact out, without a cache."""
        return self.work(inputs)


@dataclass(frozen=True, eq=False)
class BatchFact(Generic[I, T_co]):
    """A kind of fact of which many are worked out in one go."""

    name: str
    work: Callable[[Sequence[I]], Sequence[T_co]]


AnyFact = Fact[Any, Any] | BatchFact[Any, Any]
_DECLARED: dict[str, AnyFact] = {}


def declared_facts() -> tuple[str, ...]:
    """Names of all kinds of facts declared so far."""
    return tuple(sorted(_DECLARED))


class _DeclareFact(Protocol):
    def __call__(self, work: Callable[[I], T]) -> Fact[I, T]: ...


class _DeclareBatchFact(Protocol):
    def __call__(self, work: Callable[[Sequence[I]], Sequence[T]]) -> BatchFact[I, T]: ...


def fact(name: str, equal: Callable[[Any, Any], bool] | None = None) -> _DeclareFact:
    """Declare a kind of fact: the decorated function works it out from one tuple of inputs.

    Parameters
    ----------
    name : str
        Unique in the program.
    equal : callable, optional
        See :attr:`Fact.equal`.

    Raises
    ------
    FactError
        Where the name is taken, or the function takes anything but its one argument.
    """

    def declare(work: Callable[[I], T]) -> Fact[I, T]:
        made = Fact(name, work, equal)
        _declare(made, work)
        return made

    return declare


def batch_fact(name: str) -> _DeclareBatchFact:
    """Declare a kind of fact of which many are worked out in one go.

    The decorated function takes a sequence of inputs and returns as many values in their order; each
    value must depend on its own inputs alone.

    Parameters
    ----------
    name : str
        Unique in the program.
    """

    def declare(work: Callable[[Sequence[I]], Sequence[T]]) -> BatchFact[I, T]:
        made = BatchFact(name, work)
        _declare(made, work)
        return made

    return declare


def _declare(made: AnyFact, work: Callable[..., Any]) -> None:
    """Hold a declaration against the rules, and enter it."""
    if len(inspect.signature(work).parameters) != 1:
        raise FactError(f"fact '{made.name}': its work must take one argument, its inputs")
    if getattr(work, "__closure__", None):
        raise FactError(f"fact '{made.name}': its work must not hold variables of a function around it")
    before = _DECLARED.get(made.name)
    if before is not None and _place(before.work) != _place(work):
        raise FactError(f"fact '{made.name}' is declared in {_place(before.work)} and in {_place(work)}")
    _DECLARED[made.name] = made


def _place(work: Callable[..., Any]) -> str:
    return f"{work.__module__}.{work.__qualname__}"


def unchanged(old: Any, new: Any) -> bool:
    """Whether two inputs are the same: identical, equal plain values, or tuples of such.

    Examples
    --------
    >>> unchanged(("p1", 0.3), ("p1", 0.3)), unchanged(([],), ([],))
    (True, False)
    """
    if old is new:
        return True
    if isinstance(old, tuple):
        if not isinstance(new, tuple) or len(old) != len(new):
            return False
        for one, other in zip(
            old, new, strict=True
        ):  # no call where it is identical: this is asked very often
            if one is not other and not unchanged(one, other):
                return False
        return True
    return isinstance(old, _BY_VALUE) and type(old) is type(new) and bool(old == new)


class _Slot:
    """Entries of one fact of one subject, the newest first, and the edit at which they were last used."""

    __slots__ = ("entries", "used")

    def __init__(self, entries: tuple[tuple[Any, Any], ...], used: int) -> None:
        self.entries = entries
        self.used = used


class FactCache:
    """Cached facts of a garden, by kind and subject.

    Parameters
    ----------
    below : FactCache, optional
        A cache that is read where this one has nothing, and never written.  A plan that is only tried out has a
        cache of its own above that of the garden, and leaves nothing behind.
    """

    def __init__(self, below: FactCache | None = None) -> None:
        self._slots: dict[tuple[str, Subject], _Slot] = {}
        self._below = below
        self._edits = 0
        self._lock = threading.Lock()

    def get(self, kind: Fact[I, T], subject: Subject, inputs: I) -> T:
        """The cached value for these inputs, else the one worked out from them.

        Parameters
        ----------
        kind : Fact
        subject : hashable
            What it is about; one value a subject is current at a time.
        inputs : tuple
            Everything the value depends on; compared by :func:`unchanged`.
        """
        name = (kind.name, subject)
        slot = self._slots.get(name)
        value: T
        if slot is not None:
            newest, value = slot.entries[0]
            # The usual case, without a call for each of the inputs: this is asked a thousand times an edit.
            if len(newest) == len(inputs) and all(map(operator.is_, newest, inputs)):
                slot.used = self._edits
                return value
        entry = self._find(name, inputs)
        if entry is not None:
            value = entry[1]
            return value
        value = kind.work(inputs)
        if kind.equal is not None:
            value = next((old for old in self._values(name) if kind.equal(old, value)), value)
        value = self._store(name, inputs, value)
        return value

    def get_many(self, kind: BatchFact[I, T], asked: Iterable[tuple[Subject, I]]) -> list[T]:
        """Values for several subjects; those that are not cached are worked out in one go.

        Parameters
        ----------
        kind : BatchFact
        asked : iterable of (subject, inputs)

        Returns
        -------
        list
            In the order asked.
        """
        wanted = list(asked)
        entries = [self._find((kind.name, subject), inputs) for subject, inputs in wanted]
        lacking = [number for number, entry in enumerate(entries) if entry is None]
        if lacking:
            made = kind.work([wanted[number][1] for number in lacking])
            for number, value in zip(lacking, made, strict=True):
                subject, inputs = wanted[number]
                entries[number] = inputs, self._store((kind.name, subject), inputs, value)
        return [entry[1] for entry in entries if entry is not None]

    def _find(self, name: tuple[str, Subject], inputs: tuple[Any, ...]) -> tuple[Any, Any] | None:
        """The entry of these inputs, here or below; it becomes the newest of its slot here."""
        slot = self._slots.get(name)
        for entry in slot.entries if slot is not None else ():
            if slot is not None and unchanged(entry[0], inputs):
                slot.used = self._edits
                if entry is not slot.entries[0]:
                    with self._lock:
                        slot.entries = (entry, *(one for one in slot.entries if one is not entry))
                return entry
        below = self._below
        while below is not None:
            slot = below._slots.get(name)
            for entry in slot.entries if slot is not None else ():
                if unchanged(entry[0], inputs):
                    return entry
            below = below._below
        return None

    def _values(self, name: tuple[str, Subject]) -> list[Any]:
        """All values of a subject, here and below."""
        found: list[Any] = []
        cache: FactCache | None = self
        while cache is not None:
            slot = cache._slots.get(name)
            found += [entry[1] for entry in slot.entries] if slot is not None else []
            cache = cache._below
        return found

    def _store(self, name: tuple[str, Subject], inputs: tuple[Any, ...], value: T) -> T:
        """Enter a value; the one that another thread entered meanwhile for the same inputs wins."""
        with self._lock:
            slot = self._slots.get(name)
            if slot is None:
                self._slots[name] = _Slot(((inputs, value),), self._edits)
                return value
            for entry in slot.entries:
                if unchanged(entry[0], inputs):
                    there: T = entry[1]
                    return there
            slot.entries = ((inputs, value), *slot.entries[: HISTORY - 1])
            slot.used = self._edits
            return value

    def next_edit(self) -> None:
        """Count an edit; from time to time drop what has long been idle."""
        self._edits += 1
        if self._edits % IDLE_EDITS == 0:
            with self._lock:
                least = self._edits - IDLE_EDITS
                self._slots = {name: slot for name, slot in self._slots.items() if slot.used >= least}

    def newest(self) -> dict[tuple[str, Subject], Any]:
        """The newest value of each kind and subject held here: for tests and measurements."""
        with self._lock:
            return {name: slot.entries[0][1] for name, slot in self._slots.items()}

    def __len__(self) -> int:
        return len(self._slots)
