"""bedwright crops: one crop, several, and how complete their figures are."""

from __future__ import annotations

import json

import pytest


def test_one_crop_with_its_sources(bedwright, catalogue):
    code, out, _ = bedwright("crops", "carrots")
    assert code == 0
    assert out.startswith("carrot (Daucus carota")
    crop = catalogue.crops["carrot"]
    row = next(line for line in out.splitlines() if line.split()[:1] == ["in_row_spacing"])
    assert row.split()[1:3] == [f"{crop.in_row_spacing.value:g}", "m"]
    line = next(
        line for line in out.splitlines() if catalogue.source_line(crop.in_row_spacing.source) in line
    )
    assert line.split()[0] in row.split(), "the number of the publication"


def test_several_crops_are_listed(bedwright):
    _, out, _ = bedwright("crops", "bean")
    assert "broad bean" in out
    assert "runner bean" in out
    assert "Name one to see its figures" in out


def test_all_crops(bedwright, catalogue):
    assert f"{len(catalogue.crops)} crops." in bedwright("crops")[1]
    every = json.loads(bedwright("crops", "--json")[1])["crops"]
    assert [crop["crop"] for crop in every] == list(catalogue.crops)
    for crop in every:
        for figure in crop["figures"].values():
            assert figure["citation"] or not figure["applies"]


def test_crop_as_json(bedwright, catalogue):
    (found,) = json.loads(bedwright("crops", "carrot", "--json")[1])["crops"]
    spacing, figure = found["figures"]["in_row_spacing"], catalogue.crops["carrot"].in_row_spacing
    assert (spacing["value"], spacing["unit"], spacing["source"]) == (figure.value, "m", figure.source)
    assert spacing["citation"] == catalogue.source_line(figure.source)
    assert set(found["figures"]) | set(found["not_known"]) == set(cli_fields())


def cli_fields() -> tuple[str, ...]:
    from planner.crops.crop import ENTRY_FIELDS

    return ENTRY_FIELDS


def test_one_typing_error_is_forgiven(bedwright):
    assert bedwright("crops", "parnsip")[1].startswith("parsnip (")
    assert bedwright("crops", "zuchini")[1].startswith("courgette (")


def test_coverage_counts_every_figure(bedwright, catalogue):
    code, out, _ = bedwright("crops", "--coverage")
    assert code == 0
    lines = out.splitlines()
    assert lines[0] == f"{len(catalogue.crops)} crops, {len(cli_fields())} fields"
    carrot = next(line.split() for line in lines if line.split()[:1] == ["carrot"])
    assert sum(map(int, carrot[1:8])) == len(carrot[8]) == len(cli_fields())
    (height,) = (line.split() for line in lines if line.startswith("  * height "))
    assert sum(map(int, height[2:9])) == len(catalogue.crops)
    assert "Driving figures printed or chosen: " in lines[-1]


def test_coverage_as_json(bedwright, catalogue):
    found = json.loads(bedwright("crops", "--coverage", "--json")[1])
    assert found["crops"] == len(catalogue.crops) == len(found["by_crop"])
    whole = len(catalogue.crops) * len(cli_fields())
    words = ("printed", "chosen", "derived", "practice", "estimate", "missing", "does_not_apply")
    assert sum(found["total"][word] for word in words) == whole
    for word in words:
        assert sum(one[word] for one in found["by_crop"].values()) == found["total"][word]
        assert sum(one[word] for one in found["by_field"].values()) == found["total"][word]
        driving = [found["by_field"][field][word] for field in found["driving_fields"]]
        assert sum(driving) == found["driving"][word]
    driving = found["driving"]
    whole = sum(driving[word] for word in words) - driving["does_not_apply"]
    in_print = driving["printed"] + driving["chosen"]
    assert driving["printed_or_chosen_share"] == pytest.approx(in_print / whole, abs=5.1e-4)
    assert driving["published_share"] == pytest.approx((in_print + driving["derived"]) / whole, abs=5.1e-4)


def test_coverage_of_some_crops(bedwright):
    found = json.loads(bedwright("crops", "carrot", "--coverage", "--json")[1])
    assert list(found["by_crop"]) == ["carrot"]
    assert found["by_crop"]["carrot"]["provenance"]["height"] in ("printed", "chosen", "derived")


def test_crop_that_is_not_known(refused):
    assert refused("crops", "zzzzqqq") == (
        "bedwright: no crop is called 'zzzzqqq'. bedwright crops lists all there are.\n"
    )
    assert refused("crops", "brocolli").endswith("Did you mean 'broccoli'?\n")


def test_own_crops_of_a_garden(bedwright, tmp_path):
    from making import bed, garden

    from planner.garden import OwnFigure
    from planner.garden import edits as e
    from planner.storage import save

    document, source = e.put_source(garden(bed("b1")), title="Shore walks", year=1988)
    figure = OwnFigure(field="height", value=0.8, source=source)
    document, _ = e.put_crop(document, name="Sea beet", like="chard", figures=(figure,))
    path = tmp_path / "own.bedwright"
    save(document, path)
    code, out, _ = bedwright("crops", "sea beet", "--garden", str(path))
    assert code == 0
    assert "key: own_sea_beet" in out
    assert "1988. Shore walks" in out
    (found,) = json.loads(bedwright("crops", "sea beet", "--garden", str(path), "--json")[1])["crops"]
    assert found["figures"]["height"]["citation"] == "1988. Shore walks"
