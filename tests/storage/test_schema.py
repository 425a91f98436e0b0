"""The published schema and the program agree, as an independent validator sees it."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner import resources
from planner.garden import (
    Bed,
    Circle,
    Climate,
    Cover,
    Dressing,
    FrostDates,
    Garden,
    Lot,
    Offer,
    OwnFigure,
    Places,
    Planting,
    PlantingStock,
    Polygon,
    Rectangle,
    Region,
    Rows,
    Scatter,
    ShedItem,
    Site,
    StaggeredRows,
    Stretch,
    Structure,
    Support,
    Variety,
    Whole,
)
from planner.storage import FileError, dump, garden_schema, parse

SCHEMA = garden_schema()
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA, format_checker=jsonschema.FormatChecker())

# One garden with everything in it, and small pieces to make others of.
FROST = FrostDates(risk_10="05-20", risk_50="05-09", risk_90="04-25")
FULL = Garden(
    site=Site(name="Plot", latitude=56.0, outline=Polygon(points=((0, 0), (20, 0), (20, 10)))),
    climate=Climate(last_frost=FROST, first_frost=FrostDates(risk_10="10-02"), monthly_minimum=(1.5,) * 12),
    beds=(
        Bed(id="b1", name="North", outline=Rectangle(length=3, width=1.2, center=(1, 2), turn=30)),
        Bed(id="b2", name="Tub", outline=Circle(radius=0.4), kind="container", depth=0.4, access=("start",)),
    ),
    structures=(
        Structure(id="s1", kind="tree", outline=Circle(radius=2), height=6, opacity=(0.5,) * 12),
        Structure(id="s2", kind="arch", outline=Rectangle(length=2, width=0.5), height=2.4),
        Structure(
            id="s3", kind="tunnel", material="twin_wall", outline=Rectangle(length=4, width=3), height=2.2
        ),
    ),
    plantings=(
        Planting(
            id="p1",
            bed="b1",
            crop="carrot",
            year=2025,
            variety="Long",
            plot=Stretch(start=0, end=1),
            covers=(Cover(kind="fleece", held="hoops", height=0.5, weight=30),),
            support=Support(kind="net"),
        ),
        Planting(id="p2", bed="b2", crop="kale", year=2025, arrangement=Places(points=((0, 0),))),
        Planting(id="p3", bed="b1", crop="kale", year=2026, arrangement=StaggeredRows(), plot=Whole()),
    ),
    varieties=(
        Variety(id="v1", crop="carrot", name="Long", figures=(OwnFigure(field="height", value=0.4),)),
    ),
    stock=(Lot(id="l1", crop="carrot", grams=2.5, packed=2024),),
    planting_stock=(PlantingStock(id="g1", crop="potato", kind="tubers", number=20, year=2026),),
    offers=(Offer(id="o1", crop="carrot", grams=1, price=2.4, shop="by post"),),
    dressings=(Dressing(id="d1", bed="b1", kind="compost", day="2026-03-01", depth=0.02),),
    shed=(ShedItem(id="m1", kind="fleece", length=10, width=2, weight=17),),
)


def content(garden: Garden) -> dict[str, Any]:
    read: dict[str, Any] = json.loads(dump(garden))
    return read


def test_the_schema_is_one():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("garden", [Garden(), FULL], ids=["empty", "full"])
def test_gardens_are_valid(garden):
    VALIDATOR.validate(content(garden))
    assert parse(dump(garden)) == garden


@pytest.mark.parametrize(
    "path", sorted(resources.sample_folder().glob("*.bedwright")), ids=lambda path: path.stem
)
def test_sample_gardens_are_valid(path):
    VALIDATOR.validate(json.loads(path.read_text(encoding="utf-8")))


def wrongly(change) -> dict[str, Any]:
    fields = content(FULL)
    change(fields)
    return fields


@pytest.mark.parametrize(
    "change",
    [
        lambda f: f.pop("format"),
        lambda f: f.pop("schema"),
        lambda f: f.update(schema=3),
        lambda f: f.update(schema=0),
        lambda f: f.update(colour="red"),
        lambda f: f["site"].update(latitude=91),
        lambda f: f["site"].update(latitude="56"),
        lambda f: f["beds"][0].update(colour="red"),
        lambda f: f["beds"][0].pop("name"),
        lambda f: f["beds"][0].update(name=""),
        lambda f: f["beds"][0].update(id="with space"),
        lambda f: f["beds"][0].update(kind="flying"),
        lambda f: f["beds"][0]["outline"].pop("shape"),
        lambda f: f["beds"][0]["outline"].update(length=0),
        lambda f: f["beds"][0]["outline"].update(length=True),
        lambda f: f["beds"][0]["outline"].update(radius=1),
        lambda f: f["structures"][0].update(opacity=[1.5]),
        lambda f: f["structures"][0].update(opacity=0.5),
        lambda f: f["structures"][2].update(material=None),
        lambda f: f["structures"][2].update(material="x" * 201),
        lambda f: f["plantings"][0].update(year="2025"),
        lambda f: f["plantings"][0].update(first="next week"),
        lambda f: f["plantings"][0].update(first=20250501),
        lambda f: f["plantings"][1]["arrangement"].update(points=[]),
        lambda f: f["plantings"][1]["arrangement"].update(points=[[0, 0, 0]]),
        lambda f: f["climate"].update(monthly_minimum=[1.0] * 11),
        lambda f: f["climate"]["last_frost"].update(risk_50="May 9"),
        lambda f: f["climate"].update(first_frost={}),
        lambda f: f["climate"].update(first_frost={"risk_10": None}),
        lambda f: f["stock"][0].update(grams=-1),
        lambda f: f.update(beds={}),
    ],
)
def test_wrong_files_are_refused_by_both(change):
    fields = wrongly(change)
    assert not VALIDATOR.is_valid(fields)
    with pytest.raises(FileError):
        parse(json.dumps(fields))


names = st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")), min_size=1, max_size=12)
metres = st.floats(min_value=-9_999, max_value=9_999)
points = st.tuples(metres, metres)
sides = st.floats(min_value=0.02, max_value=50)
spacings = st.none() | st.floats(min_value=0.002, max_value=5)
angles = st.floats(min_value=-360, max_value=360)

outlines = st.one_of(
    st.builds(Rectangle, center=points, turn=angles, length=sides, width=sides),
    st.builds(Circle, center=points, radius=sides),
    st.builds(
        lambda at, a, b: Polygon(center=at, points=((0, 0), (a, 0), (a, b), (0, b))),
        points,
        st.floats(min_value=0.1, max_value=50),
        st.floats(min_value=0.1, max_value=50),
    ),
)
plots = st.one_of(
    st.just(Whole()),
    st.builds(lambda a, b: Stretch(start=a, end=a + b), st.floats(0, 9), st.floats(0.02, 9)),
    st.builds(lambda a: Region(points=((0, 0), (a, 0), (a, a))), st.floats(0.1, 9)),
)
arrangements = st.one_of(
    st.builds(Rows, in_row_spacing=spacings, row_spacing=spacings, rows=st.none() | st.integers(1, 99)),
    st.builds(StaggeredRows, in_row_spacing=spacings, turn=angles),
    st.builds(Scatter, density=st.floats(min_value=0.01, max_value=99_999)),
    st.builds(Places, points=st.lists(points, min_size=1, max_size=4).map(tuple)),
)


@st.composite
def gardens(draw) -> Garden:
    shapes = draw(st.lists(outlines, max_size=4))
    beds = tuple(Bed(id=f"b{i}", name=draw(names), outline=shape) for i, shape in enumerate(shapes))
    count = draw(st.integers(0, 4)) if beds else 0
    plantings = tuple(
        Planting(
            id=f"p{i}",
            bed=draw(st.sampled_from(beds)).id,
            crop=draw(names),
            variety=draw(st.just("") | names),
            plot=draw(plots),
            arrangement=draw(arrangements),
            year=draw(st.integers(1800, 2400)),
            first=draw(st.none() | st.dates()),
            shares_ground=draw(st.booleans()),
            notes=draw(st.text(max_size=20)),
        )
        for i in range(count)
    )
    return Garden(
        site=Site(name=draw(names), outline=draw(st.none() | outlines)), beds=beds, plantings=plantings
    )


@given(gardens())
def test_what_is_written_is_read_again(garden):
    text = dump(garden)
    assert parse(text.encode()) == garden
    assert dump(parse(text)) == text
    VALIDATOR.validate(json.loads(text))
