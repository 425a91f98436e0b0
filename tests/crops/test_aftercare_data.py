"""The aftercare of crops: its faults are named, its words are whole, and it is where it is usual."""

from __future__ import annotations

import string

import pytest
from making import write_catalogue

from planner.crops import CatalogueError, load_catalogue
from planner.crops.aftercare import CARE_WORDS, IN_SHORT, TASKS
from planner.crops.cautions import TASK_WORDS
from planner.garden.edits.ticks import YEARLY
from planner.season.practice import stays_for_years

SOURCES = '[book]\ntitle = "A book"\n'
CARROT = """family = "Apiaceae"
[carrot]
name = "carrot"
latin = "Daucus carota"
life_cycle = "biennial"
growth_form = "root"
"""
FAULTS = [
    ('task = "polish", after = "start", source = "book"', "aftercare.0.task: 'polish' is none of chit, mulch"),
    ('task = "mulch", after = "breakfast", source = "book"', "aftercare.0.after: 'breakfast' is none of start, emergence"),
    ('task = "mulch", source = "book"', "aftercare.0: is due after a day or in a month: give one of 'after' and 'month'"),
    ('task = "mulch", after = "start", month = 3, source = "book"', "aftercare.0: is due after a day or in a month"),
    ('task = "mulch", month = 13, source = "book"', "aftercare.0.month: Input should be less than or equal to 12"),
    ('task = "mulch", month = 3, days = 4, source = "book"', "aftercare.0: is due in a month, not days after it"),
    ('task = "mulch", after = "start", to_month = 4, source = "book"', "aftercare.0: has a last month but no first one"),
    ('task = "feed", after = "start", every_days = 14, source = "book"', "aftercare.0: is done again and again without an end"),
    ('task = "feed", after = "start", until = "supper", source = "book"', "aftercare.0.until: 'supper' is none of start"),
    ('task = "mulch", after = "start"', "aftercare.0: has no source key"),
    ('task = "mulch", after = "start", source = "bok"', "aftercare 'mulch': unknown source key 'bok'"),
    ('task = "mulch", after = "start", applies = false, note = "why"', "aftercare.0: says it does not apply, yet has a value"),
    ('task = "mulch", after = "start", source = "book", basis = "estimate"', "aftercare.0: its basis is estimate, yet it names a source"),
    ('task = "mulch", after = "start", starts = ["thrown"], source = "book"', "aftercare: 'thrown' of 'mulch' is none of sown"),
    ('task = "tie in", after = "start", supports = ["rope"], source = "book"', "aftercare: 'rope' of 'tie in' is none of none, sticks"),
    ('task = "mulch", after = "start", planted = "at noon", source = "book"', "aftercare.0.planted: 'at noon' is none of before winter"),
    ('task = "prune", after = "start", ripens = "spring", source = "book"', "aftercare.0.ripens: 'spring' is none of summer, autumn"),
    ('task = "mulch", after = "start", colour = "red", source = "book"', "aftercare.0.colour: Extra inputs are not permitted"),
]  # fmt: skip


@pytest.mark.parametrize(("entry", "words"), FAULTS, ids=lambda text: text[:40])
def test_each_fault_is_named_by_file_crop_and_field(entry, words, tmp_path):
    folder = write_catalogue(tmp_path, SOURCES, apiaceae=f"{CARROT}aftercare = [ {{ {entry} }} ]\n")
    with pytest.raises(CatalogueError) as caught:
        load_catalogue(folder)
    assert f"apiaceae.toml, carrot, {words}" in str(caught.value)


def test_aftercare_without_fault_is_read_in_its_order(tmp_path):
    entries = '{ task = "straw", after = "first harvest", days = -21, source = "book" }, { task = "mulch", month = 3, source = "practice" }'
    folder = write_catalogue(tmp_path, SOURCES, apiaceae=f"{CARROT}aftercare = [ {entries} ]\n")
    straw, mulch = load_catalogue(folder).crops["carrot"].aftercare
    assert (straw.task, straw.kind, straw.days, straw.provenance) == ("straw", "mulch", -21, "printed")
    assert (mulch.kind, mulch.month, mulch.provenance) == ("mulch", 3, "practice")


def test_every_task_is_a_sentence_of_crop_and_bed_and_every_kind_has_one_of_its_own_name():
    for name, task in TASKS.items():
        fields = {field for _, field, _, _ in string.Formatter().parse(task.words) if field}
        assert fields == {"crop", "bed"}, name
        assert task.words[0].isupper(), name
        assert not task.words.endswith("."), name
        assert task.kind in CARE_WORDS, name
    assert {TASKS[kind].kind for kind in CARE_WORDS} == set(CARE_WORDS)
    assert IN_SHORT.keys() == TASKS.keys()
    assert set(CARE_WORDS) <= set(TASK_WORDS)


def test_work_on_what_stays_for_years_is_recorded_each_year(catalogue):
    for crop in catalogue.crops.values():
        if stays_for_years(crop):
            assert {care.kind for care in crop.aftercare} <= set(YEARLY), crop.key


def test_a_crop_lists_no_task_twice_and_every_task_is_used(catalogue):
    used = set()
    for crop in catalogue.crops.values():
        tasks = [care.task for care in crop.aftercare]
        assert len(tasks) == len(set(tasks)), crop.key
        used |= set(tasks)
    assert set(TASKS) - used <= set(CARE_WORDS)


def test_aftercare_is_where_it_is_usual_and_nowhere_else(catalogue):
    kinds = {key: {care.kind for care in crop.aftercare} for key, crop in catalogue.crops.items()}
    assert {"chit", "earth up", "earth up again"} <= kinds["potato"]
    assert {"earth up", "earth up again"} <= kinds["leek"] & kinds["brussels_sprouts"]
    assert {"tie in", "pinch out", "stop", "feed"} <= kinds["tomato"]
    assert all(
        "prune" in kinds[key]
        for key in ("raspberry", "blackberry", "red_currant", "blackcurrant", "gooseberry", "grape_vine")
    )
    assert all("divide" in kinds[key] for key in ("rhubarb", "chives"))
    assert "renew" in kinds["strawberry"]
    assert "cut back" in kinds["asparagus"]
    assert "lift and store" in kinds["dahlia"]
    for key in ("pea", "carrot", "lettuce", "radish", "dwarf_bean", "courgette", "sweet_corn"):
        assert kinds[key] == set(), key
    for key in ("lavender", "rosemary", "thyme", "sage"):
        assert "mulch" not in kinds[key], key
