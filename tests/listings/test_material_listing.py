"""Materials and cut lists as lines."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden

from planner.amounts.cuts import Bar, Cut, CutList
from planner.amounts.cutting import cut_list
from planner.amounts.joining import joined_list
from planner.amounts.materials import ANY, Cutting, Material, Sort
from planner.amounts.sharing import Job, Pile, share
from planner.garden import ShedItem, Site
from planner.listings.materials import cut_lines, material_table, material_words, piece_words, size_words
from planner.plan import Plan

PLAN = Plan(garden(bed(), site=Site(name="Plot")), 2026)


def lines_of(cuts: CutList, width: float = 0.0) -> list[str]:
    *lines, last = cut_lines(PLAN, [Material("pole", (), (Cutting(width, ANY, cuts),))])
    assert last == "  Sizes sold are an estimate for pole; enter in the shed what you can buy"
    return lines


def test_a_cut_list_says_what_to_get_how_to_cut_it_and_that_nothing_less_will_do():
    assert lines_of(cut_list({1500: 2, 700: 1}, [Bar(2400), Bar(2000, 1)])) == [
        "  pole: get 1 of 2.40 m; cut 1 of 2.00 m from the shed, the least there can be",
        "    1 × 2.00 m: 1.50 m; 0.50 m left",
        "    1 × 2.40 m: 1.50 m and 0.70 m; 0.20 m left",
    ]


def test_a_list_that_is_not_proven_shows_its_gap():
    cuts = CutList((Cut(2400, False, ((1300, 1),), 49),), 49 * 2400, 48 * 2400)
    assert lines_of(cuts)[0] == "  pole: get 49 of 2.40 m, at most 2 % more than the least"


def test_what_is_there_already_and_what_is_too_long():
    cuts = cut_list({1000: 1, 3000: 2}, [Bar(1200, 1), Bar(2400)])
    assert lines_of(cuts) == [
        "  pole: cut 1 of 1.20 m from the shed",
        "    1 × 1.20 m: 1.00 m; 0.20 m left",
        "  2 poles of 3.00 m are longer than any that is sold; enter in the shed what you can buy",
    ]


def test_a_joined_sheet_says_of_which_parts_and_which_piece_is_a_part_of_it():
    cuts = joined_list({11_200: 1, 5_900: 1}, [Bar(10_000), Bar(5_000)], 400)
    assert lines_of(cuts, 2.0) == [
        "  pole 2.00 m wide: get 2 of 10.00 m, the least there can be",
        "    1 × 10.00 m: 10.00 m (part of 11.20 m)",
        "    1 × 10.00 m: 5.90 m and 1.60 m (part of 11.20 m); 2.50 m left",
        "    11.20 m: joined of 10.00 m and 1.60 m, with an overlap of 0.40 m",
    ]


def test_pieces_of_the_shed_are_named_by_their_own_size_and_how_many_are_cut():
    cuts = joined_list({11_200: 1, 5_900: 1, 4_000: 1}, [Bar(10_000), Bar(12_000, 2, 4_000)], 400)
    *lines, _ = cut_lines(PLAN, [Material("pole", (), (Cutting(2.0, ANY, cuts, 2.0),))])
    assert lines == [
        "  pole 2.00 m wide: cut 1 of 12.00 × 4.00 m from the shed",
        "    1 × strip of 12.00 × 4.00 m: 11.20 m; 0.80 m left",
        "    1 × strip of 12.00 × 4.00 m: 5.90 m and 4.00 m; 2.10 m left",
    ]


def test_sizes_that_the_garden_names_are_no_estimate():
    shed = (ShedItem(id="m1", kind="pole", length=2.4, sold=True),)
    plan = Plan(garden(bed(), shed=shed), 2026)
    found = cut_lines(plan, [Material("pole", (), (Cutting(0.0, ANY, cut_list({1000: 1}, [Bar(2400)])),))])
    assert not any("estimate" in line for line in found)


def test_rolls_have_their_width():
    cuts = cut_list({1000: 1}, [Bar(10_000)])
    assert lines_of(cuts, 2.0)[0].startswith("  pole 2.00 m wide: get 1 of 10.00 m")


def job(key: str, first: int, last: int) -> Job:
    return Job(key, dt.date(2026, first, 1), dt.date(2026, last, 1), (2.0,))


@pytest.mark.parametrize(
    ("jobs", "words"),
    [
        ([job("a", 4, 6), job("b", 7, 8)], "leek, then kale from 1 Jul"),
        ([job("a", 4, 6)], "leek"),
    ],
)
def test_what_serves_again_says_from_when(jobs, words):
    piles: tuple[Pile, ...] = share(jobs)
    (_, row) = material_table(PLAN, [Material("pole", piles)], {"a": "leek", "b": "kale"}, None)
    assert row.split("  ")[-1] == words
    assert "to get" in row


def test_sizes_and_kinds_in_words():
    assert size_words((4.8, 1.2), "metric") == "4.80 × 1.20 m"
    assert size_words((3.048, 1.524), "feet_inches") == "10 ft × 5 ft"
    assert size_words((), "metric") == ""
    assert material_words("fleece", Sort(weight=17.0)) == "fleece of 17 g/m²"
    assert material_words("netting", Sort(mesh=0.00135)) == "netting of 1.35 mm"
    assert material_words("hoop", None) == "hoop"
    assert piece_words("post", 1, "1.80 m") == "1 post of 1.80 m"
    assert piece_words("tie", 3, "") == "3 ties"
