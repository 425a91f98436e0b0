"""A finding of a check, and the edits that fix it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

import shapely

from planner.garden import Garden
from planner.lazy import lazy_property
from planner.plan import Plan
from planner.season.spans import Span

#: stop: will fail as planned; mind: will suffer; note: information.
Severity = Literal["stop", "mind", "note"]
SEVERITIES: tuple[Severity, ...] = ("stop", "mind", "note")

#: What the key of a finding is made of.
KeyPart = str | int | float | None


@dataclass(frozen=True)
class Fix:
    """An edit after which a finding is gone.

    Attributes
    ----------
    text : str
        What it does: "Move lettuce to West 2".
    gain : str
        What is better afterwards; may be empty.
    apply : callable
        The edit, from garden to garden.
    together : str
        What it is called where it is done for several findings at once: edits of the same words go together.
        Empty for its text.
    why : str
        Where it is the only one and leaves a planting out: why no other place or time would do.
    """

    text: str
    gain: str
    apply: Callable[[Garden], Garden]
    together: str = ""
    why: str = ""


@dataclass(frozen=True)
class OtherStart:
    """Other days on which a planting may start, in order; the first on which no check has a word against it is offered.

    Attributes
    ----------
    planting : str
        Id of the planting.
    days : tuple of int
        Later than it starts now, sooner where negative. [days]
    gain : callable
        What is better after so many days, in words.
    """

    planting: str
    days: tuple[int, ...]
    gain: Callable[[int], str]


#: What a finding offers to try.
Candidate = Fix | OtherStart


@dataclass(frozen=True, eq=False)
class Finding:
    """Something that a check reports about a plan.

    Attributes
    ----------
    check : str
        Name of the check.
    severity : str
        ``stop``, ``mind`` or ``note``.
    key : str
        Its identity, by which it is waived; it changes with the facts.
    plantings, beds : tuple of str
        Ids concerned, the planting or bed it is about first.
    structures : tuple of str
        Ids of those concerned.
    place : shapely.Geometry
        On the plan; empty if it has no place. [m]
    span : Span
        Days concerned.
    text : str
        A sentence with the numbers in it, in the garden's units.
    rule : str
        The rule by which it is judged.
    source : str
        Key of the rule's source.
    topic : str
        Which of the faults that its check reports.
    kind : str
        Which findings of the check are put together, where the topic does not say it.
    cause : str
        What is behind it, in words, where that tells findings of one kind apart.
    subject : tuple of str
        What it is about, where that stays the same while its plantings change; empty where those say it.
    about : str
        Name of the sort of seed that it is about; empty where it is about a place.
    candidates : callable
        From a plan to edits to try, and other starts, the best first; only those that help become :attr:`fixes`.
    waived : str
        The reason for which it is waived; empty if it is not.
    find_fixes : callable
        Works out :attr:`fixes`.
    """

    check: str
    severity: Severity
    key: str
    plantings: tuple[str, ...]
    beds: tuple[str, ...]
    place: shapely.Geometry
    span: Span
    text: str
    rule: str
    source: str
    topic: str = ""
    candidates: Callable[[Plan], Iterable[Candidate]] = lambda plan: ()
    structures: tuple[str, ...] = ()
    kind: str = ""
    cause: str = ""
    subject: tuple[str, ...] = ()
    about: str = ""
    waived: str = ""
    find_fixes: Callable[[], tuple[Fix, ...]] = tuple

    @lazy_property
    def fixes(self) -> tuple[Fix, ...]:
        """Edits after which it is gone, the best first; slow when read for the first time."""
        return self.find_fixes()

    @property
    def fixes_cached(self) -> bool:
        """Whether :attr:`fixes` has been worked out."""
        return "fixes" in self.__dict__

    @lazy_property
    def spot(self) -> tuple[float, float] | None:
        """A point of its place; None where it has none. [m]"""
        if self.origin is not self:
            return self.origin.spot
        if self.place.is_empty:
            return None
        point = self.place.representative_point()
        return float(point.x), float(point.y)

    @property
    def origin(self) -> Finding:
        """The finding as the check gave it, before it was listed: it stays from run to run."""
        unlisted: Finding | None = self.__dict__.get("_unlisted")
        return unlisted if unlisted is not None else self

    @lazy_property
    def case(self) -> tuple[str, str, frozenset[str]]:
        """What it is about, whatever its numbers."""
        return (
            self.check,
            self.topic,
            frozenset(self.subject or self.plantings or self.beds),
        )

    def listed(self, waived: str, find_fixes: Callable[[], tuple[Fix, ...]]) -> Finding:
        """The same finding with its waiver and its fixes still to be found.

        Parameters
        ----------
        waived, find_fixes
            As its fields.
        """
        # Not dataclasses.replace: thousands of findings are listed after each edit.
        new = object.__new__(Finding)
        new.__dict__.update(self.__dict__, waived=waived, find_fixes=find_fixes, _unlisted=self)
        new.__dict__.pop("fixes", None)
        return new


def key_of(check: str, subjects: Iterable[str], facts: Iterable[KeyPart]) -> str:
    """Key of a finding: the check, what it is about, and a digest of the facts.

    Parameters
    ----------
    check : str
    subjects : iterable of str
        Ids of what it is about.
    facts : iterable of str, int, float or None

    Examples
    --------
    >>> key_of("frost", ["p1"], ["2026-04-20", 3]) == key_of("frost", ["p1"], ["2026-04-21", 3])
    False
    """
    who = list(subjects)
    text = "\x1f".join([check, *sorted(who), "\x1e", *(_key_words(fact) for fact in facts)])
    digest = hashlib.blake2s(text.encode(), digest_size=6).hexdigest()
    return f"{check}/{who[0] if who else 'garden'}/{digest}"


def _key_words(fact: KeyPart) -> str:
    """A fact as it goes into a key: the same in every language."""
    return f"{fact:.2f}" if isinstance(fact, float) else str(fact)
