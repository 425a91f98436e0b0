"""How plants are raised, in the details of a planting and of several."""

from __future__ import annotations

import pytest
from hand import Hand
from making import bed, garden, planting

from planner.garden import Climate, FrostDates
from planner.garden.raising import Raising

pytestmark = pytest.mark.one_window

CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)


@pytest.fixture
def hand(open_hand) -> Hand:
    made = open_hand(
        garden(
            bed("b1", name="North"),
            planting("p1", crop="leek", plot={"kind": "stretch", "start": 0, "end": 1.6}),
            planting("p2", crop="tomato", plot={"kind": "stretch", "start": 1.6, "end": 3.2}),
            planting("p3", crop="carrot", plot={"kind": "stretch", "start": 3.2, "end": 4.8}),
            climate=CLIMATE,
        )
    )
    made.document.show_year(2026)
    made.window.docks.details.planting.more.setChecked(True)
    return made


def rows(hand: Hand):
    """The rows of the form that is shown."""
    return hand.window.docks.details.stack.currentWidget().raising


def given(hand: Hand, *keys: str) -> list[Raising | None]:
    return [hand.garden.plantings_by_id[key].raising for key in keys]


def shown(hand: Hand) -> list[bool]:
    """Whether way, tray and width can be seen."""
    form = hand.window.docks.details.stack.currentWidget()
    return [widget.isVisibleTo(form) for widget in (rows(hand).way, rows(hand).cells, rows(hand).width)]


def test_the_usual_way_of_the_crop_is_told_with_what_it_fills(hand: Hand) -> None:
    hand.document.select(["p1"])
    assert shown(hand) == [True, False, False]
    assert rows(hand).way.currentText() == "usual: cells of a tray"
    assert " cells of a tray of 288, " in rows(hand).words.text()
    assert "hardening off" in rows(hand).words.text()
    hand.document.select(["p2"])
    assert rows(hand).way.currentText() == "usual: pricked out"
    assert "seed tray" in rows(hand).words.text()


def test_nothing_is_asked_of_what_is_sown_in_place(hand: Hand) -> None:
    hand.document.select(["p3"])
    assert shown(hand) == [False, False, False]
    assert not rows(hand).words.isVisible()


def test_a_way_and_its_size_are_chosen_in_a_step_each(hand: Hand) -> None:
    hand.document.select(["p1"])
    hand.choose(rows(hand).way, "cells")
    assert given(hand, "p1") == [Raising(way="cells")]
    assert shown(hand) == [True, True, False]
    assert rows(hand).cells.currentText() == "usual: tray of 288"
    hand.choose(rows(hand).cells, 128)
    assert given(hand, "p1") == [Raising(way="cells", cells=128)]
    assert "trays of 128" in rows(hand).words.text() or "tray of 128" in rows(hand).words.text()
    hand.choose(rows(hand).way, "pots")
    assert given(hand, "p1") == [Raising(way="pots")]
    assert shown(hand) == [True, False, True]
    assert rows(hand).width.placeholderText() == "9 cm"
    hand.type(rows(hand).width, "7 cm")
    assert given(hand, "p1") == [Raising(way="pots", width=0.07)]
    assert (hand.steps, hand.step) == (4, "Change how it is raised")
    hand.choose(rows(hand).way, "nursery bed")
    assert shown(hand) == [True, False, False]
    assert "of nursery bed" in rows(hand).words.text()
    hand.choose(rows(hand).way, None)
    assert given(hand, "p1") == [None]
    hand.do("undo")
    assert given(hand, "p1") == [Raising(way="nursery bed")]


def test_seedlings_are_pricked_out_into_a_tray_or_into_pots_not_both(hand: Hand) -> None:
    hand.document.select(["p2"])
    hand.choose(rows(hand).way, "pricked out")
    assert shown(hand) == [True, True, True]
    hand.type(rows(hand).width, "9 cm")
    assert given(hand, "p2") == [Raising(way="pricked out", width=0.09)]
    assert rows(hand).cells.currentText() == "none: pots"
    assert "pots of 9 cm" in rows(hand).words.text()
    hand.choose(rows(hand).cells, 50)
    assert given(hand, "p2") == [Raising(way="pricked out", cells=50)]
    assert rows(hand).width.text() == ""


def test_a_width_that_is_none_is_marked_and_changes_nothing(hand: Hand) -> None:
    hand.document.select(["p1"])
    hand.choose(rows(hand).way, "blocks")
    before = hand.garden
    for text in ("thick", "-2"):
        hand.type(rows(hand).width, text)
        assert hand.garden is before
        assert rows(hand).width.is_wrong


def test_several_are_raised_alike_in_one_step(hand: Hand) -> None:
    hand.document.select(["p1", "p2"])
    assert rows(hand).way.currentText() == "the usual of each crop"
    hand.choose(rows(hand).way, "cells")
    assert given(hand, "p1", "p2") == [Raising(way="cells")] * 2
    assert rows(hand).cells.currentText() == "the usual of each crop"
    hand.choose(rows(hand).cells, 72)
    assert given(hand, "p1", "p2") == [Raising(way="cells", cells=72)] * 2
    assert (hand.steps, hand.step) == (2, "Change the way of raising of 2 plantings")


def test_several_that_differ_say_so_and_those_with_one_that_is_sown_ask_nothing(hand: Hand) -> None:
    hand.document.select(["p1"])
    hand.choose(rows(hand).way, "pots")
    hand.document.select(["p1", "p2"])
    assert (rows(hand).way.currentIndex(), rows(hand).way.placeholderText()) == (-1, "several")
    assert shown(hand) == [True, False, False]
    hand.document.select(["p1", "p3"])
    assert shown(hand) == [False, False, False]
