"""The shopping list of a growing year as lines."""

from __future__ import annotations

from itertools import groupby

from planner.amounts.shopping import Shopping, shopping
from planner.amounts.shopping_items import Item
from planner.listings.materials import day_cell
from planner.listings.shopping_words import (
    GROUP_WORDS,
    NOTHING,
    amount_words,
    hints,
    item_words,
    note_words,
    packs_words,
    price_words,
    serves_words,
    shops_words,
    sum_words,
    to_buy_words,
)
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.words import capital, say, say_count


def shopping_heads() -> tuple[str, ...]:
    """Headings of a table."""
    return (
        say("by"),
        say("what"),
        say("needed"),
        say("on hand"),
        say("ordered"),
        say("to buy"),
        say("get"),
        say("price"),
        say("where"),
    )


def shopping_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print a shopping list as lines: a table of what is to be bought or on its way, what it is for, and the sum.

    Parameters
    ----------
    plan : Plan
    room : int, optional
        Width of tables; any by default. [columns]
    """
    found = shopping(plan)
    lines = [say("{garden}, to buy for {year}", garden=plan.garden.site.name, year=plan.year), ""]
    shown = [one for one in found.items if one.status != "on hand"]
    for group, of_group in groupby(shown, key=lambda one: one.group):
        rows = [_row(plan, found, one) for one in of_group]
        lines += [say(GROUP_WORDS[group]), *aligned(shopping_heads(), rows, (2, 3, 4, 5, 7), room=room), ""]
    if not found.items:
        return [*lines, say("Nothing is needed in {year}.", year=plan.year)]
    if not shown:
        return [*lines, say("Everything for {year} is on hand.", year=plan.year)]
    lines += [say("What it is for"), *(f"  {_for_what(plan, one)}" for one in shown), ""]
    return [*lines, *closing_lines(found), *hints(plan, found.to_buy)]


def closing_lines(found: Shopping) -> list[str]:
    """The sum, how much is on hand in full, and what could not be worked out, a line each."""
    lines = [line for line in (sum_words(found),) if line]
    there = sum(one.status == "on hand" for one in found.items)
    if there:
        lines.append(
            say_count(
                "{count} thing more is on hand in full", "{count} things more are on hand in full", there
            )
        )
    return [*lines, *dict.fromkeys(line for one in found.to_buy for line in one.missing)]


def _row(plan: Plan, found: Shopping, one: Item) -> tuple[str, ...]:
    where = shops_words(one)
    if note := note_words(plan, one):
        where = say("{where} ({note})", where=where, note=note) if where else note
    return (
        day_cell(one.by, plan) if one.by is not None else NOTHING,
        item_words(plan, one),
        amount_words(plan, one, one.needed),
        amount_words(plan, one, one.on_hand),
        amount_words(plan, one, one.ordered),
        to_buy_words(plan, one),
        packs_words(plan, one),
        price_words(one.price, found.currency),
        where or NOTHING,
    )


def _for_what(plan: Plan, one: Item) -> str:
    return say("{what}: {plantings}.", what=capital(item_words(plan, one)), plantings=serves_words(plan, one))
