"""Measures as a tape shows them: rounded together, so that rows still fit."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from making import bed

from planner.garden.units import INCH
from planner.ground import lay_rows
from planner.ground.bed_frame import BedFrame
from planner.sheets.tape import tapes
from planner.sheets.tape_measure import Marks, Step, TapeMeasure, rounded_marks

METRIC, FEET = TapeMeasure("metric"), TapeMeasure("feet_inches")


@settings(max_examples=150, deadline=None)
@given(
    st.floats(0.6, 12.0),
    st.floats(0.4, 2.0),
    st.floats(0.02, 0.9),
    st.floats(0.08, 0.9),
    st.sampled_from([METRIC, FEET]),
    st.booleans(),
)
def test_rounded_rows_keep_all_their_plants_and_stay_in_the_plot(
    length, width, in_row, between, measure, staggered
) -> None:
    one = bed(outline={"shape": "rectangle", "length": length, "width": width})
    if width > length:
        length, width = width, length
    frame = BedFrame(one)
    layout = lay_rows(
        shapely.box(-length / 2, -width / 2, length / 2, width / 2)
        if frame.axis == 0
        else shapely.box(-width / 2, -length / 2, width / 2, length / 2),
        in_row,
        between,
        staggered=staggered,
        direction=frame.axis,
    )
    unit = measure.unit
    for tape in tapes(frame, layout):
        marks = measure.marks(tape)
        places = np.array(marks.places(tape.count)) * unit
        assert len(places) == tape.count
        assert places[0] >= -unit / 2
        assert places[-1] <= length + unit / 2
        assert abs(places[-1] / unit - marks.last) <= 0.5 + 1e-6
        true = np.array(tape.marks())
        if tape.count > 1:
            step = np.diff(places).min()
            assert (
                0.83 * tape.spacing <= step <= 1.031 * tape.spacing
            )  # never so close that plants are crowded
            assert (places[-1] - places[0]) <= true[-1] - true[0] + tape.spacing / 2 + 1e-9
            # what a rounded row is shorter or longer by is shared at both ends
            off = abs(step - tape.spacing) * (tape.count - 1) / 2
            assert np.abs(places - true).max() <= off + unit
        else:
            assert abs(places[0] - true[0]) <= unit / 2 + 1e-9


@pytest.mark.parametrize(
    ("first", "last", "count", "expected"),
    [
        (0.15, 4.65, 16, Marks(15, Step(1, 30), 465)),
        (0.263, 4.313, 10, Marks(26, Step(1, 45), 431)),  # 26.3 cm is on no tape
        (0.0375, 4.7625, 64, Marks(4, Step(2, 15), 476)),
        (0.1016, 4.6736, 10, Marks(14, Step(1, 50), 464)),  # 20 in apart: rather 50 cm than 51
        (0.4, 0.4, 1, Marks(40, None, 40)),
    ],
)
def test_marks_in_whole_centimetres(first, last, count, expected) -> None:
    assert rounded_marks(first, last, count, 0.01) == expected


def test_marks_in_half_inches() -> None:
    marks = rounded_marks(1.5 * INCH, 94.5 * INCH, 32, INCH / 2)
    assert marks == Marks(3, Step(1, 6), 189)
    assert [FEET.bare(mark) for mark in (0, 1, 2, 3, 24, 25, 189)] == [
        "0″", "½″", "1″", "1½″", "1′", "1′\u202f½″", "7′\u202f10½″",
    ]  # fmt: skip


def test_distances_of_rows() -> None:
    assert METRIC.offsets([0.15, 0.45, 0.75, 1.05]) == "15, 45, 75, 105"
    assert METRIC.offsets([0.225, 0.475, 0.725, 0.975]) == "23, 48, 73, 98"
    assert METRIC.offsets([0.075 + 0.15 * k for k in range(8)]) == "8, then every 15 to 113"
    assert METRIC.offsets([0.1, 0.45]) == "10, 45"


def test_other_measures() -> None:
    assert [METRIC.depth(d) for d in (0.006, 0.013, 0.025, 0.1016)] == [
        "½\u00a0cm", "1½\u00a0cm", "2½\u00a0cm", "10\u00a0cm",
    ]  # fmt: skip
    assert [FEET.depth(d * INCH) for d in (0.25, 0.5, 1.0, 4.0)] == [
        "¼\u00a0in", "½\u00a0in", "1\u00a0in", "4\u00a0in",
    ]  # fmt: skip
    assert [METRIC.spacing(d) for d in (0.0127, 0.075, 0.45)] == ["1.3\u00a0cm", "7½\u00a0cm", "45\u00a0cm"]
    assert METRIC.size(5.891, 1.886) == "590\u00a0×\u00a0189\u00a0cm"  # what is cut is never too short
    assert METRIC.at_least(1.801) == "181\u00a0cm"
