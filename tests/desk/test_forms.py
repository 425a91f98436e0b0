"""Typing in the forms: good values, bad ones, none; in metres and in feet."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import Hand, near, stand
from making import bed, garden, rectangle
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from planner.garden import Circle, Places, Stretch, Structure, edits
from planner.garden.edits import add_structure
from planner.garden.units import FOOT, INCH
from planner.storage import load

pytestmark = pytest.mark.one_window


def make(units: str = "metric"):
    made = garden(
        bed("b1", rectangle(center=(0.0, 2.0)), name="North"),
        bed("b2", rectangle(center=(0.0, -2.0)), name="South", kind="container", depth=0.4, height=0.4),
        bed("b3", Circle(center=(4.0, 0.0), radius=0.8), name="Round"),
        site={"units": units},
    )
    made, _ = stand(made, "b1", "carrot", plot={"kind": "stretch", "start": 1.0, "end": 3.0})
    made, _ = stand(made, "b2", "spinach", arrangement={"kind": "scatter", "density": 30})
    made, _ = add_structure(made, "arch", rectangle(2.0, 0.3, center=(-4.0, 0.0)), 2.3)
    return made


@pytest.fixture
def metric(open_hand) -> Hand:
    return open_hand(make())


@pytest.fixture
def same(reopen) -> Hand:
    """The garden, opened in a window that was used before."""
    return reopen(make())


@pytest.fixture
def feet(open_hand) -> Hand:
    return open_hand(make("feet_inches"))


FORMS = {
    "": "garden",
    "b1": "bed",
    "b2": "bed",
    "b3": "bed",
    "p1": "planting",
    "p2": "planting",
    "s1": "structure",
}


#: What a form calls fields whose own names Qt has taken.
CALLED = {"width": "wide", "height": "high", "depth": "deep", "x": "across", "y": "up"}


def field_of(hand: Hand, key: str, name: str):
    """A field of the form of a thing, which is selected for it."""
    hand.document.select([key] if key else [])
    return getattr(getattr(hand.window.docks.details, FORMS[key]), CALLED.get(name, name))


def value_of(hand: Hand, key: str, path: str):
    garden = hand.garden
    things = {**garden.beds_by_id, **garden.plantings_by_id, **garden.structures_by_id, "": garden.site}
    found = things[key]
    for part in path.split("."):
        found = getattr(found, part)
    return found


#: Key, field, what is typed, where it goes, what it becomes.
GOOD = [
    ("", "name", "My garden", "name", "My garden"),
    ("", "latitude", "51,5", "latitude", 51.5),
    ("", "latitude", "52° 12' N", "latitude", 52.2),
    ("", "latitude", "33.9 S", "latitude", -33.9),
    ("", "longitude", "-2.6°", "longitude", -2.6),
    ("", "longitude", "2° 36' W", "longitude", -2.6),
    ("", "bearing", "15", "bearing_up", 15.0),
    ("", "reach", "55 cm", "reach", 0.55),
    ("", "path", "0,5", "path_width", 0.5),
    ("b1", "name", "Top", "name", "Top"),
    ("b1", "length", "3,6", "outline.length", 3.6),
    ("b1", "length", "3.6 m", "outline.length", 3.6),
    ("b1", "width", "90 cm", "outline.width", 0.9),
    ("b1", "width", "4 ft", "outline.width", 4 * FOOT),
    ("b1", "turn", "12,5", "outline.turn", 12.5),
    ("b1", "x", "1.5", "outline.center", (1.5, 2.0)),
    ("b1", "y", "-1,5", "outline.center", (0.0, -1.5)),
    ("b1", "first", "2024", "first_year", 2024),
    ("b1", "last", "2030", "last_year", 2030),
    ("b2", "height", "45 cm", "height", 0.45),
    ("b2", "depth", "35 cm", "depth", 0.35),
    ("b2", "depth", "", "depth", None),
    ("b3", "radius", "1,1", "outline.radius", 1.1),
    ("p1", "variety", "Nantes", "variety", "Nantes"),
    ("p1", "in_row", "4", "arrangement.in_row_spacing", 0.04),
    ("p1", "in_row", "2,5", "arrangement.in_row_spacing", 0.025),
    ("p1", "between", "0.3 m", "arrangement.row_spacing", 0.3),
    ("p1", "rows", "3", "arrangement.rows", 3),
    ("p1", "edge", "10", "arrangement.edge", 0.1),
    ("p1", "turn", "90", "arrangement.turn", 90.0),
    ("p1", "plot_start", "0.5", "plot.start", 0.5),
    ("p1", "plot_end", "4,0", "plot.end", 4.0),
    ("p1", "first", "2026-05-09", "first", dt.date(2026, 5, 9)),
    ("p1", "first", "9 May 2026", "first", dt.date(2026, 5, 9)),
    ("p1", "first", "25 Apr", "first", dt.date(2026, 4, 25)),
    ("p1", "first", "4/5", "first", dt.date(2026, 5, 4)),
    ("p1", "last", "09.10.2026", "last", dt.date(2026, 10, 9)),
    ("p1", "last", "9.10.", "last", dt.date(2026, 10, 9)),
    ("p1", "picked", "8/25", "pinned_dates.first_harvest", dt.date(2026, 8, 25)),
    ("p1", "tended", "Ada", "tended_by", "Ada"),
    ("p2", "density", "42,5", "arrangement.density", 42.5),
    ("s1", "name", "Rose arch", "name", "Rose arch"),
    ("s1", "length", "2,4", "outline.length", 2.4),
    ("s1", "width", "40cm", "outline.width", 0.4),
    ("s1", "turn", "90", "outline.turn", 90.0),
    ("s1", "height", "2,5", "height", 2.5),
    ("s1", "clear", "2.2", "clear_height", 2.2),
    ("s1", "clearance", "0,2", "clearance", 0.2),
]  # fmt: skip


@pytest.mark.parametrize(("key", "name", "text", "path", "value"), GOOD)
def test_a_good_value_becomes_one_step(same: Hand, key, name, text, path, value) -> None:
    field = field_of(same, key, name)
    same.type(field, text)
    found = value_of(same, key, path)
    assert found == pytest.approx(value) if isinstance(value, (float, tuple)) else found == value
    assert same.steps == 1
    assert not field.is_wrong
    assert same.document.selection == ((key,) if key else ())
    same.document.undo_stack.undo()
    assert same.garden == make()


FEET = [
    ("b1", "length", "12", "outline.length", 12 * FOOT),
    ("b1", "length", "12' 6\"", "outline.length", 12.5 * FOOT),
    ("b1", "width", "4 ft 3 1/2 in", "outline.width", 4 * FOOT + 3.5 * INCH),
    ("b1", "width", "1,1 m", "outline.width", 1.1),
    ("p1", "in_row", "3", "arrangement.in_row_spacing", 3 * INCH),
    ("p1", "between", "1 ft", "arrangement.row_spacing", FOOT),
    ("", "reach", "2", "reach", 2 * FOOT),
]


@pytest.mark.parametrize(("key", "name", "text", "path", "value"), FEET)
def test_lengths_are_typed_in_feet_and_inches(feet: Hand, key, name, text, path, value) -> None:
    feet.type(field_of(feet, key, name), text)
    assert value_of(feet, key, path) == pytest.approx(value, abs=1e-6)
    assert feet.steps == 1


BAD = [
    ("", "latitude", "95"),
    ("", "latitude", "north"),
    ("", "latitude", "52 E"),
    ("", "longitude", "nan"),
    ("", "bearing", "inf"),
    ("", "reach", "-1"),
    ("", "name", "x" * 300),
    ("b1", "name", "South"),
    ("b1", "name", "x" * 300),
    ("b1", "length", "long"),
    ("b1", "length", "0"),
    ("b1", "length", "1e3"),
    ("b1", "width", "-1"),
    ("b1", "width", "99999"),
    ("b1", "x", "1.2.3"),
    ("b1", "x", "999999"),
    ("b1", "turn", "left"),
    ("b1", "turn", "nan"),
    ("b1", "first", "1.5"),
    ("b1", "first", "1e999"),
    ("b1", "last", "12"),
    ("b2", "depth", "-5 cm"),
    ("b3", "radius", "0"),
    ("p1", "in_row", "0"),
    ("p1", "in_row", "1/0"),
    ("p1", "between", "99 km"),
    ("p1", "rows", "0"),
    ("p1", "rows", "two"),
    ("p1", "plot_start", "9"),
    ("p1", "plot_end", "1.0"),
    ("p1", "first", "31.02.2026"),
    ("p1", "last", "31.12.9999"),
    ("p1", "variety", "x" * 300),
    ("p2", "density", "0"),
    ("p2", "density", "-inf"),
    ("s1", "height", "-1"),
    ("s1", "length", "nothing"),
    ("s1", "width", "0"),
]


@pytest.mark.parametrize(("key", "name", "text"), BAD)
def test_a_bad_value_is_told_in_a_line_and_marked_and_changes_nothing(same: Hand, key, name, text) -> None:
    before = same.garden
    field = field_of(same, key, name)
    same.type(field, text)
    assert same.garden is before
    assert same.steps == 0
    assert field.is_wrong
    assert field.text() == text
    told = same.message()
    assert 10 < len(told) < 600
    assert "\n" not in told
    assert "Error" not in told
    assert "%s" not in told
    beside = [
        label for label in same.window.findChildren(QLabel) if label.isVisible() and label.text() == told
    ]
    assert len(beside) == 2  # the status line, and the reason beside the field
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert not field.is_wrong
    assert field.text() != text


NOT_EMPTY = [("", "name"), ("", "reach"), ("b1", "name"), ("b1", "length"), ("b1", "x"), ("p1", "plot_end"),
             ("p2", "density"), ("s1", "height")]  # fmt: skip


@pytest.mark.parametrize(("key", "name"), NOT_EMPTY)
def test_an_emptied_field_that_may_not_be_empty_shows_its_value_again(metric: Hand, key, name) -> None:
    field = field_of(metric, key, name)
    shown = field.text()
    metric.type(field, "")
    assert field.text() == shown
    assert metric.steps == 0
    assert not field.is_wrong


def test_leaving_a_field_untouched_changes_nothing(open_hand) -> None:
    odd = garden(bed("b1", rectangle(1.23456, 0.98765), name="Odd"))
    hand = open_hand(odd)
    field = field_of(hand, "b1", "length")
    field.setFocus()
    for _ in range(6):
        hand.key(Qt.Key.Key_Tab)
    assert hand.garden is odd


def test_leaving_a_field_takes_what_was_typed(metric: Hand) -> None:
    metric.type(field_of(metric, "b1", "length"), "3", end=Qt.Key.Key_Tab)
    assert metric.bed("North").outline.length == 3.0


def test_a_mended_value_takes_the_mark_away(metric: Hand) -> None:
    field = field_of(metric, "b1", "width")
    metric.type(field, "0")
    assert field.is_wrong
    metric.type(field, "1.1")
    assert not field.is_wrong
    assert metric.bed("North").outline.width == 1.1
    metric.type(field, "oh")
    metric.type(field, "1.10 m")  # typed back as it was
    assert not field.is_wrong
    assert metric.steps == 1


def test_a_bad_value_left_behind_does_not_reach_another_bed(metric: Hand) -> None:
    field = field_of(metric, "b1", "width")
    metric.type(field, "wide")
    metric.document.select(["b2"])
    assert not field.is_wrong
    assert field.text() == "1.20 m"
    assert metric.steps == 0
    metric.document.select(["b1"])  # there it waits
    assert field.is_wrong
    assert field.text() == "wide"
    metric.document.open(make())
    metric.document.select(["b1"])
    assert field.text() == "1.20 m"


def test_a_bad_value_stays_while_another_field_is_changed(metric: Hand) -> None:
    field = field_of(metric, "b1", "width")
    metric.type(field, "wide")
    metric.type(field_of(metric, "b1", "length"), "3")
    metric.document.undo_stack.undo()
    assert field.is_wrong
    assert field.text() == "wide"


def test_an_error_names_its_field(metric: Hand) -> None:
    metric.type(field_of(metric, "p1", "first"), "soon")
    assert metric.message() == "First day: 'soon' is no day. Type one like 25 Apr, 25.4. or 2027-04-25."
    metric.type(field_of(metric, "", "latitude"), "52 E")
    assert metric.message().startswith("Latitude: '52 E' is a longitude")


def test_a_place_is_pasted_as_maps_write_it(metric: Hand) -> None:
    metric.type(field_of(metric, "", "latitude"), "+48.8577+002.295/")
    assert (metric.garden.site.latitude, metric.garden.site.longitude) == (48.8577, 2.295)
    assert field_of(metric, "", "latitude").text() == "48.8577° N"
    assert metric.steps == 1


def test_a_day_without_a_year_means_the_growing_year(open_hand) -> None:
    made = garden(bed("b1", name="North"), site={"first_month": 10})
    made, _ = edits.add_planting(made, "b1", "garlic", 2026)
    hand = open_hand(made)
    hand.type(field_of(hand, "p1", "first"), "12 Oct")
    hand.type(field_of(hand, "p1", "last"), "25 Jul")
    planting = hand.garden.plantings[0]
    assert (planting.first, planting.last) == (dt.date(2026, 10, 12), dt.date(2027, 7, 25))


def test_a_last_day_without_a_year_comes_after_the_first(open_hand) -> None:
    made = garden(bed("b1", name="North"))
    made, _ = edits.add_planting(made, "b1", "garlic", 2026, first=dt.date(2026, 10, 12))
    hand = open_hand(made)
    hand.type(field_of(hand, "p1", "last"), "25 Jul")
    assert hand.garden.plantings[0].last == dt.date(2027, 7, 25)


def test_days_are_typed_month_first_in_feet(feet: Hand, monkeypatch) -> None:
    for name in ("LC_ALL", "LC_TIME", "LANG"):
        monkeypatch.delenv(name, raising=False)
    feet.type(field_of(feet, "p1", "first"), "4/5")
    assert feet.garden.plantings[0].first == dt.date(2026, 4, 5)
    monkeypatch.setenv("LC_TIME", "en_GB.UTF-8")
    feet.type(field_of(feet, "p1", "first"), "4/5/26")
    assert feet.garden.plantings[0].first == dt.date(2026, 5, 4)


CHOICES = [
    ("", "unit", "feet_inches", "units"),
    ("", "month", 7, "first_month"),
    ("b1", "kind", "raised", "kind"),
    ("p1", "start", "raised", "start"),
    ("p1", "purpose", "store", "purpose"),
    ("p1", "arrangement", "staggered", "arrangement.kind"),
    ("p1", "arrangement", "scatter", "arrangement.kind"),
    ("p1", "arrangement", "places", "arrangement.kind"),
    ("p1", "support", "net", "support.kind"),
    ("s1", "kind", "fence", "kind"),
]


@pytest.mark.parametrize(("key", "name", "value", "path"), CHOICES)
def test_a_choice_becomes_the_documents(same: Hand, key, name, value, path) -> None:
    same.choose(field_of(same, key, name), value)
    assert value_of(same, key, path) == value
    assert same.document.undo_stack.canUndo()


def test_a_cover_is_chosen_and_taken_off(metric: Hand) -> None:
    box = field_of(metric, "p1", "covers").kind
    metric.choose(box, "fleece")
    assert [cover.kind for cover in metric.garden.plantings[0].covers] == ["fleece"]
    metric.choose(box, None)
    assert metric.garden.plantings[0].covers == ()


def test_rows_kept_as_places_keep_their_number(metric: Hand) -> None:
    before = metric.document.plan.placed(metric.garden.plantings[0]).plants
    metric.choose(field_of(metric, "p1", "arrangement"), "places")
    planting = metric.garden.plantings[0]
    assert isinstance(planting.arrangement, Places)
    assert metric.document.plan.placed(planting).plants == before > 50


def test_notes_are_taken_when_the_focus_leaves(metric: Hand) -> None:
    notes = field_of(metric, "b1", "notes")
    notes.setFocus()
    QTest.keyClicks(notes, "Dry in June")
    assert metric.steps == 0
    metric.key(Qt.Key.Key_Tab)
    assert metric.bed("North").notes == "Dry in June"
    assert metric.steps == 1


def test_notes_that_are_too_long_are_kept_in_the_field(metric: Hand) -> None:
    notes = field_of(metric, "b1", "notes")
    text = "x" * 20_001
    notes.setFocus()
    notes.setPlainText(text)
    metric.key(Qt.Key.Key_Tab)
    assert metric.bed("North").notes == ""
    assert metric.message()
    assert notes.toPlainText() == text


def test_the_form_follows_an_edit_made_elsewhere(metric: Hand) -> None:
    field = field_of(metric, "b1", "x")
    assert field.text() == "0.00 m"
    metric.view.setFocus()
    metric.key(Qt.Key.Key_Right)
    assert field.text() == "0.10 m"


def test_the_counts_are_live(metric: Hand) -> None:
    form = metric.window.docks.details.planting
    metric.type(field_of(metric, "p1", "in_row"), "10")
    plants = metric.document.plan.placed(metric.garden.plantings[0]).plants
    assert f"{plants} plants" in form.counts.text()


def test_last_day_before_the_first_is_refused(metric: Hand) -> None:
    metric.type(field_of(metric, "p1", "first"), "2026-06-01")
    before = metric.garden
    last = field_of(metric, "p1", "last")
    metric.type(last, "2026-05-01")
    assert metric.garden is before
    assert last.is_wrong


@pytest.mark.own_window
def test_a_planting_with_the_farthest_days_can_be_shown(metric: Hand) -> None:
    metric.type(field_of(metric, "p1", "last"), "31.12.2400")
    metric.type(field_of(metric, "p1", "first"), "01.01.1800")
    assert metric.steps == 2
    metric.drop("onion", [(0.0, 2.0)], let_go=False)
    metric.view.cancel_gesture()
    metric.window.grab()


def test_a_polygon_bed_shows_no_length(open_hand) -> None:
    from planner.garden import Polygon

    hand = open_hand(garden(bed("b1", Polygon(points=((0, 0), (2, 0), (0, 2))), name="Corner")))
    hand.document.select(["b1"])
    form = hand.window.docks.details.bed
    assert not form.length.isVisible()
    assert not form.radius.isVisible()
    hand.type(form.turn, "30")
    assert hand.bed("Corner").outline.turn == 30
    assert near(hand.bed("Corner").outline.center, (0.0, 0.0))


def test_the_sides_and_corners_of_a_polygon_are_typed(open_hand) -> None:
    from planner.garden import Polygon

    ring = ((0, 0), (4, 0), (4, 1.2), (1.2, 1.2), (1.2, 2.5), (0, 2.5))
    hand = open_hand(garden(bed("b1", Polygon(points=ring), name="Corner")))
    hand.document.select(["b1"])
    sizes = hand.window.docks.details.bed.sizes
    hand.choose(sizes.side, 1)
    assert (sizes.side_length.text(), sizes.angle.text()) == ("1.20 m", "90°")
    hand.type(sizes.side_length, "90 cm")  # the other three sides that go across move along
    wanted = ((0, 0), (4, 0), (4, 0.9), (1.2, 0.9), (1.2, 2.5), (0, 2.5))
    assert all(near(a, b) for a, b in zip(hand.bed("Corner").outline.points, wanted, strict=True))
    assert sizes.side.currentText() == "2: 0.90 m"
    hand.type(sizes.angle, "95")
    assert hand.steps == 2
    hand.type(sizes.side_length, "0")
    assert sizes.side_length.is_wrong
    assert hand.steps == 2


def test_length_is_the_longer_side(open_hand) -> None:
    hand = open_hand(garden(bed("b1", rectangle(1.2, 4.8), name="Upright")))
    hand.document.select(["b1"])
    form = hand.window.docks.details.bed
    assert (form.length.text(), form.wide.text()) == ("4.80 m", "1.20 m")
    hand.type(form.length, "5")
    assert near((hand.bed("Upright").outline.length, hand.bed("Upright").outline.width), (1.2, 5.0))


# -- light of a structure ---------------------------------------------------------------------


@pytest.fixture
def tunnel(open_hand) -> Hand:
    """A window with a tunnel as it was drawn."""
    made, _ = add_structure(garden(bed("b1"), site={"latitude": 52.0}), "tunnel", rectangle(8, 4), 2.2)
    hand = open_hand(made)
    hand.document.select(["s1"])
    return hand


def light_of(hand: Hand) -> tuple[str, tuple[float, ...]]:
    (structure,) = hand.garden.structures
    return structure.material, structure.opacity


def test_a_drawn_tunnel_says_what_it_lets_through_and_who_says_so(tunnel: Hand) -> None:
    form = tunnel.window.docks.details.structure
    assert form.material.currentText() == "usual: clear film, one layer"
    assert form.through.text() in ("85 %", "86 %")
    total, film, hoops = form.light.text().splitlines()
    assert total == f"Lets {form.through.text()} of the direct sun through."
    assert film.startswith("clear film, one layer: 90 %. Source: Demchak")
    assert hoops == "hoops without a cover: 95 %, an estimate."


def test_a_material_is_chosen_and_the_usual_one_again(tunnel: Hand) -> None:
    form = tunnel.window.docks.details.structure
    tunnel.choose(form.material, "bare_frame")
    assert light_of(tunnel) == ("bare_frame", ())
    assert form.through.text() == "95 %"
    tunnel.choose(form.material, "")
    assert light_of(tunnel) == ("", ())
    assert tunnel.steps == 2


def test_an_own_value_is_typed_and_given_up_again(tunnel: Hand) -> None:
    form = tunnel.window.docks.details.structure
    tunnel.type(form.through, "87,5")
    assert light_of(tunnel) == ("", (0.125,))
    assert form.material.currentText() == "own value"
    assert form.through.text() == "87.5 %"
    assert form.light.text().splitlines() == [
        "Lets 87.5 % of the direct sun through.",
        "This is an own value of this structure.",
    ]
    tunnel.choose(form.material, "insect_net")
    assert light_of(tunnel) == ("insect_net", ())


def test_own_value_begins_with_what_is_let_through_now(tunnel: Hand) -> None:
    form = tunnel.window.docks.details.structure
    tunnel.choose(form.material, "own value")
    through = float(form.through.text().rstrip(" %")) / 100
    assert light_of(tunnel)[1] == (pytest.approx(1 - through),)


@pytest.mark.parametrize("text", ["101", "-1", "most"])
def test_no_share_of_the_sun_is_marked(tunnel: Hand, text: str) -> None:
    form = tunnel.window.docks.details.structure
    before = tunnel.garden
    tunnel.type(form.through, text)
    assert tunnel.garden is before
    assert form.through.is_wrong
    assert form.through.text() == text


def test_another_kind_is_made_of_its_own_materials(tunnel: Hand) -> None:
    form = tunnel.window.docks.details.structure
    tunnel.choose(form.material, "twin_wall")
    tunnel.choose(form.kind, "tree")
    assert light_of(tunnel) == ("", ())
    assert form.material.currentText() == "usual: deciduous tree"
    assert form.through.text() == "19 to 51 %"
    assert "in January" in form.light.text()
    tunnel.choose(form.kind, "wall")
    assert form.light.text().splitlines() == [
        "Lets none of the direct sun through.",
        "solid wall: 0 %, by its form.",
    ]


def test_the_spacing_is_chosen_between_beds_field_rows_and_ones_own(open_hand) -> None:
    made, key = stand(
        garden(bed("b1", rectangle(4.8, 1.2))), "b1", "cabbage", arrangement={"kind": "staggered"}
    )
    hand = open_hand(made)
    choice, form = field_of(hand, key, "spacing"), hand.window.docks.details.planting

    def now():
        return hand.garden.plantings_by_id[key].arrangement

    def plants() -> int:
        return hand.document.plan.placed(hand.garden.plantings_by_id[key]).plants

    assert choice.currentText() == "field rows"
    assert "For beds 41.9 cm in all directions" in form.published.text()
    assert "In field rows 40 × 61 cm" in form.published.text()
    assert "Intensive Gardening Methods" in form.published.toolTip()
    hand.choose(choice, "beds")
    assert (now().kind, now().spacing_for, now().in_row_spacing) == ("staggered", "beds", None)
    assert plants() == 32
    hand.choose(choice, "own")
    assert now().in_row_spacing == pytest.approx(0.4191, abs=1e-4)
    assert plants() == 32
    assert choice.currentText() == "of your own"
    hand.type(field_of(hand, key, "in_row"), "50")
    assert (now().in_row_spacing, choice.currentText()) == (0.5, "of your own")
    hand.choose(choice, "field rows")
    assert (now().spacing_for, now().in_row_spacing, now().row_spacing) == ("field rows", None, None)
    assert hand.step == "Choose the spacing"


def test_a_crop_without_a_spacing_for_beds_says_so(open_hand) -> None:
    made, key = stand(garden(bed("b1", rectangle(4.8, 1.2))), "b1", "thyme")
    hand = open_hand(made)
    field_of(hand, key, "spacing")
    assert "No spacing for beds is known of thyme" in hand.window.docks.details.planting.published.text()


def test_a_support_stands_in_several_lines(open_hand) -> None:
    made, key = stand(garden(bed("b1", rectangle(4.8, 1.2))), "b1", "raspberry", support={"kind": "wire"})
    hand = open_hand(made)
    form = hand.window.docks.details.planting

    def support():
        return hand.garden.plantings_by_id[key].support

    field = field_of(hand, key, "lines")
    assert field.placeholderText() == "one a row"
    hand.type(field, "3")
    hand.type(form.lines_apart, "35")
    assert (support().lines, support().line_spacing) == (3, pytest.approx(0.35))
    built = hand.document.plan.built_support(hand.garden.plantings_by_id[key])
    assert [round(float(line.centroid.y), 6) for line in built.lines] == [-0.35, 0.0, 0.35]
    hand.type(field, "")
    assert support().lines is None
    hand.type(field, "0")
    assert support().lines is None


def test_the_form_names_the_arch_that_beans_climb(open_hand) -> None:
    outline = rectangle(0.8, 4.4, center=(0.0, 0.9), turn=90.0)
    arch = Structure(id="s1", kind="arch", name="Bean arch", outline=outline, height=2.3)
    strip = {"kind": "region", "points": [(-2.4, 0.4), (2.4, 0.4), (2.4, 0.6), (-2.4, 0.6)]}
    made, key = stand(
        garden(bed("b1", rectangle(4.8, 1.2)), structures=(arch,)), "b1", "runner_bean", plot=strip
    )
    hand = open_hand(made)
    hand.document.select([key])
    assert hand.window.docks.details.planting.materials.text() == "Climbs the arch “Bean arch” beside it"


def test_going_to_a_forms_first_field_brings_its_top_into_view(open_hand, qapp) -> None:
    made, key = stand(garden(bed("b1", rectangle(), name="North")), "b1", "carrot")
    hand = open_hand(made)
    hand.window.resize(1000, 640)
    hand.document.select([key])
    qapp.processEvents()
    bar = hand.window.docks.details.verticalScrollBar()
    assert bar.maximum() > 0
    bar.setValue(bar.maximum())
    hand.window.docks.show_details()
    assert bar.value() == 0


def half_typed(open_hand) -> tuple[Hand, str, str]:
    """A window in which a note on the first of two plantings is being typed, and the ids of both."""
    made, one = stand(
        garden(bed("b1", rectangle(), name="North")), "b1", "carrot", plot=Stretch(start=0, end=1)
    )
    made, other = stand(made, "b1", "leek", plot=Stretch(start=1, end=2))
    hand = open_hand(made)
    hand.document.select([one])
    notes = hand.window.docks.details.planting.notes
    notes.setFocus()
    QTest.keyClicks(notes, "half a word")
    return hand, one, other


@pytest.mark.parametrize("then", ["another", "nothing", "several"])
def test_a_half_typed_note_stays_with_its_planting_when_the_selection_changes(open_hand, then) -> None:
    hand, one, other = half_typed(open_hand)
    hand.document.select({"another": [other], "nothing": [], "several": [one, other]}[then])
    hand.window.docks.crops.search.setFocus()
    texts = {planting.id: planting.notes for planting in hand.garden.plantings}
    assert texts == {one: "half a word", other: ""}


def test_a_half_typed_note_goes_with_a_planting_that_is_deleted(open_hand) -> None:
    hand, one, other = half_typed(open_hand)
    hand.document.edit("Delete", lambda g: edits.remove(g, [one]))
    hand.document.select([other])
    hand.window.docks.crops.search.setFocus()
    assert [(planting.id, planting.notes) for planting in hand.garden.plantings] == [(other, "")]


def test_tubers_and_bought_plants_say_in_which_state_they_are_planted(open_hand):
    made, potato = stand(garden(bed("b1", rectangle())), "b1", "potato", start="tubers")
    hand = open_hand(made)
    tubers, bought = (field_of(hand, potato, "states")[start] for start in ("tubers", "bought"))
    assert (tubers.isVisibleTo(tubers.parent()), bought.isVisibleTo(bought.parent())) == (True, False)
    assert tubers.currentText() == "sprouted"
    hand.choose(tubers, "unsprouted")
    assert hand.document.garden.plantings[0].state == "unsprouted"
    hand.document.edit("Start", lambda g: edits.change_planting(g, potato, start="bought"))
    assert (tubers.isVisibleTo(tubers.parent()), bought.isVisibleTo(bought.parent())) == (False, True)
    assert bought.currentText() == "usual size", "a state of tubers says nothing of bought plants"
    hand.document.edit("Start", lambda g: edits.change_planting(g, potato, start="sown"))
    assert not any(field.isVisibleTo(field.parent()) for field in (tubers, bought))


def test_ways_to_a_bed_are_told_a_moment_after_it_is_selected(open_hand, qtbot) -> None:
    hand = open_hand(load("sample_gardens/hollow_lane.bedwright"))
    hand.document.select([hand.document.plan.beds[0].id])
    form = hand.window.docks.details.bed
    qtbot.waitUntil(lambda: "on foot from the gate" in form.under.text())
    hand.document.select([hand.document.plan.beds[1].id])
    assert "on foot" not in form.under.text()
    qtbot.waitUntil(lambda: "on foot from the gate" in form.under.text())
