"""bedwright pocket."""

from __future__ import annotations

import json
import re
import shutil

from sample_reading import FOLDER

BALCONY = str(FOLDER / "balcony_boxes.bedwright")


def data_of(page: str) -> dict:
    return json.loads(re.search(r'id="data">(.*?)</script>', page, re.DOTALL)[1])


def test_it_writes_one_page_for_the_growing_year(bedwright, tmp_path):
    out = tmp_path / "garden.html"
    code, said, err = bedwright("pocket", BALCONY, "-o", str(out), "--day", "20 May")
    assert (code, err) == (0, "")
    assert said.startswith(f"{out}: Balcony boxes from 1 Jan 2026 to 31 Dec 2026, ")
    data = data_of(out.read_text("utf-8"))
    assert (data["first"], data["last"], data["day"]) == ("2026-01-01", "2026-12-31", "2026-05-20")
    assert len(data["beds"]) == 3
    assert bedwright("pocket", BALCONY, "-o", str(out))[0] == 0, "over its older self"
    assert data_of(out.read_text("utf-8"))["day"] == ""


def test_it_goes_to_standard_output(bedwright):
    code, page, _ = bedwright("pocket", BALCONY, "-o", "-", "--year", "2027")
    assert code == 0
    assert data_of(page)["year"] == "2027"


def test_nothing_else_is_overwritten(refused, tmp_path):
    file = str(tmp_path / "plot.bedwright")
    shutil.copy(BALCONY, file)
    other = tmp_path / "mine.html"
    other.write_text("<!doctype html><p>mine")
    assert "another kind" in refused("pocket", file, "-o", str(other))
    assert "ends with .html" in refused("pocket", file, "-o", str(tmp_path / "garden.pdf"))
    assert "is the garden file itself" in refused("pocket", file, "-o", file)
    assert "is no day" in refused("pocket", file, "-o", "-", "--day", "soon")
    assert other.read_text() == "<!doctype html><p>mine"
