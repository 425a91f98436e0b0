"""Lines as growers put them, against what was written down for each before the reader was made for them."""

from __future__ import annotations

import datetime as dt
from typing import Any

import grower_lines_corpus as corpus
import pytest

from planner.crops import load_catalogue
from planner.errors import BedwrightError
from planner.garden.edits import add_records
from planner.importing.typed_records import (
    add_typed_records,
    read_typed_records,
    typed_lines,
    typed_warnings,
)
from planner.plan import Plan

PLAN = Plan(corpus.holding(), 2026, load_catalogue())
LINES: dict[str, Any] = {
    **corpus.TAKEN,
    **corpus.ASKED,
    **corpus.TRAPS,
    **corpus.GERMAN,
    **corpus.PARTS,
    **corpus.MORE,
}


def _is(wanted: dict[str, Any], fields: dict[str, Any]) -> bool:
    """Whether a record is what was wanted; of its words those that may not be lost."""
    said = " ".join(str(fields.get(field, "")) for field in ("words", "cause")).casefold()
    rest = {key: value for key, value in fields.items() if key not in ("words", "cause")}
    wish = {key: value for key, value in wanted.items() if key != "words"}
    return rest == wish and all(word.casefold() in said for word in wanted.get("words", ()))


@pytest.mark.parametrize("text", LINES)
def test_a_growers_line_is_taken_as_meant_or_asked_back(text: str) -> None:
    wanted = LINES[text]
    if isinstance(wanted, tuple):
        with pytest.raises(BedwrightError) as fault:
            read_typed_records(PLAN, text, corpus.TODAY)
        assert any(part in str(fault.value) for part in wanted)
        assert fault.value.fix
        return
    typed = read_typed_records(PLAN, text, corpus.TODAY)
    left = list(typed.fields)
    for one in wanted:
        found = next((fields for fields in left if _is(one, fields)), None)
        assert found is not None, typed.fields
        left.remove(found)
    assert not left
    assert len(typed_lines(PLAN, typed)) == len(wanted)
    add_typed_records(PLAN.garden, typed)


def _is_asked_back(line: str) -> bool:
    try:
        read_typed_records(PLAN, line, corpus.TODAY)
    except BedwrightError:
        return True
    return False


def test_no_day_word_that_is_not_understood_is_taken_for_today() -> None:
    for words in (
        "yesteday", "on Mondy", "12 Apirl", "in early June", "at the end of July", "some time last week", "the other day",
        "a few days ago", "tomorrow", "next Monday", "on 31 June", "on the 45th", "last month", "in June", "Sat",
    ):  # fmt: skip
        for line in (
            "weeded East 2 {}",
            "{} weeded East 2",
            "slugs on strawberries {}",
            "East 2: weeded {}",
            "note East 2 wet {}",
        ):
            assert _is_asked_back(line.format(words)), line.format(words)


def test_the_day_with_which_the_words_of_a_note_end_is_its_day() -> None:
    for line in (
        "West 3: soil very dry on 8 Aug",
        "note West 3: soil very dry on 8 Aug",
        "note soil very dry on 8 Aug",
    ):
        (fields,) = read_typed_records(PLAN, line, corpus.TODAY).fields
        assert fields["kind"] == "note"
        assert fields["day"].isoformat() == "2026-08-08"
        assert "soil very dry" in fields["words"]
    (fields,) = read_typed_records(PLAN, "note West 3: order seed by 1 December", corpus.TODAY).fields
    assert fields["day"] == corpus.TODAY


_PART_WORDS = ("a few", "some", "some of the", "several", "most of the", "nearly all the", "almost all the", "a row of", "the outer row of the",
               "one or two", "many of the", "every other", "the rest of the", "all but two of the", "not one of the", "2 of the",
               "half the", "30 % of the")  # fmt: skip
_ENDINGS = ("{} leeks died", "{} leeks rotted on 3 Aug", "lost {} leeks to voles", "{} leeks failed", "{} leeks eaten by slugs", "voles killed {} leeks",
            "{} leeks gone", "{} leeks did not come up", "leeks: {} leeks died", "{} leeks bolted", "pulled up {} leeks",
            "{} leeks dead, rust", "leeks died: {} leeks", "frost destroyed {} leeks", "{} leeks in May failed")  # fmt: skip


@pytest.mark.parametrize("part", _PART_WORDS)
def test_no_words_for_a_part_end_all_of_a_planting(part: str) -> None:
    for ending in _ENDINGS:
        line = ending.format(part)
        fields = () if _is_asked_back(line) else read_typed_records(PLAN, line, corpus.TODAY).fields
        ends = [one for one in fields if one["kind"] == "ended" or one.get("task") == "clear"]
        assert not ends, line


def test_what_a_question_offers_as_a_note_is_taken_as_one() -> None:
    for line in (
        "some tomatoes died",
        "a few onions in West 2 rotted on 3 Aug",
        "carrots not up yet",
        "not one onion rotted",
    ):
        with pytest.raises(BedwrightError) as fault:
            read_typed_records(PLAN, line, corpus.TODAY)
        offered = (fault.value.fix or "").partition("note ")[2]
        (fields,) = read_typed_records(PLAN, f"note {offered}", corpus.TODAY).fields
        assert fields["kind"] == "note"
        assert "planting" in fields or "bed" in fields


def test_a_number_is_of_what_was_left_before_unless_it_is_all_told() -> None:
    garden = add_records(
        PLAN.garden,
        [{"kind": "seen", "day": dt.date(2026, 6, 1), "planting": "cuc", "harm": "slugs", "lost": 0.5}],
    )[0]
    plan = PLAN.after(garden)  # three of six are left
    (fields,) = read_typed_records(plan, "2 cucumbers died", corpus.TODAY).fields
    assert fields["lost"] == pytest.approx(2 / 3)
    (fields,) = read_typed_records(plan, "5 cucumbers died, all told", corpus.TODAY).fields
    assert fields["lost"] == pytest.approx(2 / 3)  # two more of the three
    with pytest.raises(BedwrightError, match="more than"):
        read_typed_records(plan, "4 cucumbers died", corpus.TODAY)


@pytest.mark.parametrize(
    ("line", "warning"),
    [
        ("picked 600 kg tomatoes", "times what is expected of it: a slip of the pen?"),
        ("picked 600 cabbages", "60 times what is expected"),
        ("sowed radish in North on 8 April, 2 kg", "times what this planting takes"),
        ("set 4000 leeks out on 3 June", "105 times what this planting takes"),
        ("picked 9000 kg sweet peas", "more than any crop bears"),
        ("picked 2 kg peas on 25 Aug", "over since 30 Jul 2026, 3 weeks before"),
        ("peas last picking on 30 Aug", "4 weeks before"),
        ("picked 12 kg tomatoes", ""),
        ("picked 2 kg peas on 5 Aug", ""),
        ("set 40 leeks out on 3 June", ""),
        ("sowed radish in North on 8 April, 2 g", ""),
    ],
)
def test_slips_of_the_pen_are_warned_of(line: str, warning: str) -> None:
    found = typed_warnings(PLAN, read_typed_records(PLAN, line, corpus.TODAY))
    assert len(found) == bool(warning)
    assert warning in "".join(found)


def test_a_picking_after_the_end_that_was_written_down_is_warned_of() -> None:
    ended = add_typed_records(
        PLAN.garden, read_typed_records(PLAN, "the cucumbers died on 1 Aug", corpus.TODAY)
    )
    plan = PLAN.after(ended)
    late = read_typed_records(plan, "picked 2 kg cucumbers on 5 Sept", corpus.TODAY)
    assert "it ended on 1 Aug 2026, 5 weeks before" in typed_warnings(plan, late)[0]


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("last of the courgettes", [{"kind": "last picking", "planting": "cou"}]),
        ("first of the tomatoes yesterday", [{"kind": "first picking", "planting": "tom", "day": corpus.YESTERDAY}]),
        (
            "last of the courgettes, 2 kg",
            [
                {"kind": "last picking", "planting": "cou"},
                {"kind": "picked", "planting": "cou", "amount": {"value": 2000.0, "unit": "g"}},
            ],
        ),
        ("2 buckets of compost on West 3", [{"kind": "done", "bed": "w3", "words": "2 buckets of compost"}]),
        ("half a barrow of manure on North", [{"kind": "done", "bed": "north", "words": "half a barrow of manure"}]),
        ("2 Eimer Kompost auf West 3", [{"kind": "done", "bed": "w3", "words": "2 Eimer Kompost"}]),
        ("bought 3 bags of compost", [{"kind": "done", "words": "bought: 3 bags of compost"}]),
        (
            "picked 40 stems sweet pea",
            [{"kind": "picked", "planting": "swp", "amount": {"value": 40.0, "unit": "pieces"}}],
        ),
    ],
)  # fmt: skip
def test_the_end_of_a_crop_loads_and_stems_are_understood(line: str, wanted: list[dict[str, Any]]) -> None:
    read = read_typed_records(PLAN, line, corpus.TODAY).fields
    day = {"day": corpus.TODAY}
    assert list(read) == [day | fields for fields in wanted]


def test_a_load_of_what_is_picked_is_still_asked_back() -> None:
    with pytest.raises(BedwrightError, match="no weight"):
        read_typed_records(PLAN, "picked 2 buckets of potatoes", corpus.TODAY)
