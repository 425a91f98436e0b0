"""The legend of the bars over the year, below the ribbon and on the year page."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor
from sample_reading import sample

from planner.desk.canvas.bar_legend import HEIGHT, BarLegend
from planner.desk.canvas.planting_bar import BarInks
from planner.desk.canvas.year_axis import frost_shade
from planner.storage import load

pytestmark = pytest.mark.one_window

FULL = ["raised indoors", "growing", "picking", "day set by hand"]


@pytest.fixture
def small(open_hand, qapp):
    """A window of 900 x 640 pixels with a sample garden."""
    hand = open_hand(load(sample("hollow_lane")))
    hand.window.resize(900, 640)
    qapp.processEvents()
    return hand.window


def _legends(window, qapp) -> dict[str, BarLegend]:
    window.pages.setCurrentWidget(window.pages.year)
    qapp.processEvents()
    return {"ribbon": window.pages.legend, "year": window.pages.year.legend}


def test_every_ink_is_explained_in_a_small_window(small, qapp):
    for place, legend in _legends(small, qapp).items():
        shown = legend.shown()
        assert len(shown) == (6 if place == "year" else 5), place
        assert shown[-1][0] + legend.spacing.swatch < legend.width()
        assert legend.height() == HEIGHT, "one line, whatever the window"
        assert "day set by hand" in legend.accessibleDescription()


def test_words_are_in_full_where_there_is_room(sample_window, qapp):
    legend = _legends(sample_window, qapp)["year"]
    assert [words for _, words in legend.shown()] == [*FULL, "bare ground", "frost, the darker the likelier"]


@pytest.fixture
def sample_window(open_hand, qapp):
    return open_hand(load(sample("hollow_lane"))).window


@pytest.mark.parametrize("look", ["light", "dark"])
def test_swatches_have_the_inks_of_the_bars(sample_window, qapp, look):
    sample_window.look.choose(look)
    plan = sample_window.document.plan
    crop = plan.catalogue.crops[plan.plantings[0].crop]
    inks = BarInks(sample_window.look.now, crop.family)
    for place, legend in _legends(sample_window, qapp).items():
        sample_window.pages.setCurrentIndex(0 if place == "ribbon" else 1)
        qapp.processEvents()
        image = legend.grab().toImage()
        ratio = image.devicePixelRatio()

        def colour(number: int, legend=legend, image=image, ratio=ratio) -> QColor:
            x, _ = legend.shown()[number]
            middle = QPoint(round((x + legend.spacing.swatch / 2) * ratio), round(HEIGHT / 2 * ratio))
            return image.pixelColor(middle)

        assert colour(2) == inks.line, "picking is drawn full"
        assert colour(0) == inks.look.panel, "raised indoors is an empty frame"
        assert colour(1) not in (inks.line, inks.look.panel), "growing is hatched on a wash"
        if place == "year":
            assert colour(4) == inks.look.soil
        else:
            assert colour(4) not in (inks.look.panel, frost_shade(inks.look)), "a wash over the ground"
