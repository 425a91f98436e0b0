"""Lines as growers put them, against what was written down for each before the reader was made for them."""

from __future__ import annotations

from typing import Any

import grower_lines_corpus as corpus
import pytest

from planner.crops import load_catalogue
from planner.errors import BedwrightError
from planner.importing.typed_records import add_typed_records, read_typed_records, typed_lines
from planner.plan import Plan

PLAN = Plan(corpus.holding(), 2026, load_catalogue())
LINES: dict[str, Any] = {**corpus.TAKEN, **corpus.ASKED, **corpus.TRAPS, **corpus.GERMAN}


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
