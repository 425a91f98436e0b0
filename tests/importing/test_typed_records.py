"""Records typed as one line, against lines and meanings that were written down before the reader was."""

from __future__ import annotations

import datetime as dt
import gettext
import random
from typing import Any, ClassVar

import pytest
import typed_records_corpus as corpus

from planner.crops import load_catalogue
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.importing.record_phrases import phrases
from planner.importing.typed_records import add_typed_records, read_typed_records, typed_lines
from planner.plan import Plan
from planner.words import use_translations


def _plan(garden: Garden) -> Plan:
    return Plan(garden, 2026, load_catalogue())


PLOT, NUMBERED, SCRIPTS = _plan(corpus.plot()), _plan(corpus.numbered()), _plan(corpus.scripts())
CASES = [
    *((PLOT, text, wanted) for text, wanted in corpus.PLOT.items()),
    *((NUMBERED, text, wanted) for text, wanted in corpus.NUMBERED.items()),
    *((SCRIPTS, text, wanted) for text, wanted in corpus.SCRIPTS.items()),
]
FAULTS = [
    *((PLOT, text, part) for text, part in corpus.PLOT_FAULTS.items()),
    *((NUMBERED, text, part) for text, part in corpus.NUMBERED_FAULTS.items()),
]


def _plain(fields: Any) -> list[dict[str, Any]]:
    return [dict(one) for one in fields]


@pytest.mark.parametrize(("plan", "text", "wanted"), CASES, ids=[text for _, text, _ in CASES])
def test_a_line_means_what_was_written_down_for_it(plan: Plan, text: str, wanted: list[Any]) -> None:
    typed = read_typed_records(plan, text, corpus.TODAY)
    assert _plain(typed.fields) == wanted
    assert len(typed_lines(plan, typed)) == len(wanted)
    assert len(add_typed_records(plan.garden, typed).records) == len(wanted)


@pytest.mark.parametrize(("plan", "text", "part"), FAULTS, ids=[text or "empty" for _, text, _ in FAULTS])
def test_what_is_not_clear_is_asked_back_in_one_line(plan: Plan, text: str, part: str) -> None:
    with pytest.raises(BedwrightError) as fault:
        read_typed_records(plan, text, corpus.TODAY)
    line = str(fault.value)
    assert part in line
    assert "\n" not in line
    assert fault.value.fix


def test_feet_and_ounces(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LC_ALL", "en_US.UTF-8")
    plan = _plan(corpus.plot(units="feet_inches"))
    for text, wanted in corpus.FEET.items():
        (fields,) = read_typed_records(plan, text, corpus.TODAY).fields
        amount, (wish,) = fields.pop("amount", None), [dict(one) for one in wanted]
        wished = wish.pop("amount", None)
        assert fields == wish, text
        assert (amount is None) == (wished is None)
        if amount is not None:
            assert amount["unit"] == wished["unit"]
            assert amount["value"] == pytest.approx(wished["value"], abs=1e-5), text


def test_what_is_selected_is_meant_where_nothing_is_named() -> None:
    typed = read_typed_records(PLOT, "slugs, half", corpus.TODAY, ("b2", "let2"))
    assert [one.get("planting") for one in typed.fields] == ["let2"]
    typed = read_typed_records(PLOT, "sown yesterday", corpus.TODAY, ("b5", "b6"))
    assert [one["planting"] for one in typed.fields] == ["beet", "turnip"]
    typed = read_typed_records(PLOT, "note: wet", corpus.TODAY, ("b5", "b6"))
    assert [one["bed"] for one in typed.fields] == ["b5", "b6"]
    typed = read_typed_records(PLOT, "lesson: too near", corpus.TODAY, ("car",))
    assert [one["crop"] for one in typed.fields] == ["carrot"]


def test_letters_of_the_walk_name_plantings() -> None:
    called = {"A": "chard", "B": "radish"}
    typed = read_typed_records(PLOT, "B picked 3 bunches", corpus.TODAY, ("b1",), called)
    assert [one["planting"] for one in typed.fields] == ["radish"]
    assert typed.fields[0]["amount"] == {"value": 3.0, "unit": "bunches"}
    typed = read_typed_records(PLOT, "b: slugs", corpus.TODAY, ("b1",), called)
    assert [one["planting"] for one in typed.fields] == ["radish"]
    typed = read_typed_records(PLOT, "a third of A has slugs", corpus.TODAY, ("b1",), called)
    assert [(one["planting"], one["share"]) for one in typed.fields] == [("chard", 1 / 3)]


def test_work_ticked_off_before_gets_its_new_day() -> None:
    once = add_typed_records(PLOT.garden, read_typed_records(PLOT, "Bed 5 sown on 8 June", corpus.TODAY))
    plan = _plan(once)
    twice = add_typed_records(once, read_typed_records(plan, "Bed 5 beetroot sown on 9 June", corpus.TODAY))
    assert [(one.kind, one.day) for one in twice.records] == [("done", dt.date(2026, 6, 9))]


def test_a_bed_whose_name_two_have_is_asked_back() -> None:
    garden = corpus.numbered()
    beds = tuple(bed.with_(name="North") if bed.id in ("n1", "n2") else bed for bed in garden.beds)
    with pytest.raises(BedwrightError, match="several beds are called North"):
        read_typed_records(_plan(garden.with_(beds=beds)), "slugs in North", corpus.TODAY)


def test_any_words_give_records_that_can_be_written_or_one_line() -> None:
    """Words of the vocabulary and of the lines above in any order."""
    rng = random.Random(11)
    words = [" ".join(signs) for signs, _sort, _value in phrases()]
    words += [word for text in corpus.PLOT for word in text.split()]
    words += ["1/2", "5,6", "-1", "10:30", "²", "٣", "½", "31 June", "\u0300", "(", "9999999999999999999"]
    for _ in range(500):
        line = " ".join(rng.choice(words) for _ in range(rng.randint(1, 8)))
        try:
            typed = read_typed_records(PLOT, line, corpus.TODAY)
            garden = add_typed_records(PLOT.garden, typed)
        except BedwrightError as fault:
            lines = str(fault)
        else:
            lines = typed_lines(PLOT, typed)[0]
            assert len(garden.records) == len(typed.fields)
        assert "\n" not in lines, line


def test_what_the_program_says_in_another_language_is_understood() -> None:
    class German(gettext.NullTranslations):
        said: ClassVar = {"sown": "gesät", "slugs": "Schnecken", "given away": "verschenkt", "note": "Notiz"}

        def gettext(self, message: str) -> str:
            return self.said.get(message, message)

    before = use_translations(German())
    try:
        for line, wanted in (
            ("Bed 5 gesät gestern", [corpus.record("done", "beet", corpus.YESTERDAY, task="sow")]),
            (
                "Schnecken in Bed 2 am Dienstag",
                [corpus.record("seen", "@b2", corpus.YESTERDAY, harm="slugs")],
            ),
            ("Notiz North: trocken", [corpus.record("note", "@north", words="trocken")]),
        ):
            assert _plain(read_typed_records(PLOT, line, corpus.TODAY).fields) == wanted
    finally:
        use_translations(before)
