"""An even harvest over the recorded years, chosen in the dialog for a series."""

from __future__ import annotations

import datetime as dt
import re

import numpy as np
import pytest
from hand import Hand

from planner import resources
from planner.desk.main_window.series_dialog import SeriesDialog
from planner.errors import BedwrightError
from planner.garden.edits import change_weather
from planner.plan.lived_otherwise import begin_curve
from planner.season.weather_years import years_of
from planner.storage import load
from tests.invented_weather import invented

pytestmark = pytest.mark.one_window


@pytest.fixture
def hand(reopen) -> Hand:
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    years = years_of(invented("hollow_lane"))
    hand = reopen(change_weather(garden, years=years, elevation=garden.site.elevation))
    hand.document.show_year(2026)
    radish = next(one for one in hand.document.plan.plantings if one.crop == "radish")
    hand.document.select([radish.id])
    return hand


def opened(hand: Hand) -> SeriesDialog:
    """The dialog as the command opens it."""
    hand.window.commands.draw.new_series()
    return next(one for one in hand.window.findChildren(SeriesDialog) if one.isVisible())


def test_the_dialog_tells_what_comes_of_it_and_the_plan_gets_those_days(hand: Hand) -> None:
    (key,) = hand.document.selected_plantings
    plan = hand.document.plan
    begun = begin_curve(plan, plan.garden.plantings_by_id[key])
    assert begun is not None
    tried = [one for one in map(begun.try_day, begun.days) if one is not None]
    three, two = begun.even_series(tried, 3), begun.even_series(tried, 2)
    assert three is not None
    assert two is not None
    dialog = opened(hand)
    assert dialog.even.isVisible()
    assert not dialog.picked.isVisible()
    dialog.even.click()
    dialog.number.setValue(3)
    words = dialog.picked.text()
    assert re.search(r"In the middle one of 30 years something is picked on (\d+) days", words)[1] == str(
        round(float(np.median(three.picked_days)))
    )
    assert words.endswith(f"With one start less: {round(float(np.median(two.picked_days)))} days.")
    steps = hand.document.undo_stack.count()
    dialog._accept()
    assert hand.document.undo_stack.count() == steps + 1
    after = hand.document.plan
    members = [after.garden.plantings_by_id[one] for one in hand.document.selected_plantings]
    assert {one.crop for one in members} == {"radish"}
    starts = sorted(after.span_of(one).first for one in members)
    assert starts[0] == three.days[0]
    assert set(starts) <= set(three.days)
    assert len(starts) >= 2
    assert key in {one.id for one in members}


def test_days_lie_where_the_crop_may_be_begun(hand: Hand) -> None:
    (key,) = hand.document.selected_plantings
    plan = hand.document.plan
    begun = begin_curve(plan, plan.garden.plantings_by_id[key])
    assert begun is not None
    assert begun.window is not None
    tried = [one for one in map(begun.try_day, begun.days) if one is not None]
    assert tried[0].day < begun.window.first  # the curve goes on beyond them
    narrow = begun._replace(window=begun.window._replace(last=begun.window.first + dt.timedelta(days=30)))
    series = narrow.even_series(tried, 4)
    assert series is not None
    assert all(
        narrow.window.first <= day <= narrow.window.last or day == begun.planned for day in series.days
    )
    assert narrow.even_series(tried, len(tried)) is None


def test_more_starts_than_days_are_refused_in_words(hand: Hand, monkeypatch) -> None:
    dialog = opened(hand)
    dialog.even.click()
    monkeypatch.setattr(dialog, "_tried", dialog._tried[:2])
    dialog.number.setValue(7)
    assert dialog.picked.text().startswith("The recorded years do not tell of so many days")
    before = hand.garden
    dialog._accept()
    assert dialog.isVisible()
    with pytest.raises(BedwrightError, match="do not tell of so many days"):
        dialog.make(hand.document.plan, hand.document.selected_plantings[0])
    assert hand.garden is before
    dialog.reject()


def test_without_recorded_years_it_is_not_offered(hand: Hand) -> None:
    hand.document.edit("no years", lambda garden: garden.with_(weather=type(garden.weather)()))
    dialog = opened(hand)
    assert not dialog.even.isVisible()
    assert not dialog.number.isVisible()
    dialog.reject()
