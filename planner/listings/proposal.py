"""A proposed layout, as lines: what stands where and why, what is not met and what would help."""

from __future__ import annotations

from collections.abc import Iterator

from planner.garden import Planting
from planner.garden.units import show_length
from planner.garden.wishes import Weight, Wish
from planner.ground.stretches import bed_length
from planner.listings.proposal_rules import (
    forbids_words,
    hardest,
    most_words,
    release_words,
)
from planner.listings.shut_beds import shut_words
from planner.listings.turn import crop_and_variety, wish_words
from planner.listings.wishes_in_part import met_words, part_line
from planner.plan import Plan
from planner.proposal.in_part import parts_met
from planner.proposal.layouts import garden_with
from planner.proposal.offers import GardenPuzzle
from planner.proposal.propose import Proposal
from planner.proposal.reasons import Placement, Reasons
from planner.proposal.release import Hopeless, Release
from planner.season.spans import Span
from planner.words import (
    capital,
    day_words,
    join_list,
    later,
    percent,
    say,
    say_count,
    say_in_context,
)

_HOPELESS = {
    Hopeless.TOO_LONG: later("It is longer than the beds, divided or not"),
    Hopeless.HELD: later("What is built, or was found by the checks, leaves no room for it"),
}

#: What counts where a layout is proposed, by the field of its weight.
WEIGHT_WORDS: dict[str, str] = {
    "shade": later("Tall crops that take the sun of what needs it"),
    "neighbours": later("Bad neighbours in one bed, and good ones that are not"),
    "splitting": later("Wishes divided over several beds"),
    "scattering": later("Families scattered over many beds"),
    "covers": later("Beds that need a cover of their own"),
    "walking": later("Crops that are picked often, far from the gate"),
    "change": later("Plantings that stand elsewhere than before"),
    "bare_summer": later("Ground that lies bare in summer"),
    "bare_winter": later("Ground that lies bare in winter"),
    "watering": later("Crops in one bed that want water unlike often"),
}
#: What may be a limit of a layout, by its field.
LIMIT_WORDS: dict[str, str] = {
    "within_benches": later("No more is raised at one time than the benches hold"),
    "within_covers": later("No more lies under covers at one time than the shed has"),
}
#: How much it counts.
STEP_WORDS: dict[Weight, str] = {
    "off": later("does not count"),
    "some": later("counts some"),
    "much": later("counts much"),
}


def proposal_lines(proposal: Proposal, reasons: Reasons | None = None) -> list[str]:
    """Print a proposed layout.

    Parameters
    ----------
    proposal : Proposal
    reasons : Reasons, optional
        With which each placement says why it is there.
    """
    of = proposal.of
    garden = garden_with(of, proposal.layout)
    plan = of.plan.what_if(garden)
    lines = head_lines(proposal)
    placements = {one.wish.id: one for one in reasons.placements()} if reasons is not None else {}
    new = [one for one in garden.plantings if one.id not in of.plan.garden.plantings_by_id]
    for strip in of.strips:
        there = sorted(
            (one for one in new if one.bed == strip.bed.id), key=lambda one: (plan.span_of(one).first, one.id)
        )
        if there:
            lines += ["", strip.bed.name]
        for planting in there:
            lines.append(f"  {planting_words(plan, planting)}")
            placement = placements.get(planting.wish or "")
            if placement is not None:
                lines += [f"    {line}" for line in why_lines(of, placement)]
    part = list(rest_lines(proposal, reasons))
    if part:
        lines += ["", say("Met in part"), *(f"  {line}" for line in part)]
    unmet = list(unmet_lines(proposal, reasons))
    if unmet:
        lines += ["", say("Not met"), *(f"  {line}" for line in unmet)]
    return lines


def head_lines(proposal: Proposal) -> list[str]:
    """How many wishes are met, how good the layout is, and whether the checks were asked."""
    of, unmet = proposal.of, proposal.unmet
    total = len(of.wishes)
    part = proposal.in_part
    lines = [
        say_count(
            "Layout of {year}: {met} of {count} wish is met",
            "Layout of {year}: {met} of {count} wishes are met",
            total,
            year=of.plan.year,
            met=total - len(unmet) - len(part),
        )
    ]
    if part:
        names = join_list(of.plan.catalogue.name_of(one.crop) for one in part)
        lines.append(
            say_count(
                "{count} more is met in part: {crops}",
                "{count} more are met in part: {crops}",
                len(part),
                crops=names,
            )
        )
    if of.met:
        lines.append(
            say_count("{count} more is met by what stays", "{count} more are met by what stays", len(of.met))
        )
    musts = [one for one in unmet if one.importance == "must"]
    if musts:
        names = join_list(of.plan.catalogue.name_of(one.crop) for one in musts)
        lines.append(say("Of those that must be met these are not: {crops}", crops=names))
    lines.append(gap_words(proposal))
    if not proposal.of.plan.garden.climate.last_frost and not proposal.of.plan.garden.climate.frost_free:
        lines.append(say("The garden's frosts are not given: its dates are those of no season"))
    if proposal.judged:
        lines.append(
            say(
                "The checks find nothing that stops a planting, and no rotation that is too short; what they mind is told by the findings"
            )
        )
    return lines


def gap_words(proposal: Proposal) -> str:
    """How much better a layout could be at the most."""
    if not proposal.solver:
        return say(
            "This is the first answer: better ones are searched for where OR-Tools is installed (pip install ortools)"
        )
    gap = proposal.gap
    if gap is None:
        return say("How much better it could be is not proven")
    if gap == 0:
        return say("No layout is better by what counts here")
    return say("At most {share} of what it costs could still be saved", share=percent(gap))


def planting_words(plan: Plan, planting: Planting) -> str:
    """A planting with its place, its number and its days."""
    units = plan.garden.site.units
    span = plan.span_of(planting)
    plot = planting.plot
    name = plan.catalogue.name_of(planting.crop)
    if planting.variety:
        name = say("{crop} '{variety}'", crop=name, variety=planting.variety)
    bed = plan.bed_of(planting)
    start, end = (plot.start, plot.end) if plot.kind == "stretch" else (0.0, bed_length(bed))
    plants = say_count("{count} plant", "{count} plants", plan.placed(planting).plants)
    return say(
        "{start} to {end}: {crop}, {plants}, {begun} {days}",
        start=show_length(start, units),
        end=show_length(end, units),
        crop=name,
        plants=plants,
        begun=_begun_words(plan, planting),
        days=days_words(plan, span),
    )


def planting_cells(plan: Plan, planting: Planting) -> tuple[str, ...]:
    """A planting as the cells of a table: crop, bed, from and to along it, how many, days."""
    units = plan.garden.site.units
    span, plot, bed = plan.span_of(planting), planting.plot, plan.bed_of(planting)
    start, end = (plot.start, plot.end) if plot.kind == "stretch" else (0.0, bed_length(bed))
    return (
        capital(crop_and_variety(plan, planting.crop, planting.variety)),
        bed.name,
        say("{start} to {end}", start=show_length(start, units), end=show_length(end, units)),
        say_count("{count} plant", "{count} plants", plan.placed(planting).plants),
        days_words(plan, span),
    )


def days_words(plan: Plan, span: Span) -> str:
    """From when to when a planting takes its ground; only from when, where it stays for years."""
    first = day_words(span.first, plan.year)
    if span.open:
        return say("from {first} on", first=first)
    return say("{first} to {last}", first=first, last=day_words(span.last, plan.year))


def _begun_words(plan: Plan, planting: Planting) -> str:
    start = plan.dates(planting).start
    if start == "sown":
        return say("sown")
    return say_in_context("done", "set out") if start in ("raised", "bought") else say("planted")


# -- why there ---------------------------------------------------------------------------------------


def why_lines(of: GardenPuzzle, placement: Placement) -> Iterator[str]:
    """Why a wish is met where it is.

    Parameters
    ----------
    of : GardenPuzzle
    placement : Placement
    """
    if placement.part is not None:
        yield from part_line(placement.wish, placement.part, of.plan.garden.site.units)
    if placement.waived:
        yield say("Its family may come back there sooner, as you said: {reason}", reason=placement.waived)
    shut = shut_words(of, placement.others)
    open_ = [one for one in placement.others if one.verdict == "dearer"]
    if not placement.others:
        yield say("No other bed is of its kind")
    elif shut:
        yield say("Other beds: {reasons}", reasons=shut)
    if open_:
        best = open_[0]
        name = of.strips[best.bed].bed.name
        if best.dearer > 0:
            yield say_count(
                "{bed} would cost {count} point more",
                "{bed} would cost {count} points more",
                best.dearer,
                bed=name,
            )
        else:
            yield say("{bed} would do as well", bed=name)


# -- what is not met ---------------------------------------------------------------------------------


def unmet_lines(proposal: Proposal, reasons: Reasons | None = None) -> Iterator[str]:
    """Each wish that is not met, why, and what would help.

    Parameters
    ----------
    proposal : Proposal
    reasons : Reasons, optional
    """
    for wish in proposal.unmet:
        yield wish_words(proposal.of.plan, wish.with_(reason=""))
        yield from (f"  {line}" for line in unmet_why_lines(proposal, reasons, wish))


def rest_lines(proposal: Proposal, reasons: Reasons | None = None) -> Iterator[str]:
    """Each wish that is met in part, how much of it, and what it would take to meet all of it.

    Parameters
    ----------
    proposal : Proposal
    reasons : Reasons, optional
    """
    of = proposal.of
    for number, met in parts_met(of, proposal.layout).items():
        wish = of.wishes[number]
        name = capital(crop_and_variety(of.plan, wish.crop, wish.variety))
        yield say("{crop}: {amount}", crop=name, amount=met_words(wish, met, of.plan.garden.site.units))
        yield from (f"  {line}" for line in rest_why_lines(proposal, reasons, wish))


def rest_why_lines(proposal: Proposal, reasons: Reasons | None, wish: Wish) -> Iterator[str]:
    """What it would take to meet all of a wish that is met in part.

    Parameters
    ----------
    proposal : Proposal
    reasons : Reasons, optional
    wish : Wish
    """
    of = proposal.of
    number = of.wishes.index(wish)
    if number in of.impossible:
        yield capital(of.impossible[number])
    elif reasons is not None:
        release = reasons.release(number)
        if isinstance(release, Release):
            yield release_words(of, release, whole=True)
        elif release is not Hopeless.NO_OPTIONS:
            yield say(_HOPELESS[release])


def unmet_why_lines(proposal: Proposal, reasons: Reasons | None, wish: Wish) -> Iterator[str]:
    """Why a wish is not met, and what would help.

    Parameters
    ----------
    proposal : Proposal
    reasons : Reasons, optional
    wish : Wish
    """
    of = proposal.of
    number = of.wishes.index(wish)
    if number in of.impossible:
        yield capital(of.impossible[number])
    elif reasons is not None:
        yield from _unmet_words(of, reasons, number, wish)


def _unmet_words(of: GardenPuzzle, reasons: Reasons, number: int, wish: Wish) -> Iterator[str]:
    others = reasons.beds_of(number)
    shut = shut_words(of, others)
    if shut:
        yield say("Beds that may have it: {reasons}", reasons=shut)
    most = reasons.most_that_fits(number)
    if most is not None:
        yield most_words(of, wish, most)
    release = reasons.release(number)
    if isinstance(release, Release):
        yield release_words(of, release)
    elif release is not Hopeless.NO_OPTIONS:
        yield say(_HOPELESS[release])


def forbidding_lines(proposal: Proposal, reasons: Reasons) -> list[str]:
    """All that forbids each wish that is not met: without any one of these things, all else given up, it would fit.

    Parameters
    ----------
    proposal : Proposal
    reasons : Reasons
    """
    of = proposal.of
    lines = [
        say(
            "What forbids the wishes that are not met: as long as all of these hold there is no place for it, whatever else gives way"
        )
    ]
    for wish in (*proposal.in_part, *proposal.unmet):
        number = of.wishes.index(wish)
        if number in of.impossible:
            continue
        rules, wishes = reasons.forbidding(number)
        things = list(dict.fromkeys(forbids_words(of, rule) for rule in hardest(rules)))
        things += [say("the place of {crop}", crop=of.plan.catalogue.name_of(one.crop)) for one in wishes]
        if things:
            what = wish_words(of.plan, wish.with_(reason=""))
            lines.append("  " + say("{wish}: {things}", wish=what, things=join_list(things)))
    return lines


def unlike_lines(best: Proposal, other: Proposal, number: int) -> list[str]:
    """An unlike layout: how it differs from the best one.

    Parameters
    ----------
    best, other : Proposal
        Of one puzzle.
    number : int
        Of the other.
    """
    of = best.of
    here, there = (_beds_of_wishes(one) for one in (best, other))
    more = other.cost - best.cost
    lines = [
        say_count(
            "Another layout, {number}, costs {count} point more",
            "Another layout, {number}, costs {count} points more",
            more,
            number=number,
        )
        if more >= 0
        else say_count(
            "Another layout, {number}, costs {count} point less",
            "Another layout, {number}, costs {count} points less",
            -more,
            number=number,
        )
    ]
    for at, wish in enumerate(of.wishes):
        if here.get(at) == there.get(at):
            continue
        name = of.plan.catalogue.name_of(wish.crop)
        if at not in there:
            lines.append("  " + say("{crop}: not met", crop=name))
        else:
            beds = join_list(of.strips[bed].bed.name for bed in there[at])
            lines.append("  " + say("{crop}: {beds}", crop=name, beds=beds))
    return lines


def _beds_of_wishes(proposal: Proposal) -> dict[int, tuple[int, ...]]:
    found: dict[int, tuple[int, ...]] = {}
    for choice in proposal.layout:
        option = proposal.of.puzzle.options[choice.option]
        found[option.wish] = tuple(sorted((*found.get(option.wish, ()), option.bed)))
    return found
