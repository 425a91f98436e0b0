"""The rules that keep ground from a wish, in words: what forbids it, and what would have to be given up."""

from __future__ import annotations

from collections.abc import Iterable

from planner.checks.frame.phrases import significant
from planner.checks.rotation import interval
from planner.crops.families import family_words
from planner.garden.units import show_length
from planner.garden.wishes import Wish
from planner.listings.turn import wish_amount
from planner.proposal.offers import GardenPuzzle, Rule
from planner.proposal.puzzle import Choice
from planner.proposal.reasons import MostThatFits
from planner.proposal.release import Release
from planner.words import (
    day_words,
    join_list,
    number_words,
    say,
    say_count,
)


def release_words(of: GardenPuzzle, release: Release, *, whole: bool = False) -> str:
    """What would have to change for a wish, and where it would then be.

    Parameters
    ----------
    of : GardenPuzzle
    release : Release
    whole : bool
        Whether some of it is met already.
    """
    places = join_list(place_words(of, choice) for choice in release.places)
    things = [rule_words(of, rule, _wanted_years(of, release)) for rule in _weakest(of, release)]
    things += [
        say("{crop} gave up its place", crop=of.plan.catalogue.name_of(of.wishes[number].crop))
        for number in release.wishes
    ]
    if not things:
        return say("There is room in {places}, but it would cost more than it is worth", places=places)
    if whole:
        return say("All of it would fit in {places}, if {changes}", places=places, changes=join_list(things))
    return say("It would fit in {places}, if {changes}", places=places, changes=join_list(things))


def _weakest(of: GardenPuzzle, release: Release) -> list[Rule]:
    """The rules that are given up; of one family the soonest return says it all."""
    found: dict[tuple[str, str], Rule] = {}
    for number in release.rules:
        rule = of.rules[number]
        key = (rule.kind, rule.key)
        if key not in found or (rule.kind == "rotation" and rule.value < found[key].value):
            found[key] = rule
    return list(found.values())


def _wanted_years(of: GardenPuzzle, release: Release) -> float | None:
    """Years after which its family is to come back."""
    years = interval(of.offers[release.places[0].option].way.view)
    return years.wanted if years is not None else None


def place_words(of: GardenPuzzle, choice: Choice) -> str:
    """A bed and where along it."""
    strip = of.offers[choice.option].strip
    start = show_length(choice.start * strip.step, of.plan.garden.site.units)
    return say("{bed} from {start} on", bed=strip.bed.name, start=start)


def hardest(rules: Iterable[Rule]) -> list[Rule]:
    """Rules, of those of one kind for light the one by which the most hours are missing."""
    dark = max((one.value for one in rules if one.kind == "light"), default=0.0)
    return [one for one in rules if one.kind != "light" or one.value == dark]


def forbids_words(of: GardenPuzzle, rule: Rule) -> str:
    """What a rule keeps the ground for, or from: ``the pea family (Fabaceae) 2 years before``."""
    plan = of.plan
    match rule.kind:
        case "rotation" if round(rule.value) == 0:
            return say("{family} earlier in the year", family=family_words(rule.key))
        case "rotation":
            return say_count(
                "{family} {count} year before",
                "{family} {count} years before",
                round(rule.value),
                family=family_words(rule.key),
            )
        case "light":
            return say("{hours} h of sun a day too little", hours=number_words(rule.value, 1))
        case "depth":
            return say("soil that is too shallow")
        case "stands":
            planting = plan.garden.plantings_by_id[rule.key]
            return say(
                "{crop} in {bed}", crop=plan.catalogue.name_of(planting.crop), bed=plan.bed_of(planting).name
            )
    return say("what is built")


def most_words(of: GardenPuzzle, wish: Wish, most: MostThatFits) -> str:
    """How much of a wish has room, and where."""
    units = of.plan.garden.site.units
    if wish.amount is None:
        return say("There is room for some of it in {bed}", bed=most.offer.strip.bed.name)
    unit = "g" if wish.unit == "people" else wish.unit
    amount = round(most.amount) if unit in ("plants", "g") else most.amount
    words = wish_amount(wish.with_(amount=max(amount, 1e-6), unit=unit), units)
    bed, span = most.offer.strip.bed.name, most.offer.way.span
    start = show_length(most.start * most.offer.strip.step, units)
    if span.open:
        return say("There is room for {amount} in {bed}, from {start} on", amount=words, bed=bed, start=start)
    return say(
        "There is room for {amount} in {bed}, from {start} on, {first} to {last}",
        amount=words,
        bed=bed,
        start=start,
        first=day_words(span.first, of.plan.year),
        last=day_words(span.last, of.plan.year),
    )


def rule_words(of: GardenPuzzle, rule: Rule, wanted: float | None = None) -> str:
    """What would be so if a rule were given up, a part of a sentence after "if".

    Parameters
    ----------
    of : GardenPuzzle
    rule : Rule
    wanted : float, optional
        Years after which a family is to come back. [years]
    """
    plan = of.plan
    match rule.kind:
        case "rotation":
            return _sooner_words(rule, wanted)
        case "light":
            return say("{hours} h less sun a day would do", hours=number_words(rule.value, 1))
        case "depth":
            return say("shallower soil would do")
        case "stands":
            planting = plan.garden.plantings_by_id[rule.key]
            return say(
                "{crop} in {bed} were not there",
                crop=plan.catalogue.name_of(planting.crop),
                bed=plan.bed_of(planting).name,
            )
    return say("nothing were built there")


def _sooner_words(rule: Rule, wanted: float | None) -> str:
    family, years = family_words(rule.key), round(rule.value)
    if years == 0:
        return say("{family} may come back in the same year", family=family)
    if wanted is None:
        return say_count(
            "{family} may come back after {count} year",
            "{family} may come back after {count} years",
            years,
            family=family,
        )
    return say_count(
        "{family} may come back after {count} year instead of {wanted}",
        "{family} may come back after {count} years instead of {wanted}",
        years,
        family=family,
        wanted=significant(wanted),
    )
