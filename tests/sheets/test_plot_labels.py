"""Labels of plots: each plot has its name, no two labels overlap, and no leader crosses another plot."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.sheets.plot_labels import Label, PlotToLabel, Room, label_height, place_labels

HEIGHT = 40.0
ROOM = Room(16.0, 198.0, HEIGHT)


def plot(letter: str, left: float, low: float, right: float, high: float, apart: float = 3.0) -> PlotToLabel:
    """A plot of plants so far apart. [mm]"""
    ground = shapely.box(left, low, right, high)
    xs, ys = (np.arange(a + apart / 2, b, apart) for a, b in ((left, right), (low, high)))
    return PlotToLabel(
        letter, "Carrot ‘Long’", ground, np.array(list(itertools.product(xs, ys))).reshape(-1, 2)
    )


def leader(label: Label) -> shapely.LineString | None:
    if label.side == "inside":
        return None
    outer = HEIGHT + 1 if label.side == "above" else -1
    return shapely.LineString([(label.foot, label.target), (label.foot, outer)])


def box(label: Label) -> tuple[str, int, shapely.Polygon]:
    high = label_height(label.plot)
    low = label.low if label.side == "inside" else 0.0
    level = 0 if label.side == "inside" else label.level
    return label.side, level, shapely.box(label.left, low, label.right, low + high)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.floats(4, 60), min_size=1, max_size=9),
    st.lists(st.sampled_from([1, 2, 3]), min_size=9, max_size=9),
    st.floats(1.0, 9.0),
)
def test_leaders_cross_no_other_plot_and_labels_do_not_overlap(widths, layers, apart) -> None:
    plots, x = [], 20.0
    for number, (width, count) in enumerate(zip(widths, layers, strict=False)):
        if x + width > 195:
            break
        for layer in range(count):
            low = layer * HEIGHT / count
            plots.append(plot(f"{number}{layer}", x, low, x + width, low + HEIGHT / count, apart))
        x += width
    labels = place_labels(plots, ROOM)
    assert len(labels) == len(plots)
    for one in labels:
        line = leader(one)
        for other in plots:
            if line is not None and other is not one.plot:
                assert shapely.intersection(line, other.seen).length < 1e-6
        if one.side == "inside" and not one.alone:
            assert shapely.buffer(one.plot.seen, 0.06).contains(box(one)[2])
    named = [one for one in labels if not one.alone]
    for one, other in itertools.combinations(named, 2):
        if box(one)[:2] == box(other)[:2]:
            assert not box(one)[2].intersects(box(other)[2])


def test_a_label_stands_between_the_plants_where_there_is_room() -> None:
    (label,) = place_labels([plot("A", 20, 0, 180, HEIGHT, apart=16.0)], ROOM)
    assert label.side == "inside"
    ground = box(label)[2]
    assert not any(ground.buffer(0.9).contains(shapely.Point(p)) for p in label.plot.stations)


def test_a_dense_plot_has_its_label_outside() -> None:
    (label,) = place_labels([plot("A", 20, 0, 180, HEIGHT, apart=2.0)], ROOM)
    assert (label.side, label.level) == ("above", 0)


def test_the_lower_of_two_dense_plots_has_its_label_below() -> None:
    upper, lower = plot("A", 20, 20, 180, 40, 2.0), plot("B", 20, 0, 180, 20, 2.0)
    assert [label.side for label in place_labels([upper, lower], ROOM)] == ["above", "below"]


def test_a_plot_shut_in_by_others_has_its_label_over_its_plants_or_its_letter() -> None:
    around = [plot("A", 20, 24, 120, 40, 2.0), plot("B", 20, 0, 120, 16, 2.0)]
    wide, narrow = plot("C", 20, 16, 120, 24, 2.0), plot("C", 20, 16, 30, 24, 2.0)
    *_, label = place_labels([*around, wide], ROOM)
    assert label.side == "inside"
    assert not label.alone
    *_, label = place_labels([*around, narrow], ROOM)
    assert label.alone


@pytest.mark.parametrize("seen", [shapely.Polygon(), shapely.box(0, 0, 0.1, 0.1)])
def test_what_is_not_drawn_has_no_label(seen) -> None:
    assert place_labels([PlotToLabel("A", "Carrot", seen)], ROOM) == ()
