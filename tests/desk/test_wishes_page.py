"""Wishes in the window: made from plantings and from what is eaten, and every field of them in the form."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

import pytest
from hand import LEFT, LIMIT, Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner.desk.forms.fields import ChoiceField, TypedField
from planner.desk.pages.wishes_page import WishesPage
from planner.garden import Climate, FrostDates, Garden, Household, Site, Wish
from planner.proposal.wishes import published_words

CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
)
PLANTED = garden(
    bed("b1", rectangle(4.0, 1.2), name="Long bed"),
    bed("b2", rectangle(4.0, 1.2, center=(0.0, 3.0)), name="Short bed"),
    planting("p1", "b1", crop="carrot", variety="Early", year=2026),
    planting("p2", "b2", crop="leek", year=2026),
    site=Site(latitude=54.0, longitude=-2.0),
    climate=CLIMATE,
    household=Household(persons=2, eats=({"crop": "beetroot", "kilograms": 5.0},)),
)
WISHED = PLANTED.with_(
    wishes=(
        Wish(id="w1", year=2027, crop="carrot", amount=40),
        Wish(id="w2", year=2027, crop="leek", amount=2, unit="people"),
    )
)


@pytest.fixture
def page(reopen: Callable[[Garden], Hand]) -> Callable[..., tuple[Hand, WishesPage]]:
    def begin(one: Garden = WISHED) -> tuple[Hand, WishesPage]:
        hand = reopen(one)
        hand.document.show_year(2026)
        hand.window.pages.bring(hand.window.pages.wishes)
        return hand, hand.window.pages.wishes

    return begin


def click(button: Any) -> None:
    assert button.isEnabled()
    assert button.isVisible()
    QTest.mouseClick(button, LEFT)


def type_into(field: TypedField, text: str) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def choose(field: ChoiceField, value: object) -> None:
    field.show_value(value)
    field.chosen.emit(value)


def wish(hand: Hand, key: str = "w1") -> Wish:
    return next(one for one in hand.garden.wishes if one.id == key)


def test_wishes_are_made_from_plantings_and_from_what_is_eaten_a_step_each(page, qtbot):
    hand, shown = page(PLANTED)
    assert "No wishes for 2027 yet" in shown.none.text()
    assert not shown.below.isVisible()
    click(shown.planted)
    qtbot.waitUntil(shown.planted.isEnabled, timeout=LIMIT)
    assert (hand.steps, hand.step) == (1, "Wishes from the plantings of 2026")
    assert [(one.crop, one.variety, one.like) for one in hand.garden.wishes] == [
        ("carrot", "Early", "p1"),
        ("leek", "", "p2"),
    ]
    click(shown.planted)
    qtbot.waitUntil(shown.planted.isEnabled, timeout=LIMIT)
    assert hand.steps == 1
    assert "nothing more to wish" in hand.window.status.message.text()
    click(shown.eaten)
    qtbot.waitUntil(shown.eaten.isEnabled, timeout=LIMIT)
    assert hand.step == "Wishes from what the household eats"
    assert [(one.crop, one.unit, one.amount) for one in hand.garden.wishes[2:]] == [("beetroot", "people", 2)]
    hand.document.undo_stack.undo()
    hand.document.undo_stack.undo()
    assert hand.garden is PLANTED


def test_an_edit_meanwhile_makes_no_wishes(page, qtbot):
    hand, shown = page(PLANTED)
    click(shown.eaten)
    hand.document.edit("Another site", lambda one: one.with_(site=one.site.with_(name="Other")))
    qtbot.waitUntil(shown.eaten.isEnabled, timeout=LIMIT)
    assert not hand.garden.wishes
    assert "changed meanwhile" in hand.window.status.message.text()
    hand.document.open(PLANTED.with_(household=Household()))
    hand.document.show_year(2026)
    click(shown.eaten)
    qtbot.waitUntil(shown.eaten.isEnabled, timeout=LIMIT)
    assert "how many eat" in hand.window.status.message.text()


def test_every_field_of_a_wish_is_in_the_table_or_the_form(page):
    hand, shown = page()
    shown.wishes.table.selectRow(0)
    form = shown.form
    assert form.isVisible()
    assert not form.until.isVisible()
    assert not form.parts.isVisible()
    choose(form.importance, "must")
    type_into(form.earliest, "1 Jul")
    type_into(form.latest, "20 Aug")
    type_into(form.beds, "long bed, Short bed")
    click(form.more)
    choose(form.parts, 2)
    choose(form.in_part, False)
    choose(form.ground, "open")
    type_into(form.beside, "leek, onion")
    type_into(form.apart, "dill")
    type_into(form.back_after, "2")
    choose(form.start, "sown")
    choose(form.like, "p1")
    assert form.like.currentText() == "Early in Long bed, 2026"
    assert wish(hand).with_(id="w1") == Wish(
        id="w1",
        year=2027,
        crop="carrot",
        amount=40,
        importance="must",
        earliest=dt.date(2027, 7, 1),
        latest=dt.date(2027, 8, 20),
        beds=("b1", "b2"),
        parts=2,
        in_part=False,
        ground="open",
        beside=("leek", "onion"),
        apart=("dill",),
        back_after=2.0,
        start="sown",
        like="p1",
    )
    assert hand.steps == 12
    shown.wishes.table.selectRow(1)
    assert form.until.isVisible()
    type_into(form.until, "31 Oct")
    assert wish(hand, "w2").until == dt.date(2027, 10, 31)
    assert form.importance.value == "should"
    click(form.more)
    reached = {"id", "year", "crop", "variety", "amount", "unit", "purpose", "reason"}  # in the table
    reached |= {name for name in Wish.model_fields if hasattr(form, name)}
    assert reached == set(Wish.model_fields)


def test_what_is_wrong_is_said_and_stays_in_its_field(page):
    hand, shown = page()
    shown.wishes.table.selectRow(0)
    type_into(shown.form.beds, "Nowhere")
    assert shown.form.beds.is_wrong
    assert "there is no bed 'Nowhere'" in hand.window.status.message.text()
    type_into(shown.form.beds, "Long bed")
    assert wish(hand).beds == ("b1",)
    type_into(shown.form.latest, "1 Jul")
    type_into(shown.form.earliest, "1 Aug")
    assert shown.form.earliest.is_wrong
    assert wish(hand).earliest is None
    shown.form.earliest.restore()
    type_into(shown.form.beds, "")
    assert wish(hand).beds == ()


def test_beds_selected_on_the_plan_become_those_of_the_wish(page):
    hand, shown = page()
    shown.wishes.table.selectRow(0)
    assert not shown.form.selected.isEnabled()
    hand.document.select(["b2"])
    click(shown.form.selected)
    assert wish(hand).beds == ("b2",)
    assert shown.form.beds.text() == "Short bed"


def test_a_layout_is_one_step_away(page):
    hand, shown = page()
    click(shown.layout_button)
    assert hand.window.pages.layout_page.isVisible()


# -- a new wish ---------------------------------------------------------------------------------------


def test_the_crop_of_a_new_wish_is_typed(page):
    hand, shown = page()
    line = shown.wishes.crop.lineEdit()
    click(shown.wishes.add)
    assert "no crop is named" in hand.window.status.message.text()
    QTest.keyClicks(line, "eriac")  # the only one with these letters
    listed = shown.wishes.crop.completer().completionModel()
    assert [listed.index(n, 0).data() for n in range(listed.rowCount())] == ["Celeriac"]
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert hand.garden.wishes[-1].crop == "celeriac"
    assert line.text() == ""
    QTest.keyClicks(line, "bean")
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert len(hand.garden.wishes) == 3
    assert "bean" in hand.window.status.message.text()


def test_the_published_amount_is_offered_where_none_is_given(page):
    hand, shown = page(WISHED.with_(wishes=(WISHED.wishes[0].with_(amount=None), WISHED.wishes[1])))
    shown.wishes.table.selectRow(1)
    assert not shown.form.published.isVisible()
    shown.wishes.table.selectRow(0)
    words = published_words(hand.garden, hand.document.catalogue, "carrot")
    assert "a year for 2 people, as published (table)" in words
    assert shown.form.published.words == f"Take {words}"
    click(shown.form.published)
    one = wish(hand)
    assert (one.unit, one.amount, one.reason) == ("people", 2, words)
    assert not shown.form.published.isVisible()


def test_the_choice_of_a_crop_shows_what_is_chosen_and_is_empty_once_it_is_wished(page):
    hand, shown = page()
    hand.window.activateWindow()
    typed = shown.wishes.crop
    for keys in ((Qt.Key.Key_Down, Qt.Key.Key_Return), (Qt.Key.Key_Return,)):
        before = len(hand.garden.wishes)
        typed.setFocus()
        QTest.keyClicks(typed.lineEdit(), "auberg")
        popup = typed.completer().popup()
        assert popup.isVisible()
        for key in keys:
            if key == Qt.Key.Key_Return:
                QTest.keyClick(popup if popup.isVisible() else typed.lineEdit(), key)
            else:
                QTest.keyClick(popup, key)
                assert typed.currentText() == "Aubergine"
        QTest.qWait(20)
        assert [one.crop for one in hand.garden.wishes[before:]] == ["aubergine"]
        assert typed.currentText() == ""
        assert typed.currentIndex() == -1


def test_a_new_wish_of_flowers_matters_less_than_one_of_food(page):
    hand, shown = page()
    assert shown.usual.isVisible()
    for name, matters in (("Statice", "could"), ("Potato", "should")):
        shown.wishes.crop.setEditText(name)
        shown.wishes.add.click()
        assert hand.garden.wishes[-1].importance == matters
