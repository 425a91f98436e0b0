"""Places and descriptions of faults in a garden file."""

from __future__ import annotations

from planner.storage.faults import LONGEST_FAULT, LONGEST_NAME, cut, half_character, place

FIELDS = {"beds": [{"id": "b1"}, {"id": "b2", "name": "North", "outline": {"shape": "circle", "radius": -1}}]}


def test_texts_are_cut_to_what_a_message_can_hold():
    assert cut("x" * LONGEST_FAULT) == "x" * LONGEST_FAULT
    assert cut("x" * (LONGEST_FAULT + 1)) == "x" * (LONGEST_FAULT - 1) + "…"
    assert cut("abcdef", 4) == "abc…"
    assert cut("a\ud83d") == "a?"


def test_places_have_the_name_of_the_thing_and_no_choice_of_shape():
    assert place(("beds", 1, "outline", "circle", "radius"), FIELDS) == 'beds[1] "North" outline.radius'
    assert place(("beds", 1), FIELDS) == "beds[1]"
    assert place(("beds", 0, "name"), FIELDS) == "beds[0].name"
    assert place(("beds", 7, "name"), FIELDS) == "beds[7].name"
    assert place((), FIELDS) == "the garden"


def test_long_names_are_cut_in_a_place():
    fields = {"beds": [{"name": "x" * (LONGEST_NAME + 1), "id": 1}]}
    assert place(("beds", 0, "id"), fields) == f'beds[0] "{"x" * (LONGEST_NAME - 1)}…" id'


def test_half_a_character_is_found_where_it_is():
    assert half_character({"beds": [{"name": "ok"}, {"name": "a\ud83d"}]}) == ("beds", 1, "name")
    assert half_character({"beds": {"\ud83d": 1}}) == ("beds",)
    assert half_character({"beds": ["ok", 3, None]}) is None
