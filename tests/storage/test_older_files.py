"""Files of earlier versions are read with what they meant."""

from __future__ import annotations

import json

import pytest

from planner.storage.document import dump, parse
from planner.storage.file_error import FileError

HEAD = {"format": "bedwright garden", "schema": 1}


def read(**fields):
    return parse(json.dumps({**HEAD, **fields}))


@pytest.mark.parametrize("chosen", [True, False])
def test_the_choice_how_ripening_is_reckoned_is_no_more(chosen: bool) -> None:
    garden = read(climate={"by_heat": chosen, "zone": "8a"})
    assert garden.climate.zone == "8a"
    assert "by_heat" not in dump(garden)


def test_a_variety_keeps_its_heat_under_the_name_of_today() -> None:
    figures = [{"field": "heat", "value": 700.0}, {"field": "height", "value": 1.2}]
    garden = read(varieties=[{"id": "v1", "crop": "sweet_corn", "name": "Ours", "figures": figures}])
    assert [(one.field, one.value) for one in garden.varieties[0].figures] == [
        ("heat_to_harvest", 700.0),
        ("height", 1.2),
    ]
    assert parse(dump(garden)) == garden


@pytest.mark.parametrize("wrong", [{"climate": 3}, {"varieties": [3]}, {"varieties": [{"figures": 3}]}])
def test_what_has_another_shape_is_refused_with_its_place(wrong: dict) -> None:
    with pytest.raises(FileError, match=next(iter(wrong))):
        read(**wrong)
