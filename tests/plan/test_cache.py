"""A fact is worked out from its inputs alone, once, and serves every plan and thread."""

from __future__ import annotations

import datetime as dt
import operator
import threading
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import pytest

from planner.plan import cache
from planner.plan.cache import (
    HISTORY,
    IDLE_EDITS,
    BatchFact,
    Fact,
    FactCache,
    FactError,
    batch_fact,
    fact,
    unchanged,
)


class Inputs(NamedTuple):
    what: object
    number: float = 0.0


@pytest.fixture(autouse=True)
def _own_declarations(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cache, "_DECLARED", dict(cache._DECLARED))


CALLS: list[object] = []


@pytest.fixture
def calls() -> Iterator[list[object]]:
    """Inputs for which the facts of this module were worked out."""
    CALLS.clear()
    yield CALLS
    CALLS.clear()


def _doubled(inputs: Inputs) -> list[object]:
    CALLS.append(inputs.what)
    return [inputs.what, 2 * inputs.number]


def _halves(inputs: Sequence[Inputs]) -> list[float]:
    CALLS.append(tuple(one.number for one in inputs))
    return [one.number / 2 for one in inputs]


DOUBLED: Fact[Inputs, list[object]] = Fact("doubled", _doubled)
HALVES: BatchFact[Inputs, float] = BatchFact("halves", _halves)


def test_a_fact_is_worked_out_once_for_the_same_inputs(calls):
    thing, facts = object(), FactCache()
    first = facts.get(DOUBLED, "p1", Inputs(thing, 2))
    assert facts.get(DOUBLED, "p1", Inputs(thing, 2)) is first
    assert first == [thing, 4]
    assert calls == [thing]


def test_another_input_is_worked_out_anew_and_the_old_one_is_still_there(calls):
    one, other, facts = object(), object(), FactCache()
    first = facts.get(DOUBLED, "p1", Inputs(one))
    assert facts.get(DOUBLED, "p1", Inputs(other)) is not first
    assert facts.get(DOUBLED, "p1", Inputs(one)) is first
    assert calls == [one, other]


def test_only_the_last_few_values_of_a_subject_are_kept(calls):
    things, facts = [object() for _ in range(HISTORY + 1)], FactCache()
    for thing in things:
        facts.get(DOUBLED, "p1", Inputs(thing))
    facts.get(DOUBLED, "p1", Inputs(things[1]))
    assert len(calls) == HISTORY + 1
    facts.get(DOUBLED, "p1", Inputs(things[0]))
    assert calls[-1] is things[0]


def test_subjects_and_kinds_do_not_meet(calls):
    thing, facts = object(), FactCache()
    other = Fact("other", _doubled)
    made = [
        facts.get(kind, key, Inputs(thing)) for kind in (DOUBLED, other) for key in ("p1", "p2", ("p1", 3))
    ]
    assert len({id(one) for one in made}) == 6
    assert len(calls) == 6


def test_what_is_tried_out_reads_below_and_leaves_nothing(calls):
    one, other, facts = object(), object(), FactCache()
    first = facts.get(DOUBLED, "p1", Inputs(one))
    above = FactCache(below=FactCache(below=facts))
    assert above.get(DOUBLED, "p1", Inputs(one)) is first
    assert above.get(DOUBLED, "p1", Inputs(other))[0] is other
    assert calls == [one, other]
    assert facts.newest() == {("doubled", "p1"): first}


def test_an_equal_value_stays_the_one_that_was(calls):
    equal = Fact("equal", _doubled, operator.eq)
    facts = FactCache()
    first = facts.get(equal, "p1", Inputs("same", 1.0))
    facts.get(equal, "p1", Inputs("same", 3.0))
    assert facts.get(equal, "p1", Inputs("same", 2 / 2 + 0.0)) is first
    above = FactCache(below=facts)
    assert above.get(equal, "p1", Inputs("same", True)) is first, (
        "an int is another input, its value the same"
    )
    assert len(calls) == 3


def test_many_are_worked_out_in_one_go_and_only_those_lacking(calls):
    facts = FactCache()
    assert facts.get_many(HALVES, [("a", Inputs("", 1.0)), ("b", Inputs("", 2.0))]) == [0.5, 1.0]
    wanted = [("a", Inputs("", 1.0)), ("c", Inputs("", 6.0)), ("b", Inputs("", 4.0))]
    assert facts.get_many(HALVES, wanted) == [0.5, 3.0, 2.0]
    assert facts.get_many(HALVES, wanted) == [0.5, 3.0, 2.0]
    assert calls == [(1.0, 2.0), (6.0, 4.0)]


def test_idle_facts_are_dropped(calls):
    facts, used, idle = FactCache(), object(), object()
    for thing in (used, idle):
        facts.get(DOUBLED, id(thing), Inputs(thing))
    for _ in range(2 * IDLE_EDITS):
        facts.next_edit()
        facts.get(DOUBLED, id(used), Inputs(used))
    assert set(facts.newest()) == {("doubled", id(used))}


@pytest.mark.parametrize(
    ("old", "new", "same"),
    [
        (("p1", 0.3, None), ("p1", 0.1 + 0.2 - 1e-17, None), False),
        ((0.5, dt.date(2026, 4, 1)), (0.5, dt.date(2026, 4, 1)), True),
        ((1, 2), (1, 2, 3), False),
        (((1, ("a",)),), ((1, ("a",)),), True),
        ((True,), (1,), False),
        (([1],), ([1],), False),
        ((frozenset("ab"),), (frozenset("ba"),), True),
        (("a",), "a", False),
    ],
)
def test_inputs_are_compared_by_identity_but_for_plain_values(old, new, same):
    assert unchanged(old, new) is same


def test_two_users_of_one_name_are_an_error():
    @fact("only once")
    def first(inputs: Inputs) -> int:
        return 1

    with pytest.raises(FactError, match=r"'only once' is declared in .*first and in .*second"):

        @fact("only once")
        def second(inputs: Inputs) -> int:
            return 2

    with pytest.raises(FactError, match="only once"):

        @batch_fact("only once")
        def third(inputs: Sequence[Inputs]) -> list[int]:
            return [3 for _ in inputs]


def test_work_that_needs_more_than_its_inputs_is_an_error():
    with pytest.raises(FactError, match="one argument"):

        @fact("two arguments")
        def two(inputs: Inputs, plan: object) -> int:
            return 1

    secret = 3
    with pytest.raises(FactError, match="variables of a function around it"):

        @fact("a closure")
        def closure(inputs: Inputs) -> int:
            return secret


def test_threads_that_ask_at_once_get_one_value():
    facts, thing = FactCache(), object()
    start = threading.Barrier(8)
    found: list[object] = []

    def slow(inputs: Inputs) -> object:
        start.wait(5)
        return object()

    kind: Fact[Inputs, object] = Fact("slow", slow)
    threads = [
        threading.Thread(target=lambda: found.append(facts.get(kind, "p1", Inputs(thing)))) for _ in range(8)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(10)
    assert len(found) == 8
    assert len({id(one) for one in found}) == 1
