"""The shopping list as another reader finds it on paper."""

from __future__ import annotations

import io

import numpy as np
import pytest
from making import bed, garden, planting
from paper_reading import TODAY, Paper
from sample_reading import FOLDER, sample

from planner.amounts.shopping import shopping
from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Lot, Offer, Site
from planner.garden.units import show_mass
from planner.listings.shopping_words import item_words, pack_list, price_words, to_buy_words
from planner.plan import Plan
from planner.sheets.output import SheetError
from planner.sheets.page_chrome import UnknownPaperError
from planner.sheets.shopping_sheet import write_shopping_sheet
from planner.storage import load
from planner.words import day_words

CLIMATE = Climate(last_frost=FrostDates(risk_50="05-01"), first_frost=FrostDates(risk_50="10-16"))


def pdf(document: Garden, paper: str = "a4", year: int = 2026) -> bytes:
    stream = io.BytesIO()
    write_shopping_sheet(Plan(document, year, load_catalogue()), stream, paper, TODAY)
    return stream.getvalue()


def boxes(pages: Paper, number: int) -> int:
    """Boxes to tick on a page: 3.2 mm wide, their line of 0.25 mm on both sides."""
    sizes = pages.paths(number)
    width, high = sizes[:, 2] - sizes[:, 0], sizes[:, 3] - sizes[:, 1]
    return int(np.count_nonzero((abs(width - 3.7) < 0.06) & (abs(high - 3.7) < 0.06)))


def without_spaces(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize("file", sorted(FOLDER.glob("*.bedwright")), ids=lambda file: file.stem)
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_all_that_is_to_be_bought_is_on_one_page_with_a_box(file, paper):
    document = load(file)
    plan = Plan(document, 2026, load_catalogue())
    found = shopping(plan)
    with Paper(pdf(document, paper)) as pages:
        assert len(pages) == 1
        text = without_spaces(pages.texts())
        shown = (*found.to_buy, *found.awaited)
        assert boxes(pages, 0) == len(shown) > 3
        for one in shown:
            assert without_spaces(item_words(plan, one)) in text
            if one.by is not None:
                assert without_spaces(day_words(one.by, 2026)) in text
            for words in pack_list(plan, one):
                assert without_spaces(words) in text
            if one.price is not None:
                assert price_words(one.price, found.currency) in text


def test_days_say_what_they_are_and_single_ones_are_counted_once():
    with Paper(pdf(load(sample("hollow_lane")))) as pages:
        text = " ".join(pages.texts().split())
    assert "by 15 Apr parsnip" in text
    assert "tray of 50 cells 3 £" in text


def test_in_feet_string_is_bought_by_the_foot_and_little_seed_weighed_in_ounces_too():
    plan = Plan(load(sample("red_mesa")), 2026, load_catalogue())
    strings = [one for one in shopping(plan).items if one.unit == "metres" and one.to_buy]
    assert strings
    for one in strings:
        words = to_buy_words(plan, one)
        assert words.endswith(" ft")
        assert 0 <= int(words.removesuffix(" ft").replace(",", "")) - one.to_buy / 0.3048 < 1
    assert show_mass(0.02, "feet_inches") == "0.00071 oz"


def test_the_day_comes_first_and_rows_are_by_day_within_their_group():
    document = load(sample("hollow_lane"))
    with Paper(pdf(document)) as pages:
        text = pages.texts()
    words = ["Seed", "15 Apr parsnip", "7 May dwarf bean", "27 Feb potato (tubers)", "28 Mar onion (sets)"]
    words += ["100 ordered", "10 Oct garlic (cloves)", "For raising", "Covers and supports", "For the ground"]
    places = [text.index(word) for word in words]
    assert places == sorted(places)
    assert "In all £" in text
    assert "Enter" not in text


def test_a_long_list_goes_on_with_its_heading():
    sorts = [f"Sort {number:02d}" for number in range(70)]
    document = garden(
        *(bed(f"b{number}") for number in range(70)),
        *(planting(f"p{number}", f"b{number}", variety=sort) for number, sort in enumerate(sorts)),
        climate=CLIMATE,
        site=Site(name="Long", latitude=52.0),
        offers=(Offer(id="o1", crop="carrot", variety="Sort 00", seeds=500, shop="a long way off " * 8),),
    )
    with Paper(pdf(document)) as pages:
        assert len(pages) > 1
        assert sum(boxes(pages, number) for number in range(len(pages))) == 70
        for number in range(len(pages)):
            assert "Seed" in pages.text(number)
            assert f"page {number + 1} of {len(pages)}" in pages.text(number)
        assert all(sort in pages.texts() for sort in sorts)


def test_nothing_to_buy_is_refused_in_words():
    there = garden(
        bed(), planting(), stock=(Lot(id="l1", crop="carrot", seeds=90_000),), site=Site(name="Plot")
    )
    with pytest.raises(SheetError, match=r"Plot: nothing is to be bought for 2026\. Ask for another year\."):
        pdf(there)
    with pytest.raises(UnknownPaperError):
        pdf(load(sample("hollow_lane")), "a5")


def test_the_same_list_gives_the_same_bytes():
    document = load(sample("hollow_lane"))
    assert pdf(document) == pdf(document)
