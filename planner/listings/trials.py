"""What trials show, in words."""

from __future__ import annotations

from planner.amounts.trials import Comparison, TrialResult, trial_results
from planner.garden.site import UnitSystem
from planner.listings.left_out import cause_words
from planner.listings.tables import aligned
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.words import capital, day_words, join_list, number_words, percent, say, say_count, say_in_context

#: Square feet in a square metre.
_SQUARE_FEET = 10.7639


def trials_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print what the trials of a garden show.

    Parameters
    ----------
    plan : Plan
        Of any growing year.
    room : int, optional
        Width of tables; any by default. [columns]
    """
    lines = [say("{garden}, trials", garden=plan.garden.site.name)]
    results = trial_results(plan)
    if not results:
        return [*lines, "", say("The garden has no trial.")]
    for one in results:
        lines += ["", *trial_lines(plan, one, room)]
    return lines


def trial_lines(plan: Plan, result: TrialResult, room: int | None = None) -> list[str]:
    """Print what one trial shows: its question, its treatments, and what may be concluded.

    Parameters
    ----------
    plan : Plan
    result : TrialResult
    room : int, optional
        Width of tables; any by default. [columns]
    """
    units, trial = plan.garden.site.units, result.trial
    lines = [trial.question]
    if trial.measure:
        lines.append(say("Compared by {measure}.", measure=trial.measure))
    else:
        lines.append(say("Compared by what was picked from the same area of ground."))
    if result.units_differ:
        lines.append(
            say(
                "It was measured in {units}, so nothing can be compared: write it down in one unit.",
                units=join_list(result.units_differ),
            )
        )
        return lines
    if result.treatments:
        heads = (
            say("treatment"),
            say("plantings"),
            say("mean"),
            say_in_context("of several values", "spread"),
        )
        rows = [
            (
                one.name,
                str(len(one.values)),
                value_words(result, one.mean, units),
                value_words(result, one.deviation, units) if one.deviation is not None else "",
            )
            for one in result.treatments
        ]
        lines += aligned(heads, rows, right=(1, 2, 3), room=room)
    lines += conclusions(result, units)
    lines += lost_lines(plan, result)
    if result.unmeasured:
        places = [_place(plan, key) for key in result.unmeasured]
        lines.append(say("Nothing is recorded of {plantings}.", plantings=join_list(places)))
    return lines


def lost_lines(plan: Plan, result: TrialResult) -> list[str]:
    """Which plantings of a trial were lost, and whether they count.

    Parameters
    ----------
    plan : Plan
    result : TrialResult
    """
    lines = []
    for one in result.lost:
        place, cause = capital(_place(plan, one.planting)), cause_words(one.cause)
        day = day_words(one.day, plan.year)
        if result.trial.lost_counts and not result.trial.measure:
            lines.append(
                say(
                    "{planting}, lost on {day} ({cause}), counts as nothing picked.",
                    planting=place,
                    cause=cause,
                    day=day,
                )
            )
        else:
            lines.append(
                say(
                    "{planting}, lost on {day} ({cause}), is left out; let lost plantings count if the trial is about that.",
                    planting=place,
                    cause=cause,
                    day=day,
                )
            )
    return lines


def conclusions(result: TrialResult, units: UnitSystem) -> list[str]:
    """What a trial shows and does not show, a sentence or more for each two treatments.

    Parameters
    ----------
    result : TrialResult
    units : UnitSystem
    """
    if len(result.treatments) < 2:
        return [say("There is nothing to compare yet: two treatments must be measured.")]
    lines = [_comparison(result, one, units) for one in result.comparisons]
    if result.incomplete:
        lines.append(
            say_count(
                "Compared are only blocks with all treatments: what stands in block {blocks} counts in the means of the table alone.",
                "Compared are only blocks with all treatments: what stands in blocks {blocks} counts in the means of the table alone.",
                len(result.incomplete),
                blocks=join_list(result.incomplete),
            )
        )
    if len(result.comparisons) > 1 and any(one.low is not None for one in result.comparisons):
        lines.append(
            say(
                "The intervals hold together with 95 %, and the chances are those of all comparisons at once."
            )
        )
    return lines


def _comparison(result: TrialResult, one: Comparison, units: UnitSystem) -> str:
    """What two treatments show: the verdict, with the interval and the chance that support it."""
    difference = value_words(result, one.difference, units)
    if one.low is None or one.high is None or one.by_t is None:
        return _seen_only(result, one, difference)
    low, high = value_words(result, one.low, units), value_words(result, one.high, units)
    if one.verdict == "real":
        return say(
            "{first} has {difference} more than {second}, and that is most likely more than chance: with 95 % it is between {low} and "
            "{high}, and chance alone gives as much in {share} of cases.",
            first=one.first,
            second=one.second,
            difference=difference,
            low=low,
            high=high,
            share=_share(one.by_t),
        )
    if one.verdict == "no difference":
        more = (
            say_count(
                "{first} has {difference} more than {second} in {count} block",
                "{first} has {difference} more than {second} in {count} blocks",
                result.blocks,
                first=one.first,
                second=one.second,
                difference=difference,
            )
            if one.method == "blocks"
            else say(
                "{first} has {difference} more than {second}",
                first=one.first,
                second=one.second,
                difference=difference,
            )
        )
        return say(
            "This trial does not show which has more: {more}, but chance alone gives as much in {share} of cases, and with 95 % it is "
            "between {low} and {high}.",
            more=more,
            low=low,
            high=high,
            share=_share(one.by_t),
        )
    return say(
        "{first} has {difference} more than {second}, but so few plantings cannot prove it: with 95 % it is between {low} and {high} if "
        "plots scatter as usual, yet of all ways in which chance could have laid them out {share} give as much.",
        first=one.first,
        second=one.second,
        difference=difference,
        low=low,
        high=high,
        share=_share(one.chance or 0.0),
    )


def _share(chance: float) -> str:
    return percent(chance) if chance >= 0.01 else say("less than 1 %")


def _seen_only(result: TrialResult, one: Comparison, difference: str) -> str:
    counts = {each.name: len(each.values) for each in result.treatments}
    if one.difference == 0:
        return say(
            "{first} and {second} are the same here; whether they always are cannot be told from so few plantings.",
            first=one.first,
            second=one.second,
        )
    if counts[one.first] == counts[one.second] == 1:
        return say(
            "{first} has {difference} more than {second}, which with one bed of each can prove nothing.",
            first=one.first,
            second=one.second,
            difference=difference,
        )
    return say(
        "{first} has {difference} more than {second}, which can prove nothing as long as there is only one bed of one of them.",
        first=one.first,
        second=one.second,
        difference=difference,
    )


def value_words(result: TrialResult, value: float, units: UnitSystem) -> str:
    """A value of a trial with its unit.

    Parameters
    ----------
    result : TrialResult
    value : float
        In the unit of the trial, grams a square metre of what was picked.
    units : UnitSystem
    """
    if not result.trial.measure:
        grams = abs(value) / (_SQUARE_FEET if units == "feet_inches" else 1.0)
        weight = weight_words(grams, units)
        signed = say("-{weight}", weight=weight) if value < 0 else weight
        if units == "feet_inches":
            return say("{weight} a square foot", weight=signed)
        return say("{weight} a square metre", weight=signed)
    digits = 0 if abs(value) >= 100 else 1 if abs(value) >= 10 else 2
    number = number_words(value, digits)
    return say("{number} {unit}", number=number, unit=result.unit) if result.unit else number


def _place(plan: Plan, key: str) -> str:
    planting = plan.garden.plantings_by_id[key]
    crop = plan.catalogue.get(planting.crop)
    name = crop.name if crop is not None else planting.crop
    bed = plan.bed_of(planting).name
    if planting.variety:
        return say("{crop} {variety} in {bed}", crop=name, variety=planting.variety, bed=bed)
    return say("{crop} in {bed}", crop=name, bed=bed)


def plots_words(count: int) -> str:
    """How many plots a trial was laid out on."""
    return say_count("{count} plot", "{count} plots", count)
