"""JSON that people can read: short lists on one line, long ones not."""

from __future__ import annotations

import json

from planner.storage.readable_json import LONGEST_LINE, readable


def test_keys_are_sorted_and_indented():
    assert (
        readable({"b": 1, "a": {"d": [], "c": {}}})
        == '{\n  "a": {\n    "c": {},\n    "d": []\n  },\n  "b": 1\n}\n'
    )


def test_lists_of_plain_values_are_on_one_line_up_to_its_length():
    fits, exceeds = ["x" * (LONGEST_LINE - 4)], ["x" * (LONGEST_LINE - 3)]
    assert readable(fits) == f"{json.dumps(fits)}\n"
    assert len(readable(fits)) == LONGEST_LINE + 1
    assert readable(exceeds).count("\n") == 3


def test_lists_of_tables_have_a_line_each():
    assert readable([[1, 2], [3]]) == "[\n  [1, 2],\n  [3]\n]\n"
