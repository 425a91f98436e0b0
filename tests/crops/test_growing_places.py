"""Climates in which days to maturity were counted: the shipped file, and files that are broken."""

from __future__ import annotations

import pytest
from making import catalogue_of, crop, write_catalogue

from planner.crops import Catalogue, CatalogueError, load_catalogue
from planner.crops.figures import ESTIMATE, PRACTICE
from planner.crops.growing_places import growing_places

#: Fields that count days from sowing or setting out to the first harvest.
COUNTED = ("days_to_maturity", "days_early", "days_late")

SOURCES = '[book]\ntitle = "A book"\n'
CROPS = """
family = "Apiaceae"
[carrot]
name = "carrot"
latin = "Daucus carota"
life_cycle = "biennial"
growth_form = "root"
"""
PLACE = """
[vale]
name = "a vale"
latitude = 51.0
monthly_minimum = [0.0, 0.0, 2.0, 4.0, 7.0, 10.0, 12.0, 12.0, 10.0, 7.0, 3.0, 1.0]
monthly_maximum = [6.0, 7.0, 10.0, 13.0, 17.0, 20.0, 22.0, 22.0, 19.0, 14.0, 9.0, 7.0]
last_frost = "04-28"
first_frost = "10-20"
source = "book"
basis = "printed"
"""
GOOD = PLACE + '[measured_at]\ndefault = "vale"\n'


def shelf(folder, text):
    write_catalogue(folder, SOURCES, apiaceae=CROPS)
    if text is not None:
        (folder / "growing_places.toml").write_text(text, encoding="utf-8")
    return load_catalogue(folder)


def sources_of_days(catalogue: Catalogue) -> set[str]:
    """Keys of all sources that a crop's days to maturity rest on."""
    figures = [getattr(crop, field) for crop in catalogue.crops.values() for field in COUNTED]
    given = [figure for figure in figures if figure is not None and figure.applies]
    return {figure.source for figure in given} | {one.source for figure in given for one in figure.other}


def days_apart(first: str, second: str) -> int:
    """Days from one day MM-DD to the next time of another, in months of 30.4 days."""
    at = [(int(day[:2]) - 1) * 30.4 + int(day[3:]) for day in (first, second)]
    return round(at[1] - at[0]) % 365


def test_every_source_of_days_to_maturity_has_a_place(catalogue):
    named = growing_places(catalogue).of_sources
    used = sources_of_days(catalogue)
    assert len(used) > 100
    assert used - set(named) == set()


def test_the_temperatures_of_every_place_have_a_source(catalogue):
    for place in growing_places(catalogue).places.values():
        assert place.source in (*catalogue.sources, PRACTICE, ESTIMATE), place.key
        assert place.note, place.key


def test_every_place_has_warm_summers_and_days_warmer_than_nights(catalogue):
    for place in growing_places(catalogue).places.values():
        ranges = [high - low for low, high in zip(place.monthly_minimum, place.monthly_maximum, strict=True)]
        assert min(ranges) >= 3.0, place.key
        assert max(ranges) <= 20.0, place.key
        warmest = place.monthly_maximum.index(max(place.monthly_maximum)) + 1
        if abs(place.latitude) > 23.5:
            assert warmest in ((12, 1, 2) if place.latitude < 0 else (6, 7, 8)), place.key


def test_frosts_come_at_mean_minima_near_five_degrees(catalogue):
    """A frost in half of the years lies where the mean minimum is some degrees above freezing."""
    for place in growing_places(catalogue).places.values():
        if place.last_frost is None:
            continue
        assert 100 <= days_apart(place.last_frost, place.first_frost) <= 290, place.key
        for day in (place.last_frost, place.first_frost):
            month, part = int(day[:2]) - 1, (int(day[3:]) - 15) / 30
            beside = (month + (1 if part > 0 else -1)) % 12
            low = place.monthly_minimum
            mean = low[month] + (low[beside] - low[month]) * abs(part)
            assert 2.0 <= mean <= 9.0, (place.key, day, mean)


def test_places_of_extension_guides_are_where_these_are_published(catalogue):
    found = growing_places(catalogue)
    assert found.measured_at("mu_g6201").key == "central_missouri"
    assert found.measured_at("uiuc_vegguide").key == "central_illinois"
    assert found.measured_at("uga_chart").key == "north_georgia"
    assert found.measured_at("rhs_veg_az").key == "england"
    assert found.measured_at("a seed house nobody knows") is found.default


def test_cool_crops_of_the_south_are_started_in_autumn(catalogue):
    """Planting tables of Florida and of autumn guides count in falling temperatures."""
    found = growing_places(catalogue)
    assert found.measured_at("uf_sp103").cool_start == "10-01"
    autumn = found.measured_at("tsu_anr3")
    assert autumn.key == found.measured_at("utk_sp291o").key
    assert autumn.cool_start == "08-10"
    assert found.measured_at("utk_sp291o").cool_start is None


def test_warmer_places_lie_nearer_to_the_equator(catalogue):
    """Missouri's growing season is warmer than Maine's, Florida's winter warmer than England's."""
    places = growing_places(catalogue).places
    assert places["central_missouri"].monthly_minimum[6] > places["maine"].monthly_minimum[6] + 4
    assert places["north_florida"].monthly_minimum[0] > places["england"].monthly_minimum[0] + 2


def test_a_catalogue_put_together_by_hand_has_the_shipped_places(catalogue):
    assert growing_places(catalogue_of(crop("potato"))) is growing_places(catalogue)


def test_a_good_file_is_read_once_and_its_starts_are_those_of_the_source(tmp_path):
    found = shelf(tmp_path, GOOD + 'book = { place = "vale", warm_start = "06-01" }\n')
    assert growing_places(found) is growing_places(found)
    places = growing_places(found)
    assert places.measured_at("book") == places.places["vale"].model_copy(update={"warm_start": "06-01"})
    assert places.measured_at("other") == places.places["vale"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (None, "growing_places.toml: is missing"),
        ("[vale\n", "growing_places.toml: is not TOML"),
        (PLACE, "growing_places.toml, measured_at: must be a table of places by source, with a default"),
        ("vale = 1\n[measured_at]\n", "growing_places.toml, vale: must be a table of a place"),
        (GOOD.replace('"book"', '"bok"'), "growing_places.toml, vale, source: unknown source key 'bok'"),
        (
            GOOD.replace("12.0, 10.0, 7.0", "25.0, 10.0, 7.0"),
            "vale, the place: month 8: the minimum 25 is above",
        ),
        (GOOD.replace("3.0, 1.0]", "3.0]"), "growing_places.toml, vale, monthly_minimum: Tuple should have"),
        (GOOD.replace('"04-28"', '"28 Apr"'), "vale, last_frost: '28 Apr' is no day of the year"),
        (GOOD.replace('"04-28"', '"02-30"'), "vale, last_frost: '02-30' is no day of the year"),
        (
            GOOD.replace('"04-28"', '"11-28"'),
            "vale, the place: its last frost 11-28 and first frost 10-20 are in",
        ),
        (
            GOOD.replace("51.0", "-51.0"),
            "vale, the place: its last frost 04-28 and first frost 10-20 are in the",
        ),
        (GOOD.replace('last_frost = "04-28"\n', ""), "vale, the place: has one of its two frosts"),
        (
            GOOD.replace('last_frost = "04-28"\nfirst_frost = "10-20"\n', ""),
            "vale, the place: has no frost from which its starts would follow",
        ),
        (
            GOOD.replace('"printed"', '"estimate"'),
            "vale, the place: its basis is estimate, yet it names a source",
        ),
        (
            GOOD.replace('default = "vale"', 'default = "hill"'),
            "measured_at, default: 'hill' is none of its places",
        ),
        (GOOD + 'bok = "vale"\n', "growing_places.toml, measured_at, bok: unknown source key"),
        (GOOD + "book = { start = 1 }\n", "growing_places.toml, measured_at, book, place: Field required"),
    ],
)
def test_faults_are_named_by_file_place_and_field(tmp_path, text, words):
    found = shelf(tmp_path, text)
    with pytest.raises(CatalogueError) as caught:
        growing_places(found)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)
