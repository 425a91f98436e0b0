"""Typing the climate: frost dates one by one and together, monthly means typed and pasted; nothing typed is lost."""

from __future__ import annotations

import itertools

import pytest
from hand import Hand
from making import bed, garden
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest

from planner.garden import Climate, FrostDates
from planner.storage.document import dump, parse

pytestmark = pytest.mark.one_window

SPRING = {90: ("5 Apr", "04-05"), 50: ("25 Apr", "04-25"), 10: ("12 May", "05-12")}
LOW = (1.5, 1.4, 2.9, 4.7, 7.5, 10.5, 12.6, 12.4, 10.2, 7.4, 4.1, 1.9)
HIGH = (7.4, 8.1, 11.0, 14.1, 17.4, 20.3, 22.9, 22.6, 19.6, 15.1, 10.6, 7.8)


def climate_form(hand: Hand):
    hand.window.docks.details.show_climate(True)
    return hand.window.docks.details.climate


def reasons(form) -> list[str]:
    """Reasons shown beside fields of a form."""
    from PySide6.QtWidgets import QLabel

    labels = form.findChildren(QLabel)
    return [label.text() for label in labels if label.isVisible() and label.property("warn") and label.text()]


@pytest.fixture
def plain(open_hand) -> Hand:
    return open_hand(garden(bed("b1"), site={"latitude": 52.0}))


@pytest.fixture
def southern(open_hand) -> Hand:
    return open_hand(garden(bed("b1"), site={"latitude": -41.0}))


@pytest.fixture
def feet(open_hand) -> Hand:
    return open_hand(garden(bed("b1"), site={"latitude": 41.0, "units": "feet_inches"}))


@pytest.mark.parametrize("order", list(itertools.permutations((90, 50, 10))))
def test_three_dates_are_typed_in_any_order(plain: Hand, order) -> None:
    form = climate_form(plain)
    for risk in order:
        plain.type(form.days["last_frost", risk], SPRING[risk][0])
    assert plain.garden.climate.last_frost.given == {risk: day for risk, (_, day) in SPRING.items()}
    assert [form.days["last_frost", risk].text() for risk in (90, 50, 10)] == ["5 Apr", "25 Apr", "12 May"]
    assert reasons(form) == []


def test_a_lone_date_is_that_of_its_risk_and_says_what_it_stands_for(plain: Hand) -> None:
    form = climate_form(plain)
    plain.type(form.days["last_frost", 10], "12 May")
    assert plain.garden.climate.last_frost == FrostDates(risk_10="05-12")
    assert form.days["last_frost", 50].text() == ""
    assert "The last frost of spring is not given at 50 % risk; the day at 10 %, 12 May" in form.found.text()
    plain.choose(form.risk, 10)
    assert "12 May" not in form.found.text()


def test_southern_dates_are_typed_in_screen_order(southern: Hand) -> None:
    form = climate_form(southern)
    for kind, days in (
        ("last_frost", ("14 Sep", "12 Oct", "10 Nov")),
        ("first_frost", ("2 Apr", "25 Apr", "18 May")),
    ):
        fields = [field for (which, _), field in form.days.items() if which == kind]
        for field, day in zip(fields, days, strict=True):
            southern.type(field, day)
        assert [field.text() for field in fields] == list(days)
    assert southern.steps == 6
    assert form.found.text() == ""


def test_dates_that_only_fit_together_wait_for_one_another(plain: Hand) -> None:
    form = climate_form(plain)
    for risk in (90, 50, 10):
        plain.type(form.days["last_frost", risk], SPRING[risk][0])
    early, middle, late = (form.days["last_frost", risk] for risk in (90, 50, 10))
    plain.type(early, "14 May")  # after both others
    plain.type(middle, "20 May")
    assert (early.text(), middle.text()) == ("14 May", "20 May")
    assert early.is_wrong
    assert middle.is_wrong
    assert any("comes after" in why for why in reasons(form))
    assert plain.garden.climate.last_frost.given[50] == "04-25"
    steps = plain.steps
    plain.type(late, "1 Jun")
    assert plain.garden.climate.last_frost.given == {90: "05-14", 50: "05-20", 10: "06-01"}
    assert plain.steps == steps + 1
    assert reasons(form) == []
    assert not early.is_wrong


def test_a_refused_date_stays_while_other_things_change(plain: Hand) -> None:
    form = climate_form(plain)
    plain.type(form.days["last_frost", 50], "25 Apr")
    plain.type(form.days["last_frost", 90], "1 Jun")
    field = form.days["last_frost", 90]
    plain.type(form.zone, "8b")
    plain.document.undo_stack.undo()
    plain.document.select(["b1"])
    plain.document.select([])
    plain.window.docks.details.show_climate(True)  # the garden comes first again
    assert field.text() == "1 Jun"
    assert field.is_wrong
    assert len(reasons(form)) == 1
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == ""
    assert reasons(form) == []


def test_a_date_that_cannot_be_read_says_which_field_and_stays(plain: Hand) -> None:
    form = climate_form(plain)
    field = form.days["first_frost", 50]
    plain.type(field, "31 Sept")
    assert field.text() == "31 Sept"
    assert plain.message().startswith(
        "First frost of autumn, 50 % risk: '31 Sept' is a day that no calendar has."
    )
    assert reasons(form) == [plain.message()]


def test_a_date_is_taken_away_by_emptying_its_field(plain: Hand) -> None:
    form = climate_form(plain)
    plain.type(form.days["last_frost", 50], "25 Apr")
    plain.type(form.days["last_frost", 50], "")
    assert plain.garden.climate.last_frost is None


def test_dates_follow_the_habit_of_the_garden(plain: Hand, open_hand, monkeypatch) -> None:
    for name in ("LC_ALL", "LC_TIME", "LANG"):
        monkeypatch.delenv(name, raising=False)
    plain.type(climate_form(plain).days["last_frost", 50], "4/5")
    assert plain.garden.climate.last_frost.risk_50 == "05-04"
    feet = open_hand(garden(bed("b1"), site={"units": "feet_inches"}))
    feet.type(climate_form(feet).days["last_frost", 50], "4/5")
    assert feet.garden.climate.last_frost.risk_50 == "04-05"


def test_nothing_typed_goes_along_into_another_garden(plain: Hand) -> None:
    form = climate_form(plain)
    plain.type(form.days["last_frost", 50], "soon")
    plain.type(form.means.fields[0, 0], "1.5")
    plain.document.open(garden(bed("b2")))
    climate_form(plain)
    assert form.days["last_frost", 50].text() == ""
    assert form.means.fields[0, 0].text() == ""
    assert reasons(form) == []


# -- monthly means ----------------------------------------------------------------------------


def type_means(hand: Hand, low=LOW, high=HIGH) -> None:
    fields = climate_form(hand).means.fields
    for month, pair in enumerate(zip(low, high, strict=True)):
        for column, value in enumerate(pair):
            hand.type(fields[column, month], f"{value:g}", end=Qt.Key.Key_Tab)


@pytest.mark.parametrize("latitude", [52.0, -41.0])
def test_typed_means_are_those_a_garden_file_holds(open_hand, latitude) -> None:
    low, high = (LOW, HIGH) if latitude > 0 else (LOW[6:] + LOW[:6], HIGH[6:] + HIGH[:6])
    start = garden(bed("b1"), site={"latitude": latitude})
    hand = open_hand(start)
    type_means(hand, low, high)
    wanted = start.with_(climate=Climate(monthly_minimum=low, monthly_maximum=high))
    assert hand.garden == wanted == parse(dump(hand.garden))
    assert dump(hand.garden) == dump(wanted)


def test_means_of_a_garden_in_feet_are_in_fahrenheit(feet: Hand) -> None:
    low, high = [14 + 4.5 * m for m in range(12)], [32 + 4.5 * m for m in range(12)]
    type_means(feet, low, high)
    climate = feet.garden.climate
    assert climate.monthly_minimum == tuple(-10 + 2.5 * m for m in range(12))
    assert climate.monthly_maximum == tuple(2.5 * m for m in range(12))
    form = climate_form(feet)
    assert form.means.fields[0, 1].text() == "18.5"
    feet.document.select([])
    assert feet.garden.climate is climate


def test_means_wait_until_their_column_is_whole(plain: Hand) -> None:
    form = climate_form(plain)
    for month in range(11):
        plain.type(form.means.fields[0, month], str(month))
    assert plain.steps == 0
    plain.document.select(["b1"])
    plain.document.select([])
    plain.window.docks.details.show_climate(True)  # the garden comes first again
    assert [form.means.fields[0, month].text() for month in range(12)] == [f"{m}.0" for m in range(11)] + [""]
    assert form.means.state.text().startswith("11 means wait here")
    for month in range(11):  # walking through the fields changes nothing
        form.means.fields[0, month].setFocus()
        plain.key(Qt.Key.Key_Tab)
    assert form.means.state.text().startswith("11 means wait here")
    plain.type(form.means.fields[0, 11], "11")
    assert plain.garden.climate.monthly_minimum == tuple(map(float, range(12)))
    assert plain.garden.climate.monthly_maximum is None
    assert plain.steps == 1
    plain.document.undo_stack.undo()
    assert plain.garden.climate == Climate()


def test_a_minimum_above_its_maximum_waits_for_the_other(plain: Hand) -> None:
    type_means(plain)
    form, before = climate_form(plain), plain.garden
    low, high = form.means.fields[0, 6], form.means.fields[1, 6]
    plain.type(low, "25")
    assert plain.garden is before
    assert low.is_wrong
    assert low.text() == "25.0"
    assert (
        plain.message() == "July: the mean minimum 25.0 is above the mean maximum 22.9. Mend one of the two."
    )
    assert form.means.state.text() == plain.message()
    plain.type(form.means.fields[0, 0], "2")  # another month is stored meanwhile
    assert plain.garden.climate.monthly_minimum[0] == 2.0
    assert low.text() == "25.0"
    plain.type(high, "30")
    assert plain.garden.climate.monthly_minimum[6] == 25.0
    assert plain.garden.climate.monthly_maximum[6] == 30.0
    assert not low.is_wrong


def test_escape_gives_a_mean_up(plain: Hand) -> None:
    type_means(plain)
    field = climate_form(plain).means.fields[0, 6]
    plain.type(field, "25")
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == "12.6"
    assert not field.is_wrong
    assert climate_form(plain).means.state.text() == ""


def test_a_mean_that_cannot_be_read_stays(plain: Hand) -> None:
    form = climate_form(plain)
    field = form.means.fields[1, 2]
    plain.type(field, "warm")
    plain.type(form.means.fields[1, 3], "14")
    assert field.text() == "warm"
    assert field.is_wrong
    assert form.means.state.text().startswith("Mean maximum of March: 'warm' is no temperature.")


@pytest.mark.parametrize("mark", ["\t", ";"])
def test_a_table_is_pasted_into_any_field(plain: Hand, mark) -> None:
    form = climate_form(plain)
    text = "\n".join(f"{low}{mark}{high}" for low, high in zip(LOW, HIGH, strict=True))
    QGuiApplication.clipboard().setText(text)
    form.means.fields[1, 4].setFocus()
    plain.shortcut("Ctrl+V")
    assert plain.garden.climate == Climate(monthly_minimum=LOW, monthly_maximum=HIGH)
    assert plain.steps == 1


def test_one_column_is_pasted_into_its_own(plain: Hand) -> None:
    form = climate_form(plain)
    QGuiApplication.clipboard().setText("\n".join(map(str, HIGH)))
    form.means.fields[1, 0].setFocus()
    plain.shortcut("Ctrl+V")
    assert plain.garden.climate.monthly_maximum == HIGH
    QGuiApplication.clipboard().setText("\t".join(map(str, LOW)))
    form.means.paste_button.click()
    assert plain.garden.climate.monthly_minimum == LOW
    form.means.remove_button.click()
    assert plain.garden.climate == Climate()


def test_one_number_is_pasted_as_text(plain: Hand) -> None:
    field = climate_form(plain).means.fields[0, 0]
    QGuiApplication.clipboard().setText("4.5")
    field.setFocus()
    plain.shortcut("Ctrl+V")
    assert field.text() == "4.5"


def test_a_table_with_one_wrong_month_keeps_every_number(plain: Hand) -> None:
    form = climate_form(plain)
    high = (*HIGH[:6], 5.0, *HIGH[7:])
    QGuiApplication.clipboard().setText("\n".join(f"{a}\t{b}" for a, b in zip(LOW, high, strict=True)))
    form.means.paste_button.click()
    assert plain.steps == 0
    assert form.means.fields[1, 6].text() == "5.0"
    assert form.means.fields[1, 6].is_wrong
    plain.type(form.means.fields[1, 6], "22.9")
    assert plain.garden.climate == Climate(monthly_minimum=LOW, monthly_maximum=HIGH)
    assert plain.steps == 1


def test_rubbish_on_the_clipboard_is_told(plain: Hand) -> None:
    form = climate_form(plain)
    QGuiApplication.clipboard().setText("one\ttwo\nthree\tfour")
    form.means.paste_button.click()
    assert plain.steps == 0
    assert "Copy two columns" in plain.message()
    assert form.means.state.text() == plain.message()
