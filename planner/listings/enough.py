"""How much to plant, as lines."""

from __future__ import annotations

from planner.amounts.enough_for import Enough
from planner.garden.planting import SEEDLESS
from planner.garden.units import show_area, show_length, show_mass
from planner.listings.harvest import amount_words, refused_words, source_words
from planner.listings.household import persons_words
from planner.listings.learned import own_of_crop, own_sentence
from planner.listings.store import fault_words
from planner.listings.tables import aligned
from planner.listings.weights import weight_cell, weight_head, weight_words
from planner.plan import Plan
from planner.words import capital, day_words, join_list, key_words, later, percent, say, say_count

_USE_WORDS = {
    "kitchen": later("Eaten fresh"),
    "store": later("From the store"),
    "bottling": later("Bottled"),
    "freezing": later("Frozen"),
    "drying": later("Dried (fresh weight)"),
}


def enough_lines(plan: Plan, found: Enough, room: int | None = None) -> list[str]:
    """Print how much of a crop to plant.

    Parameters
    ----------
    plan : Plan
    found : Enough
    room : int, optional
        Width of tables; any by default. [columns]
    """
    return [
        say(
            "{crop} for {persons} until {day}",
            crop=found.crop.name,
            persons=persons_words(found.persons),
            day=day_words(found.until, plan.year),
        ),
        *(f"  {line}" for line in need_lines(plan, found)),
        "",
        *_room_lines(plan, found, room),
    ]


def need_lines(plan: Plan, found: Enough) -> list[str]:
    """Say what is eaten, from when to when, and what that takes.

    Parameters
    ----------
    plan : Plan
    found : Enough
    """
    return [*_eaten_lines(plan, found), *_planting_lines(plan, found)]


def _eaten_lines(plan: Plan, found: Enough) -> list[str]:
    units = plan.garden.site.units
    eats = found.appetite
    lines = [
        say(
            "Eaten: {weekly} a week ({source}: {yearly} a person in a year, over {weeks} weeks)",
            weekly=weight_words(eats.weekly or 0, units),
            source=source_words(plan, eats.source),
            yearly=weight_words((eats.yearly or 0) * 1000, units),
            weeks=eats.weeks,
        ),
        say(
            "{use} from {first} to {last}: {days} days, {weight}; what rots is not counted",
            use=say(_USE_WORDS[found.purpose]),
            first=day_words(found.picking.first, plan.year),
            last=day_words(found.last, plan.year),
            days=found.days,
            weight=weight_words(found.eaten, units),
        ),
    ]
    if found.picking.share < 1 and found.picking.over is not None:
        lines.append(
            say(
                "Its harvest is over on {day}: {share} of a planting's yield comes before, the rest would come until {over}",
                day=day_words(found.picking.last, plan.year),
                share=percent(found.picking.share),
                over=day_words(found.picking.over, plan.year),
            )
        )
    if found.last < found.until:
        lines.append(
            say(
                "It keeps for {days} days, until {last}: nothing is there from then until {until}",
                days=int(found.kept.days),
                last=day_words(found.last, plan.year),
                until=day_words(found.until, plan.year),
            )
        )
    if found.kept.place is not None and found.place_given:
        lines.append(say("Kept in {place}", place=found.kept.place.name))
    elif found.kept.place is not None:
        lines.append(say("It keeps best in {place}", place=found.kept.place.name))
    if found.kept.fault:
        lines.append(
            say("That is {fault}: it keeps less long than is published", fault=fault_words(found.kept.fault))
        )
    return lines


def _planting_lines(plan: Plan, found: Enough) -> list[str]:
    units, takes = plan.garden.site.units, found.takes
    amount = amount_words(takes.metres, takes.plants, units)
    if found.planted is not None:
        beds = join_list(dict.fromkeys(spot.bed.name for spot in found.spots))
        lines = [say("Plant {amount} in {beds}", amount=amount, beds=beds)]
    else:
        lines = [say("Plant {amount} in rows with paths", amount=amount)]
    if takes.area is not None:
        lines.append(_ground_words(plan, found, show_area(takes.area, units)))
    on = found.dates.on_plot
    if on is not None:
        lines.append(say("In the ground from {day}", day=day_words(on.day, plan.year)))
    if found.dates.start in SEEDLESS:
        lines.append(
            say("Needed: {count} {what}", count=takes.plants or "?", what=key_words(found.dates.start))
        )
    elif takes.seeds is not None:
        seeds = say_count("{count} seed", "{count} seeds", takes.seeds)
        if takes.seed_grams is None:
            lines.append(say("Seed: {seeds}", seeds=seeds))
        else:
            weight = show_mass(takes.seed_grams, units)
            lines.append(say("Seed: {weight}, {seeds}", weight=weight, seeds=seeds))
    else:
        lines.append(say("Seed: not known, since its germination is not"))
    used = [one for one in own_of_crop(plan, found.crop.key, found.dates.start) if one.used]
    return [*lines, *(own_sentence(plan, one) for one in used)]


def _ground_words(plan: Plan, found: Enough, area: str) -> str:
    """The ground that it takes, and how far apart the plants stand in the beds."""
    if found.planted is None:
        return say("Ground: {area} in rows with paths", area=area)
    layout = plan.trial(found.spots[0].planting).layout
    if layout.in_row_spacing is None or layout.row_spacing is None:
        return say("Ground: {area}", area=area)
    units = plan.garden.site.units
    return say(
        "Ground: {area}, plants {apart} apart in rows {between} apart",
        area=area,
        apart=show_length(layout.in_row_spacing, units),
        between=show_length(layout.row_spacing, units),
    )


def room_words(found: Enough) -> str:
    """Say whether there is room for it."""
    if not found.spots and found.refused:
        return say("{room}.", room=capital(refused_words(found.refused)))
    if not found.spots:
        return say("No bed in the open has free ground for it in that time.")
    if found.planted is None:
        return say("Room for {share} of it:", share=percent(found.room_for / found.needed.grams))
    return say("Room for all of it:")


def _room_lines(plan: Plan, found: Enough, room: int | None) -> list[str]:
    head, units = room_words(found), plan.garden.site.units
    if not found.spots:
        return [head]
    rows = [
        (
            spot.bed.name,
            show_length(getattr(spot.planting.plot, "start", 0.0), units),
            show_length(getattr(spot.planting.plot, "end", 0.0), units),
            str(spot.plants),
            show_area(spot.area, units),
            weight_cell(spot.grams, units),
        )
        for spot in found.spots
    ]
    heads = (say("bed"), say("from"), say("to"), say("plants"), say("area"), weight_head(units))
    return [head, *aligned(heads, rows, right=range(1, 6), room=room)]
