"""Stake labels: measured on the page by another reader, their codes read by another library."""

from __future__ import annotations

import io

import numpy as np
import pypdfium2
import pytest
import zxingcpp

from planner import resources
from planner.amounts.begun import begun_in_year
from planner.plan import Plan
from planner.sheets.label_formats import LabelFormatError, label_format, label_formats
from planner.sheets.label_sheets import Shift, write_calibration, write_stake_labels
from planner.sheets.output import SheetError
from planner.sheets.stake_labels import stake_labels
from planner.storage import load
from tests.sheets.paper_reading import MM, Paper

#: A sheet of 30 labels of 2 5/8 x 1 in as its edges are printed on it: 3/16 in at the left, 1/2 in at the top, 2 3/4 in from
#: label to label; one of 21 labels of 63.5 x 38.1 mm: 66 mm from label to label, in the middle of A4.
MEASURED = {
    "letter-3x10": (0.1875 * 25.4, 0.5 * 25.4, 2.75 * 25.4, 25.4),
    "a4-3x7": ((210 - 2 * 66.0 - 63.5) / 2, (297 - 7 * 38.1) / 2, 66.0, 38.1),
}


@pytest.fixture(scope="module")
def plan() -> Plan:
    return Plan(load(resources.sample_folder() / "hollow_lane.bedwright"), 2026)


def written(plan: Plan, name: str, **choices) -> bytes:
    stream = io.BytesIO()
    write_stake_labels(plan, stream, label_format(name), **choices)
    return stream.getvalue()


@pytest.mark.parametrize("name", sorted(MEASURED))
@pytest.mark.parametrize("shift", [Shift(), Shift(1.5, -0.8)])
def test_frames_lie_where_the_labels_of_the_sheet_are(name, shift):
    left, top, across, down = MEASURED[name]
    stream, form = io.BytesIO(), label_format(name)
    write_calibration(stream, form, shift)
    with Paper(stream.getvalue()) as paper:
        frames = [
            one for one in paper.paths(0) if abs(one[2] - one[0] - form.width) < 0.5 and one[3] - one[1] > 20
        ]
    assert len(frames) == form.number
    for number, (x, y, right, high) in enumerate(sorted(frames, key=lambda one: (-round(one[3], 1), one[0]))):
        row, column = divmod(number, form.across)
        middle = (
            left + column * across + form.width / 2,
            form.on.height - top - row * down - form.height / 2,
        )
        assert (x + right) / 2 == pytest.approx(middle[0] + shift.right, abs=0.05)
        assert (y + high) / 2 == pytest.approx(middle[1] + shift.up, abs=0.05)
        assert high - y == pytest.approx(form.height, abs=0.45)  # with the line's own width


@pytest.mark.parametrize("name", ["a4-3x8", "a4-strips", "letter-2x5"])
def test_codes_say_what_their_labels_mean(plan, name):
    with pypdfium2.PdfDocument(written(plan, name, codes=True)) as document:
        read = [
            one.text
            for page in document
            for one in zxingcpp.read_barcodes(page.render(scale=4).to_pil(), zxingcpp.BarcodeFormat.QRCode)
        ]
    labels = stake_labels(plan)
    assert len(read) == len(labels)
    for label in labels:
        assert any(text in read for text in label.codes), label


def test_every_planting_begun_in_the_year_has_one_label_with_its_name_and_bed(plan):
    labels = stake_labels(plan)
    assert len(labels) == len(begun_in_year(plan))
    with Paper(written(plan, "a4-3x8")) as paper:
        words = paper.texts()
    for label in labels:
        assert label.name in words
        assert label.lines[0] in words


def test_rows_have_labels_of_their_own(plan):
    rows = {p.id: len(plan.placed(p).layout.rows) for p in begun_in_year(plan)}
    assert len(stake_labels(plan, per_row=True)) == sum(max(1, count) for count in rows.values())


def test_used_labels_stay_free(plan):
    form = label_format("a4-3x8")
    with Paper(written(plan, "a4-3x8", used=5)) as paper:
        page = paper.document[0].get_textpage()
        boxes = [page.get_rect(n) for n in range(page.count_rects())]
    for number in range(form.number):
        x, y = form.corner(number)
        inside = [b for b in boxes if x <= b[0] * MM <= x + form.width and y <= b[1] * MM <= y + form.height]
        assert bool(inside) == (number >= 5), number


def test_text_stays_on_its_label(plan):
    for name, form in label_formats().items():
        with Paper(written(plan, name)) as paper:
            for page in paper.document:
                text = page.get_textpage()
                for n in range(text.count_rects()):
                    left, low, right, high = (edge * MM for edge in text.get_rect(n))
                    assert any(
                        x - 0.1 <= left
                        and right <= x + form.width + 0.1
                        and y - 0.1 <= low
                        and high <= y + form.height + 0.1
                        for x, y in map(form.corner, range(form.number))
                    ), (name, text.get_text_bounded(*text.get_rect(n)))


@pytest.mark.parametrize("codes", [False, True])
def test_nothing_is_printed_on_the_outer_five_millimetres(plan, codes):
    """Labels that fill their paper: 3 by 8 of 70 x 37 mm on A4."""
    stream = io.BytesIO()
    write_stake_labels(plan, stream, label_format("a4 3x8 70x37"), codes=codes)
    with Paper(stream.getvalue()) as paper:
        text = paper.document[0].get_textpage()
        words = np.array([text.get_rect(n) for n in range(text.count_rects())]) * MM
        for drawn in (words, *([paper.paths(0)] if codes else [])):
            assert drawn.min() >= 4.95
            assert drawn[:, 2].max() <= 210 - 4.95
            assert drawn[:, 3].max() <= 297 - 4.95


def test_the_same_labels_are_the_same_bytes(plan):
    assert written(plan, "a4-2x7", codes=True) == written(plan, "a4-2x7", codes=True)


def test_own_measures_make_a_sheet():
    form = label_format("A4 3x7 63.5x38.1 2.5x0")
    assert [form.corner(n) for n in (0, 4, 20)] == [label_format("a4-3x7").corner(n) for n in (0, 4, 20)]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("nonsense", "no sheet of labels 'nonsense'"),
        ("a5 3x7 60x30", "cannot be printed"),
        ("a4 3x7 6x3", "cannot be printed"),
        ("a4 0x7 60x30", "cannot be printed"),
        ("a4 4x7 63.5x38.1", "larger than their paper"),
        ("a4 3x7 6.3.5x38.1", "cannot be printed"),
    ],
)
def test_a_sheet_that_is_none_is_refused_in_words(words, said):
    with pytest.raises(LabelFormatError, match=said):
        label_format(words)


def test_what_cannot_be_printed_is_refused_in_words(plan):
    with pytest.raises(SheetError, match=r"no room on a label of 44\.45 x 12\.7 mm"):
        written(plan, "letter-4x20", codes=True)
    with pytest.raises(SheetError, match="24 labels cannot be used of a sheet of 24"):
        written(plan, "a4-3x8", used=24)
    with pytest.raises(SheetError, match="nothing is sown or planted in 2040"):
        written(Plan(plan.garden, 2040), "a4-3x8")
