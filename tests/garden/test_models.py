"""The document refuses impossible values with a reason."""

from __future__ import annotations

import datetime as dt
import math

import pytest
from making import bed, crop, garden, planting, rectangle
from pydantic import ValidationError
from shapes_zoo import RINGS

from planner.garden import (
    Bed,
    Circle,
    Climate,
    Cover,
    Garden,
    Lot,
    OwnFigure,
    Places,
    Planting,
    Polygon,
    Rectangle,
    Region,
    Rows,
    Site,
    Stretch,
    Structure,
    Variety,
    Waiver,
)
from planner.garden.planting_figures import PlantingFigures
from planner.garden.site import FrostDates

MARCH, MAY = dt.date(2026, 3, 1), dt.date(2026, 5, 1)
BOWTIE = ((0, 0), (2, 2), (2, 0), (0, 2))

REFUSED = [
    (lambda: Polygon(points=BOWTIE), "crosses or touches itself near (1.00, 1.00); move a corner"),
    (lambda: Region(points=BOWTIE), "crosses or touches itself"),
    (lambda: Polygon(points=((0, 0), (1, 0), (2, 0))), "crosses or touches itself|encloses 0.0000 m2"),
    (lambda: Polygon(points=((0, 0), (0.01, 0), (0, 0.01))), "encloses 0.0001 m2; a bed needs at least 0.001 m2"),
    (lambda: Polygon(points=((0, 0), (1, 0))), "at least 3"),
    (lambda: Polygon(points=((0, 0), (math.nan, 0), (1, 1))), "finite"),
    (lambda: Polygon(points=((0, 0), (20_000, 0), (1, 1))), "less than or equal to 10000"),
    (lambda: Rectangle(length=math.inf, width=1), "finite"),
    (lambda: Rectangle(length=math.nan, width=1), "finite"),
    (lambda: Rectangle(length=0, width=1), "greater than or equal to 0.02"),
    (lambda: Rectangle(length=1, width=1, turn=361), "less than or equal to 360"),
    (lambda: Circle(radius=-1), "greater than or equal to 0.02"),
    (lambda: Stretch(start=2, end=2), "has no length; its end must lie at least 0.01 m beyond its start"),
    (lambda: Stretch(start=-1, end=2), "greater than or equal to 0"),
    (lambda: Stretch(start=0, end=math.nan), "finite"),
    (lambda: Rows(in_row_spacing=0), "greater than or equal to 0.002"),
    (lambda: Rows(rows=0), "greater than or equal to 1"),
    (lambda: Rows(edge=math.nan), "finite"),
    (lambda: Places(points=()), "at least 1"),
    (lambda: bed(name=""), "at least 1 character"),
    (lambda: bed(name="two\nlines"), "must be one line without control characters"),
    (lambda: bed(name="two\u2028lines"), "must be one line"),
    (lambda: bed(name="x" * 201), "at most 200 characters"),
    (lambda: bed(name="\ud800"), "string"),
    (lambda: bed("no spaces"), "match pattern"),
    (lambda: bed(first_year=2020, last_year=2019), "last_year is before first_year"),
    (lambda: bed(colour="red"), "not permitted"),
    (lambda: bed(access=("top",)), "'start', 'end', 'left' or 'right'"),
    (lambda: Structure(id="s", kind="wall", outline=rectangle(), height=2, opacity=(1, 1)), "one number, or twelve"),
    (lambda: Structure(id="s", kind="arch", outline=Circle(radius=1), height=2), "needs a rectangular outline"),
    (lambda: Structure(id="s", kind="arch", outline=rectangle(0.2, 1), height=2), "leave no span between them"),
    (lambda: planting(first=MAY, last=MARCH), "the last day 2026-03-01 is before the first 2026-05-01"),
    (lambda: planting(year=1492), "greater than or equal to 1800"),
    (lambda: planting(start="thrown"), "'sown'"),
    (lambda: planting(plot={"kind": "corner"}), "'whole', 'stretch', 'region'"),
    (lambda: Cover(kind="fleece", first=MAY, last=MARCH), "last day 2026-03-01 is before its first 2026-05-01"),
    (lambda: OwnFigure(field="taste", value=1), "'taste' is no figure of a crop; known are least_night_temperature"),
    (lambda: OwnFigure(field="germination", value=1.2), "1.2 is outside 0 to 1"),
    (lambda: OwnFigure(field="in_row_spacing", value=math.nan), "finite"),
    (
        lambda: Variety(id="v", crop="carrot", name="n", figures=[OwnFigure(field="height", value=1)] * 2),
        "gives height twice",
    ),
    (lambda: Lot(id="l", crop="carrot", germination=1.5), "less than or equal to 1"),
    (lambda: Site(latitude=91), "less than or equal to 90"),
    (lambda: Site(first_month=13), "less than or equal to 12"),
    (lambda: FrostDates(risk_10="02-30", risk_50="05-01", risk_90="05-02"), "'02-30' is no day of the year"),
    (lambda: FrostDates(risk_10="9 May", risk_50="05-01", risk_90="05-02"), "write month and day as MM-DD, as 05-09"),
    (lambda: garden(bed(), bed()), "the id 'b1' is given twice"),
    (lambda: garden(bed("p1"), planting(bed="p1")), "the id 'p1' is given twice"),
    (lambda: garden(bed("b2"), planting()), "planting 'p1' stands in bed 'b1', which is not in the garden"),
    (lambda: Garden(beds=tuple(bed(f"b{i}") for i in range(20_001))), "at most 20000"),
]  # fmt: skip


@pytest.mark.parametrize(("make", "words"), REFUSED)
def test_an_impossible_value_is_refused_with_a_reason(make, words):
    with pytest.raises(ValidationError) as caught:
        make()
    assert any(choice in str(caught.value) for choice in words.split("|"))


@pytest.mark.parametrize("name", sorted(RINGS))
def test_every_ring_of_the_zoo_is_an_outline(name):
    assert Polygon(points=tuple(RINGS[name])).points == tuple(RINGS[name])


@pytest.mark.parametrize(
    "name", ["Bed 1", "O'Brien's \"long\" bed", "Грядка", "畦", "🥕", "<b>&amp;", "=SUM(A1)"]
)
def test_names_of_any_script_are_accepted(name):
    assert bed(name=name).name == name


def test_models_are_frozen_and_checked_when_changed():
    one = bed()
    with pytest.raises(ValidationError, match="frozen"):
        one.name = "other"  # type: ignore[misc]
    assert one.with_(name="other").name == "other"
    assert one.name == "b1"
    with pytest.raises(ValidationError):
        one.with_(name="")


def test_an_empty_garden_is_a_garden():
    empty = Garden()
    assert (empty.beds, empty.years(), list(empty.ids())) == ((), (), [])


def test_in_use_from_the_first_year_to_the_last():
    one = bed(first_year=2024, last_year=2026)
    assert [year for year in range(2022, 2030) if one.in_use(year)] == [2024, 2025, 2026]
    assert bed().in_use(1800)


def test_the_growing_year_begins_in_july_in_the_south():
    assert [Site(latitude=lat).year_begins for lat in (51.0, 0.0, -41.0)] == [1, 1, 7]
    assert Site(latitude=-41.0, first_month=5).year_begins == 5
    assert Site().year_begins == 1


def test_a_planting_finds_its_own_variety_whatever_the_case():
    own = Variety(
        id="v1", crop="carrot", name="Early Nantes", figures=(OwnFigure(field="height", value=0.4),)
    )
    one = garden(bed(), planting(variety="early nantes"), varieties=(own,))
    assert one.own_variety(one.plantings[0]) is own
    assert own.number("height") == 0.4
    assert own.number("spread") is None
    assert isinstance(one.beds[0], Bed)
    assert isinstance(one.plantings[0], Planting)


def test_frost_dates_may_lie_weeks_apart_and_in_two_years():
    wide = FrostDates(risk_90="12-20", risk_50="02-01", risk_10="05-30")
    assert Climate(last_frost=wide).last_frost == wide
    with pytest.raises(ValueError, match="the last frost dates are in the wrong order"):
        Climate(last_frost=FrostDates(risk_90="05-30", risk_50="02-01", risk_10="12-20"))
    with pytest.raises(ValueError, match="the first frost dates are in the wrong order"):
        Climate(first_frost=wide)


@pytest.mark.parametrize("step", ["sow", "set_out"])
def test_the_last_day_is_not_before_a_pinned_start(step):
    with pytest.raises(ValueError, match="the last day 2026-03-01 is before its start 2026-05-01"):
        planting(last=MARCH, pinned_dates={step: MAY})
    assert planting(last=MAY, pinned_dates={step: MAY}).last == MAY


def test_a_variety_s_figure_of_nought_is_its_own():
    own = Variety(id="v1", crop="carrot", name="x", figures=(OwnFigure(field="sowing_depth", value=0.0),))
    figures = PlantingFigures(crop(sowing_depth=0.013, height=0.3), own)
    assert figures.number("sowing_depth") == 0.0
    assert figures.number("height") == 0.3
    assert PlantingFigures(None, own).number("height") is None


def test_notes_hold_lines_and_no_control_characters():
    """A damaged file, or a table, may bring them; paper and calendars cannot hold them."""
    assert planting(notes="a\0b\r\nc\td\x1b[1m\re\u2028f").notes == "ab\nc\td[1m\ne\nf"
    assert Waiver(finding="reach/b1/0123456789ab", reason="old\x00").reason == "old"
    assert Waiver(finding="reach/b1/0123456789ab", reason="\x00").reason == "-"
