"""The harvest by week, too much and too little, the stores, the household, and how much to plant, in the window."""

from __future__ import annotations

import pytest
from hand import LIMIT, Hand
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from sample_reading import FOLDER

from planner.amounts.closing import gaps_of
from planner.amounts.enough_for import enough_for
from planner.amounts.supply_year import crop_years, level_on
from planner.checks.unfit_ground import unfit_ground
from planner.desk.pages.harvest_choice import choices, chosen
from planner.desk.pages.harvest_weeks import harvest_stack
from planner.garden import Garden, Household, OwnFigure, Variety, edits
from planner.listings.harvest import left_over
from planner.plan import Plan
from planner.storage import load

pytestmark = pytest.mark.one_window

HOLLOW = load(FOLDER / "hollow_lane.bedwright")
#: With free ground: what is proposed finds room.
SPARSE = HOLLOW.with_(
    plantings=tuple(one for number, one in enumerate(HOLLOW.plantings) if one.year != 2026 or number % 3)
)


def show(hand: Hand, page):
    hand.window.pages.bring(page)
    assert page.isVisible()
    return page


def rows_of(table) -> dict[str, tuple[str, ...]]:
    return {row.cells[0]: row.cells for row in table.rows}


@pytest.fixture
def sample(open_hand) -> Hand:
    hand = open_hand(HOLLOW)
    yield hand
    hand.view.light.wait()


@pytest.fixture
def sparse(open_hand) -> Hand:
    hand = open_hand(SPARSE)
    yield hand
    hand.view.light.wait()


# -- by week ------------------------------------------------------------------------------------


def test_the_picture_adds_up_to_the_harvest_of_the_year(sample):
    page = show(sample, sample.window.pages.harvest)
    plan = sample.document.plan
    grams = sum(one.within(plan.span) for year in crop_years(plan) for one in year.harvests)
    stack = page.picture.stack
    assert stack.unit == "kg"
    assert sum(sum(band.values) for band in stack.bands) == pytest.approx(grams / 1000)


def test_kinds_are_parts_of_the_whole():
    plan = Plan(HOLLOW, 2026)
    years = crop_years(plan)

    def whole(choice) -> float:
        stack = harvest_stack(plan, chosen(plan, years, choice))
        return sum(sum(band.values) for band in stack.bands)

    sums = {choice.kind: whole(choice) for choice, _ in choices(plan, years) if not choice.crop}
    every = sums.pop("")
    by_use = [sums.pop(kind) for kind in ("for the store", "eaten fresh")]
    assert sum(by_use) == pytest.approx(every)
    assert len(sums) == 4
    assert sum(sums.values()) == pytest.approx(every)


def test_a_crop_shows_what_is_eaten_and_its_weeks_of_too_much_and_too_little(sample):
    page = show(sample, sample.window.pages.harvest)
    plan = sample.document.plan
    pea = next(year for year in crop_years(plan) if year.gluts)
    sample.choose(page.choice, next(one for one in page.choice._values if one.crop == pea.appetite.key))
    stack = page.picture.stack
    assert [mark.lacks for mark in stack.marks] == [False] * len(pea.gluts) + [True] * len(gaps_of(plan, pea))
    glut = pea.gluts[0]
    picture, week = page.picture, stack.mondays.index(glut.first)
    picture.setFocus()
    QTest.keyClick(picture, Qt.Key.Key_Home)
    for _ in range(week):
        QTest.keyClick(picture, Qt.Key.Key_Right)
    assert "picked" in page.week.text()
    assert "Too much" in page.week.text()
    weekly = [week.eaten / 1000 for week in pea.weeks if week.eaten]
    assert max(value for value in stack.second if value is not None) == pytest.approx(max(weekly))


@pytest.mark.own_window
def test_a_line_opens_to_its_plantings_and_enter_shows_one_on_the_sheet(sample):
    page = show(sample, sample.window.pages.harvest)
    lettuce = next(row for row in page.table.rows if row.cells[0] == "Butterhead lettuce")
    assert len(lettuce.parts) > 1
    assert sum(float(part.cells[1]) for part in lettuce.parts) == pytest.approx(
        float(lettuce.cells[1]), abs=0.03
    )
    page.table.choose(lettuce.parts[1].key)
    QTest.keyClick(page.table, Qt.Key.Key_Return)
    assert sample.window.pages.shows_sheet
    assert sample.selected() == {lettuce.parts[1].shows}


@pytest.mark.own_window
def test_crops_without_a_yield_are_named(sample):
    page = show(sample, sample.window.pages.harvest)
    assert "chives" in page.sum.text()
    cells = rows_of(page.table)["Chives"]
    assert cells[1] == "?"
    assert cells[-1] == "No yield of chives is known"


@pytest.mark.own_window
def test_an_own_yield_is_shown_as_such(open_hand):
    own = Variety(
        id="v90", crop="chives", name="Mine", figures=(OwnFigure(field="yield_per_plant", value=0.2),)
    )
    key = next(one.id for one in HOLLOW.plantings if one.crop == "chives" and one.year <= 2026)
    garden = edits.change_planting(HOLLOW.with_(varieties=(*HOLLOW.varieties, own)), key, variety="Mine")
    hand = open_hand(garden)
    page = show(hand, hand.window.pages.harvest)
    cells = rows_of(page.table)["Chives"]
    assert cells[-1] == "own figure"
    assert float(cells[1]) > 0
    assert "Own varieties and crops" in page.own.text()
    hand.view.light.wait()


@pytest.mark.own_window
def test_what_a_planting_is_for_is_seen(sample):
    page = show(sample, sample.window.pages.harvest)
    pea = next(one for one in sample.document.plan.plantings if one.crop == "pea")
    assert rows_of(page.table)["Pea"][7] == "fresh"
    sample.document.edit("x", lambda garden: edits.change_planting(garden, pea.id, purpose="freezing"))
    assert rows_of(page.table)["Pea"][7] == "for freezing"
    store = show(sample, sample.window.pages.store)
    assert rows_of(store.table)["Pea"][1] == "in the freezer"
    sample.document.edit("x", lambda garden: edits.change_planting(garden, pea.id, purpose="seed"))
    show(sample, page)
    assert "Pea" not in rows_of(page.table)
    assert "for seed or for cutting, and not counted: pea" in page.sum.text()


def test_hidden_pages_cost_nothing(sample, monkeypatch):
    pages = sample.window.pages
    show(sample, pages.household)
    seen = []
    monkeypatch.setattr("planner.desk.pages.harvest_page.crop_years", lambda plan: seen.append(1) or ())
    monkeypatch.setattr("planner.desk.pages.store_page.crop_years", lambda plan: seen.append(1) or ())
    monkeypatch.setattr("planner.desk.pages.gaps_page.crop_years", lambda plan: seen.append(1) or ())
    sample.document.edit("x", lambda garden: edits.change_household(garden, persons=3))
    assert not seen
    show(sample, pages.harvest)
    assert seen == [1]


def test_a_garden_in_feet_is_in_pounds(open_hand):
    hand = open_hand(load(FOLDER / "red_mesa.bedwright").with_(household=Household(persons=2)))
    page = show(hand, hand.window.pages.harvest)
    head = page.table.model().headerData(1, Qt.Orientation.Horizontal)
    assert head == "Harvest, lb"
    assert page.picture.stack.unit == "lb"
    show(hand, hand.window.pages.household)
    assert "lb" in hand.window.pages.household.eaten.heads[1]
    hand.view.light.wait()


@pytest.mark.parametrize("garden", [Garden(), HOLLOW.with_(household=Household())])
def test_what_is_missing_is_said_with_the_way_to_mend_it(open_hand, garden):
    hand = open_hand(garden)
    pages = hand.window.pages
    harvest = show(hand, pages.harvest)
    assert ("Nothing is harvested" in harvest.sum.text()) == (not garden.plantings)
    for page in (pages.gaps, pages.store):
        show(hand, page)
        assert "How many eat" in page.sum.text()
        page.household.click()
        assert pages.household.isVisible()
    show(hand, pages.enough)
    assert pages.enough.words.text().endswith(".")
    hand.view.light.wait()


# -- too much, too little -------------------------------------------------------------------------


def test_a_gap_is_closed_by_a_button_in_one_step(sparse, qtbot):
    page = show(sparse, sparse.window.pages.gaps)
    qtbot.waitUntil(
        lambda: not any(row.cells[4] == "being worked out" for row in page.table.rows), timeout=LIMIT
    )
    row = next(
        row for row in page.table.rows if page._closings.get(row.key) and page._closings[row.key].spots
    )
    page.table.choose(row.key)
    closing = page.chosen
    assert closing.spots[0].bed.name in page.plant.words
    assert closing.crop.name in page.mend.text()
    before, steps = sparse.garden, sparse.steps
    page.plant.click()
    assert sparse.steps == steps + 1
    new = [one for one in sparse.garden.plantings if one.id not in before.plantings_by_id]
    assert {one.crop for one in new} == {closing.crop.key}
    assert "planted in" in sparse.message()
    lacking = {
        year.name: sum(gap.grams for gap in gaps_of(sparse.document.plan, year))
        for year in crop_years(sparse.document.plan)
    }
    name = row.cells[0]
    was = Plan(before, 2026)
    old = sum(
        gap.grams
        for year in crop_years(was)
        if year.name.casefold() == name.casefold()
        for gap in gaps_of(was, year)
    )
    assert lacking[next(key for key in lacking if key.casefold() == name.casefold())] < old
    sparse.document.undo_stack.undo()
    assert sparse.garden == before


def test_what_was_worked_out_before_an_edit_is_not_planted(sparse, qtbot):
    page = show(sparse, sparse.window.pages.gaps)
    qtbot.waitUntil(lambda: any(closing for closing in page._closings.values()), timeout=LIMIT)
    sparse.document.edit("x", lambda garden: edits.change_household(garden, persons=0))
    assert not page._closings
    assert not page.plant.isEnabled()
    assert page.table.rows == ()


def test_what_waits_and_is_not_eaten_is_left_over(sample):
    page = show(sample, sample.window.pages.gaps)
    plan = sample.document.plan
    over = [one for year in crop_years(plan) for one in left_over(plan, year)]
    assert over
    rows = [row for row in page.table.rows if row.cells[2] == "left over"]
    assert sorted(row.shows for row in rows) == sorted(one.planting.id for one, _ in over)
    spoilt = sum(course.spoilt for _, course in over)
    assert sum(float(row.cells[3]) for row in rows) == pytest.approx(spoilt / 1000, abs=0.01 * len(rows))
    page.table.choose(rows[0].key)
    QTest.keyClick(page.table, Qt.Key.Key_Return)
    assert sample.window.pages.shows_sheet
    assert sample.selected() == {rows[0].shows}


# -- in store -------------------------------------------------------------------------------------


def test_levels_are_those_of_the_stores_and_the_day_they_run_out_is_named(sample):
    page = show(sample, sample.window.pages.store)
    plan = sample.document.plan
    onion = next(year for year in crop_years(plan) if year.name == "onion")
    stack = page.picture.stack
    band = next(band for band in stack.bands if band.name == "onion")
    week = stack.mondays.index(next(day for day in stack.mondays if day.month == 11))
    level = sum(level_on(course, stack.mondays[week]) for _, course in onion.stored)
    assert level > 0
    assert band.values[week] == pytest.approx(level / 1000)
    sample.choose(page.choice, onion.appetite.key)
    gone = max(course.gone for _, course in onion.stored)
    names = [mark.name for mark in page.picture.stack.marks]
    assert any(f"runs out {gone.day} " in name for name in names)
    assert page.table.rows[0].cells[4].startswith(f"{gone.day} ")
    page.picture.mark(week)
    assert "in store" in page.week.text()
    sample.choose(page.choice, "")
    assert "a week would finish it." in page.first.toPlainText()


# -- household ------------------------------------------------------------------------------------


def test_persons_are_typed_as_one_step_and_nonsense_is_refused(sample):
    page = show(sample, sample.window.pages.household)
    steps = sample.steps
    sample.type(page.persons, "2,5")
    assert (sample.garden.household.persons, sample.steps) == (2.5, steps + 1)
    sample.type(page.persons, "many")
    assert page.persons.is_wrong
    assert "'many' is no number" in sample.message()
    sample.type(page.persons, "-3")
    assert page.persons.is_wrong
    assert sample.steps == steps + 1


def test_own_amounts_are_typed_beside_the_published_ones(sample):
    page = show(sample, sample.window.pages.household)
    model = page.eaten
    row = next(n for n, one in enumerate(model.rows) if one.crop == "pea")
    assert model.rows[row].cells[1]
    assert model.rows[row].cells[2] == "Kansas State University"
    steps = sample.steps
    assert model.setData(model.index(row, 4), "250 g")
    eaten = next(one for one in sample.garden.household.eats if one.crop == "pea")
    assert (eaten.kilograms, eaten.per, sample.steps) == (0.25, "week", steps + 1)
    assert model.rows[row].cells[3:5] == ("", "0.25")
    assert model.setData(model.index(row, 3), "12")
    assert model.rows[row].cells[3:5] == ("12.00", "")
    assert not model.setData(model.index(row, 3), "a lot")
    assert sample.message() == "Pea: 'a lot' is no weight. Type one like 1.5 kg."
    assert model.setData(model.index(row, 3), "")
    assert all(one.crop != "pea" for one in sample.garden.household.eats)


def test_places_are_added_changed_and_removed_in_a_step_each(sample):
    page = show(sample, sample.window.pages.household)
    model, steps = page.places, sample.steps
    page._add()
    assert len(sample.garden.store_places) == 3
    page.place_table.closePersistentEditor(page.place_table.currentIndex())
    for column, typed, field, value in (
        (0, "Garage", "name", "Garage"),
        (1, "fridge", "kind", "fridge"),
        (2, "5", "temperature", 5.0),
        (3, "80 %", "humidity", 0.8),
        (4, "onion, Garlic", "crops", ("onion", "garlic")),
    ):
        assert model.setData(model.index(2, column), typed), field
        assert getattr(sample.garden.store_places[2], field) == value
    assert sample.steps == steps + 6
    assert not model.setData(model.index(2, 3), "200")
    assert "no share of a whole" in sample.message()
    assert not model.setData(model.index(2, 4), "unobtainium")
    assert "there is no crop 'unobtainium'" in sample.message()
    assert not model.setData(model.index(2, 0), "Cellar")
    assert "there is a place 'Cellar' already" in sample.message()
    page.place_table.selectRow(2)
    page._remove()
    assert len(sample.garden.store_places) == 2
    assert sample.steps == steps + 7


def test_household_tables_are_sound(sample, qtmodeltester):
    page = show(sample, sample.window.pages.household)
    qtmodeltester.check(page.eaten)
    qtmodeltester.check(page.places)


# -- how much to plant ------------------------------------------------------------------------------


def test_how_much_to_plant_is_worked_out_and_planted_in_one_step(sparse, qtbot):
    page = show(sparse, sparse.window.pages.enough)
    page.crop.setCurrentIndex(page.crop.findData("carrot"))
    page.crop.activated.emit(page.crop.currentIndex())
    sparse.type(page.persons, "2")
    sparse.type(page.until, "31 Jan 2027")
    qtbot.waitUntil(lambda: page.found is not None, timeout=LIMIT)
    plan = sparse.document.plan
    alone = enough_for(
        plan, plan.catalogue.crops["carrot"], 2, page.found.until, None, None, unfit_ground(plan)
    )
    assert (page.found.until.year, page.found.until.month, page.found.until.day) == (2027, 1, 31)
    assert page.found.needed == alone.needed
    assert [(spot.bed.id, spot.plants) for spot in page.found.spots] == [
        (spot.bed.id, spot.plants) for spot in alone.spots
    ]
    assert "Seed:" in page.words.text()
    assert len(page.table.rows) == len(alone.spots) > 0
    steps, count = sparse.steps, len(sparse.garden.plantings)
    page.plant.click()
    assert sparse.steps == steps + 1
    assert len(sparse.garden.plantings) == count + len(alone.spots)


def test_what_cannot_be_worked_out_says_why(sample, qtbot):
    page = show(sample, sample.window.pages.enough)
    page.crop.setCurrentIndex(page.crop.findData("mizuna"))
    page.crop.activated.emit(page.crop.currentIndex())
    qtbot.waitUntil(lambda: "not known" in page.words.text(), timeout=LIMIT)
    assert not page.plant.isEnabled()
    sample.type(page.persons, "some")
    assert (
        page.words.text() == "Persons who eat of it: 'some' is no number of persons. Type one like 2 or 2.5."
    )
