"""What plantings are coloured by, and the legend of it."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.checks.rested import rested_years
from planner.desk.model.colouring import SCALES_OFFERED, Colouring, hours_of_sun, stage_on
from planner.desk.model.document import Document
from planner.garden import Garden
from planner.sheets.class_inks import SCALES
from planner.sheets.family_inks import family_ink


def make() -> Garden:
    """Carrots after carrots, beside lettuce that somebody tends."""
    return garden(
        bed("b1", name="North"),
        bed("b2", name="South"),
        planting("old", year=2024, first=dt.date(2024, 5, 1), last=dt.date(2024, 8, 20)),
        planting("again", year=2026, first=dt.date(2026, 4, 10), last=dt.date(2026, 9, 20)),
        planting("new", bed="b2", crop="lettuce", year=2026, first=dt.date(2026, 4, 10), tended_by="Ida"),
        site={"latitude": 52.0},
    )


@pytest.fixture
def document(qapp) -> Document:
    made = Document(make())
    made.show_year(2026)
    made.show_day(dt.date(2026, 6, 1))
    yield made
    made.end()


def inks(document: Document, colouring: Colouring) -> dict[str, str]:
    return {p.id: colouring.ink_of(document.plan, p, document.day) for p in document.plan.plantings}


def test_each_scale_gives_every_planting_an_ink_of_its_legend(document: Document, qtbot) -> None:
    colouring = Colouring(document)
    for scale in SCALES_OFFERED:
        if scale in ("sun", "rotation"):
            with qtbot.waitSignal(colouring.changed, timeout=5000):
                colouring.choose(scale)
            qtbot.waitUntil(lambda: not inks(document, colouring)["again"].endswith(("unknown", "unasked")))
        colouring.choose(scale)
        legend = {meaning.ink for meaning in colouring.meanings()}
        assert set(inks(document, colouring).values()) <= legend
        assert all(meaning.words for meaning in colouring.meanings())
    colouring.stop()


def test_the_rest_from_the_family_is_told_apart(document: Document) -> None:
    rests = rested_years(document.plan)
    assert rests["again"].ago == 2
    assert rests["new"].ago is None
    assert rests["again"].wanted >= 2


def test_more_people_than_hatches_share_them_and_the_legend_says_so(qapp) -> None:
    people = [f"Person {number:02}" for number in range(14)]
    plantings = [
        planting(f"p{number}", bed="b1", crop="lettuce", year=2026, tended_by=name)
        for number, name in enumerate(people)
    ]
    document = Document(garden(bed("b1"), *plantings))
    document.show_year(2026)
    colouring = Colouring(document)
    colouring.choose("tended")
    shown = [colouring.ink_of(document.plan, one, None) for one in document.garden.plantings]
    assert len(set(shown[:12])) == 12
    assert len({family_ink(ink).hatch for ink in shown[:12]}) == 12
    meanings = {one.ink: one.words for one in colouring.meanings()}
    assert meanings["tended/1"] == "Person 00 and Person 12"
    assert meanings["tended/2"] == "Person 01 and Person 13"
    assert meanings["tended/3"] == "Person 02"
    document.end()


def test_people_and_water_have_inks(document: Document) -> None:
    colouring = Colouring(document)
    colouring.choose("tended")
    assert inks(document, colouring) == {"again": "tended/nobody", "new": "tended/1"}
    colouring.choose("water")
    assert inks(document, colouring) == {"again": "water/same", "new": "water/same"}


def test_a_stage_follows_the_day(document: Document) -> None:
    dates = document.plan.dates(document.garden.plantings_by_id["again"])
    assert dates.first_harvest is not None
    assert dates.last_harvest is not None
    days = (
        dt.date(2026, 4, 1),
        dt.date(2026, 4, 20),
        dates.first_harvest.day,
        dt.date(2026, 10, 1),
    )
    assert [stage_on(dates, day) for day in days] == list(SCALES["stage"])


def test_hours_of_sun_are_those_of_open_ground(document: Document) -> None:
    hours = hours_of_sun(document.plan)
    assert hours.keys() == {"again", "new"}
    assert all(
        10 < each < 17 for each in hours.values()
    )  # between equinox and midsummer at 52 N, nothing shades


def test_the_menu_colours_the_sheet(open_hand, qapp) -> None:
    hand = open_hand(make())
    hand.document.show_year(2026)
    hand.document.show_day(dt.date(2026, 6, 1))
    hand.window.action("colour tended").trigger()
    painted = hand.window.view.sheet.beds["b2"].painted[0]
    assert painted.ink == "tended/1"
    legend = hand.window.pages.colour_legend
    assert [one.words for one in legend.shown] == ["Ida", "nobody named"]
    assert legend.accessibleDescription() == "Tended by: Ida and nobody named"
