"""Benches and ways of raising in the document, and the edits of them."""

from __future__ import annotations

import json

import pytest
from making import bed, garden, planting

from planner.garden import Bench, Garden, Raising
from planner.garden import edits as e
from planner.garden.differences import difference_words
from planner.garden.edits import EditError
from planner.garden.join import join
from planner.storage import dump, parse

START = garden(bed("b1"), planting("p1", crop="leek", start="raised"))


def test_a_bench_is_added_changed_and_removed():
    one, key = e.put_bench(START, kind="heated", length=1.2, width=0.6)
    assert (key, one.benches[0].name, one.benches[0].area) == ("t1", "Heated bench", pytest.approx(0.72))
    two, other = e.put_bench(one, kind="heated", length=1, width=0.5)
    assert (other, two.benches[1].name) == ("t2", "Heated bench 1")
    wider, _ = e.put_bench(two, "t1", width=0.8)
    assert wider.benches[0].width == 0.8
    assert e.put_bench(wider, "t1", width=0.8)[0] is wider
    assert e.remove_bench(two, "t1").benches == two.benches[1:]
    assert difference_words(START, two) == "2 benches added"


@pytest.mark.parametrize(
    ("edit", "message"),
    [
        (lambda: e.put_bench(START, "t9", width=1), "there is no bench 't9'"),
        (lambda: e.remove_bench(START, "t9"), "there is no bench 't9'"),
        (lambda: e.put_bench(START, kind="cool", length=0, width=1), "length 0"),
        (lambda: e.put_bench(START, kind="warm", length=1, width=1), "kind 'warm'"),
        (lambda: e.put_bench(START, kind="cool", name="a\nb", length=1, width=1), "one line"),
        (lambda: e.change_planting(START, "p1", raising={"way": "cells", "cells": 100}), "cells 100"),
        (
            lambda: e.change_planting(START, "p1", raising={"way": "pots", "cells": 72}),
            "in no tray of 72 cells",
        ),
        (
            lambda: e.change_planting(START, "p1", raising={"way": "cells", "width": 0.05}),
            "no pots or blocks",
        ),
        (
            lambda: e.change_planting(START, "p1", raising={"way": "pricked out", "cells": 72, "width": 0.1}),
            "into cells or into pots, not both",
        ),
    ],
)
def test_what_is_not_possible_is_one_line(edit, message):
    with pytest.raises(EditError) as error:
        edit()
    assert message in str(error.value)
    assert "\n" not in str(error.value)


def test_an_older_garden_has_no_benches_and_the_usual_ways():
    assert Garden().benches == ()
    assert START.plantings[0].raising is None
    fields = START.model_dump(mode="json")
    del fields["benches"], fields["plantings"][0]["raising"]
    assert Garden.model_validate_json(json.dumps(fields)) == START


def test_benches_and_ways_of_raising_are_saved():
    full, _ = e.put_bench(START, kind="cold frame", name="Frame", length=2.4, width=0.9)
    full = e.change_planting(full, "p1", raising=Raising(way="pricked out", cells=72))
    assert parse(dump(full)) == full


def test_benches_of_two_people_are_joined():
    mine, _ = e.put_bench(START, kind="heated", length=1.2, width=0.6)
    theirs, _ = e.put_bench(START, kind="cool", length=2, width=0.6)
    joined = join(START, mine, theirs)
    assert joined.conflicts == ()
    assert [(bench.id, bench.kind) for bench in joined.garden.benches] == [("t1", "heated"), ("t2", "cool")]


def test_a_bench_has_an_id_of_its_own():
    twice = Bench(id="b1", name="Sill", kind="cool", length=1, width=0.3)
    with pytest.raises(ValueError, match="given twice"):
        START.with_(benches=(twice,))
