"""bedwright sheets --weeks."""

from __future__ import annotations

import os

import pytest
from work_garden import GARDEN

from planner.storage import save


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "plot.bedwright"
    save(GARDEN, path)
    return str(path)


def test_week_sheets_are_a_pdf(bedwright, file, tmp_path):
    out = tmp_path / "w.pdf"
    code, printed, _ = bedwright(
        "sheets", file, "-o", str(out), "--weeks", "--year", "2025", "--bed", "north"
    )
    assert (code, printed) == (0, f"{out}: week sheets for 2025-01-01 to 2025-12-31\n")
    assert out.read_bytes().startswith(b"%PDF-")
    bedwright(
        "sheets", file, "-o", str(tmp_path / "v.pdf"), "--weeks", "--from", "2025-04-07", "--to", "2025-04-13"
    )
    assert 0 < (tmp_path / "v.pdf").stat().st_size < out.stat().st_size


def test_week_sheets_of_those_who_tend_it(bedwright, refused, tmp_path):
    import pypdfium2

    plantings = [one.with_(tended_by="Ada" if one.id == "p1" else "Ben") for one in GARDEN.plantings]
    path, out = str(tmp_path / "shared.bedwright"), str(tmp_path / "w.pdf")
    save(GARDEN.with_(plantings=tuple(plantings)), path)
    assert bedwright("sheets", path, "-o", out, "--weeks", "--year", "2025", "--tended-by", "ben")[0] == 0
    with pypdfium2.PdfDocument(out) as pdf:
        text = " ".join(page.get_textpage().get_text_range() for page in pdf)
    assert "tended by Ben" in text
    assert "garlic" in text
    assert "carrot" not in text
    assert "--tended-by goes with --weeks" in refused("sheets", path, "-o", out, "--tended-by", "Ben")


def test_bed_sheets_of_a_year_without_plantings_are_refused(refused, file, tmp_path):
    said = refused("sheets", file, "-o", str(tmp_path / "b.pdf"), "--year", "2040")
    assert "Plot: nothing is planted in 2040. Years with plantings: 2025 and 2026." in said


def test_week_sheets_that_are_refused(refused, file, tmp_path):
    out = str(tmp_path / "w.pdf")
    assert "--from and --to go with --weeks" in refused("sheets", file, "-o", out, "--from", "2025-04-07")
    assert "no work falls on 1 Jan 2030 to 31 Dec 2030" in refused(
        "sheets", file, "-o", out, "--weeks", "--year", "2030"
    )
    assert "is the garden file itself" in refused("sheets", file, "-o", file, "--weeks")
    assert not os.path.exists(out)


def test_kinds_of_sheets_by_name(bedwright, refused, file, tmp_path):
    named, short, shopping = (str(tmp_path / f"{name}.pdf") for name in ("named", "short", "shopping"))
    bedwright("sheets", file, "-o", named, "--kind", "week", "--year", "2025")
    bedwright("sheets", file, "-o", short, "--weeks", "--year", "2025")
    with open(named, "rb") as one, open(short, "rb") as other:
        assert one.read() == other.read()
    code, printed, _ = bedwright("sheets", file, "-o", shopping, "--kind", "shopping", "--year", "2025")
    assert (code, printed) == (0, f"{shopping}: shopping list for 2025\n")
    assert "not allowed with" in refused("sheets", file, "-o", named, "--weeks", "--kind", "bed")
    assert "invalid choice: 'walls'" in refused("sheets", file, "-o", named, "--kind", "walls")
    whole = "the shopping list is of the whole garden. Leave --bed out."
    assert whole in refused("sheets", file, "-o", named, "--kind", "shopping", "--bed", "north")
    assert "nothing is to be bought for 1999" in refused(
        "sheets", file, "-o", named, "--kind", "shopping", "--year", "1999"
    )
