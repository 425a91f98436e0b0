"""Rotation: how long ago, how much of the ground, and when a growing year begins."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import SITE, YEAR, beans, day, lettuce, made, plot, rows
from checks.thresholds import Threshold, own
from making import bed, planting

from planner.checks import check_only
from planner.checks.frame.planting_view import planting_view
from planner.checks.rotation import interval
from planner.crops import Catalogue, load_catalogue
from planner.garden import Garden
from planner.plan import Plan


def after_peas(year: int, wanted: float = 3) -> Garden:
    """Beans of a variety that wants so many years, where peas were cleared in August of a year."""
    peas = planting("p1", crop="pea", year=year, start="sown", first=day(4, 10, year), last=day(8, 1, year))
    return made(bed(), peas, beans("p2", variety="Own"), **own("dwarf_bean", rotation_years=wanted))


def beans_again(year: int) -> Garden:
    """Beans want 3 years, and 2 at the least."""
    return made(bed(), beans("p1", year=year, first=day(6, 1, year)), beans("p2"))


def edge_of_peas(begin: float) -> Garden:
    """Peas up to 2.4 m along the bed last year, now 2 m of beans and what lies between."""
    peas = planting("p1", crop="pea", year=2025, start="sown", first=day(4, 10, 2025), plot=plot(0, 2.4))
    return made(bed(), peas, beans("p2", plot=plot(begin, 4.4)))


def peas_and_beans_of_one_year(last: dt.date) -> Garden:
    """Peas from 10 March to a day, and beans after them."""
    peas = planting("p1", crop="pea", start="sown", first=day(3, 10), last=last)
    return made(bed(), peas, beans("p2", first=day(6, 10), last=day(10, 1)))


def lettuce_again(year: int) -> Garden:
    """Lettuce wants 3 years."""
    before = planting(
        "p1", crop="lettuce", year=year, start="raised", first=day(5, 1, year), arrangement=rows(0.3, 0.3)
    )
    return made(bed(), before, lettuce("p2"))


def succession(series: str) -> Garden:
    """Two plantings of beans, the first of which is of a series."""
    early = beans("p1", first=day(3, 1), last=day(6, 1), series=series)
    return made(bed(), early, beans("p2", first=day(6, 10), last=day(10, 1), series="s9"))


THRESHOLDS = [
    Threshold("3 years ago or 2", "rotation", after_peas, 2023, [], 2024, [("mind", "")]),
    Threshold(
        "14 years wanted, and 13 years ago or 12",
        "rotation",
        lambda year: after_peas(year, 14),
        2013,
        [],
        2014,
        [("mind", "")],
    ),
    Threshold(
        "the least years ago or one less", "rotation", beans_again, 2024, [("note", "")], 2025, [("mind", "")]
    ),
    Threshold("a tenth of the plot", "rotation", edge_of_peas, 2.18, [], 2.17, [("mind", "")]),
    Threshold(
        "75 or 76 days of one year",
        "rotation",
        peas_and_beans_of_one_year,
        day(5, 23),
        [],
        day(5, 24),
        [("note", "")],
    ),
    Threshold(
        "3 years of lettuce",
        "rotation",
        lettuce_again,
        2023,
        [],
        2024,
        [("mind", "")],
    ),
    Threshold("of one series or of two", "rotation", succession, "s9", [], "s8", [("note", "")]),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()


@pytest.mark.parametrize(
    ("begins", "cleared", "when"),
    [
        (1, day(12, 31, 2025), "1 year ago"),
        (1, day(1, 1), "earlier this year"),
        (3, day(2, 28), "1 year ago"),
        (3, day(3, 1), "earlier this year"),
    ],
)
def test_ground_cleared_before_the_growing_year_begins_belongs_to_the_year_before(
    begins: int, cleared: dt.date, when: str
) -> None:
    kale = planting(
        "p1",
        crop="kale",
        year=2025,
        start="raised",
        first=day(7, 1, 2025),
        last=cleared,
        arrangement=rows(0.45, 0.5),
    )
    cabbages = planting("p2", crop="cabbage", start="raised", first=day(5, 8), arrangement=rows(0.4, 0.4))
    garden = made(bed(), kale, cabbages, site=SITE.with_(first_month=begins))
    (one,) = check_only(Plan(garden, YEAR), ["rotation"])
    assert f"stood {when}: kale" in one.text


def test_crop_without_a_figure_wants_three_years_and_two_at_the_least() -> None:
    shipped = load_catalogue()
    plain = shipped.crops["dwarf_bean"].model_copy(update={"rotation_years": None})
    plan = Plan(made(bed(), beans()), YEAR, Catalogue({plain.key: plain}, shipped.sources))
    assert interval(planting_view(plan, plan.garden.plantings[0])) == (2.0, 3.0, "isu_rotation")
