"""What a check has to say, and the edits that would mend it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

import shapely

from planner.garden import Garden
from planner.plan import Plan
from planner.season.spans import Span

#: stop: it will fail as it stands; mind: it will suffer; note: worth knowing.
Severity = Literal["stop", "mind", "note"]
SEVERITIES: tuple[Severity, ...] = ("stop", "mind", "note")

#: What a finding's key or a fact in it may be made of.
Fact = str | int | float | None


@dataclass(frozen=True)
class Fix:
    """An edit that makes a finding go away.

    Attributes
    ----------
    text : str
        What it does: "Move lettuce to West 2".
    gain : str
        What is better then; may be empty.
    apply : callable
        The edit.
    """

    text: str
    gain: str
    apply: Callable[[Garden], Garden]


@dataclass(frozen=True, eq=False)
class Finding:
    """Something a check has to say about a plan.

    Attributes
    ----------
    check : str
        Name of the check.
    severity : str
        ``stop``, ``mind`` or ``note``.
    key : str
        Its identity, by which it is waved aside; another one as soon as the facts are others.
    plantings, beds : tuple of str
        Ids concerned, the planting or bed it is about first.
    structures : tuple of str
        Ids of those concerned.
    place : shapely.Geometry
        On the plan; empty where it has no place.
    span : Span
    text : str
        A sentence with the numbers in it, in the garden's units.
    rule : str
        What it is judged by.
    source : str
        Key of the rule's source.
    topic : str
        Which of its check's complaints it is.
    candidates : callable
        Edits to try, the best first; only those that help become :attr:`fixes`.
    waived : str
        The reason it was waved aside for; empty where it was not.
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
    candidates: Callable[[Plan], Iterable[Fix]] = lambda plan: ()
    structures: tuple[str, ...] = ()
    waived: str = ""
    find_fixes: Callable[[], tuple[Fix, ...]] = tuple

    @property
    def fixes(self) -> tuple[Fix, ...]:
        """Edits after which it is gone, the best first; worked out when first asked for."""
        # No cached_property: before Python 3.12 it lets all findings wait for each other.
        if not self.fixes_known:
            self.__dict__["_mends"] = self.find_fixes()
        found: tuple[Fix, ...] = self.__dict__["_mends"]
        return found

    @property
    def fixes_known(self) -> bool:
        """Whether :attr:`fixes` has been worked out."""
        return "_mends" in self.__dict__

    @property
    def case(self) -> tuple[str, str, frozenset[str]]:
        """What it is about, whatever the numbers."""
        return self.check, self.topic, frozenset(self.plantings or self.beds)


def key_of(check: str, subjects: Iterable[str], facts: Iterable[Fact]) -> str:
    """Key of a finding: the check, whom it is about, and a digest of the facts.

    Examples
    --------
    >>> key_of("frost", ["p1"], ["2026-04-20", 3]) == key_of("frost", ["p1"], ["2026-04-21", 3])
    False
    """
    who = list(subjects)
    text = "\x1f".join([check, *sorted(who), "\x1e", *(_fixed(fact) for fact in facts)])
    digest = hashlib.blake2s(text.encode(), digest_size=6).hexdigest()
    return f"{check}/{who[0] if who else 'garden'}/{digest}"


def _fixed(fact: Fact) -> str:
    return f"{fact:.2f}" if isinstance(fact, float) else str(fact)
