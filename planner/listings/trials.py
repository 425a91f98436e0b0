"""What trials show, in words."""

from __future__ import annotations

from planner.amounts.trials import Comparison, TrialResult, trial_results
from planner.garden.site import UnitSystem
from planner.listings.tables import aligned
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.words import join_list, number_words, percent, say, say_count

#: Square feet in a square metre.
_SQUARE_FEET = 10.7639
#: Chance up to which a difference is taken for more than chance.
RARE = 0.05


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
        heads = (say("treatment"), say("plantings"), say("mean"), say("spread"))
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
    if result.unmeasured:
        places = [_place(plan, key) for key in result.unmeasured]
        lines.append(say("Nothing is recorded of {plantings}.", plantings=join_list(places)))
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
    if len(result.comparisons) > 1 and any(one.low is not None for one in result.comparisons):
        lines.append(
            say(
                "The intervals hold together with 95 %, and the chances are those of all comparisons at once."
            )
        )
    return lines


def _comparison(result: TrialResult, one: Comparison, units: UnitSystem) -> str:
    difference = value_words(result, one.difference, units)
    if one.low is None or one.high is None or one.chance is None:
        return _seen_only(result, one, difference)
    seen = say(
        "{first} has {difference} more than {second}; with 95 % it is between {low} and {high}.",
        first=one.first,
        second=one.second,
        difference=difference,
        low=value_words(result, one.low, units),
        high=value_words(result, one.high, units),
    )
    return say("{seen} {verdict}", seen=seen, verdict=_verdict(one))


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
            "{first} has {difference} more than {second}. One planting of each: the difference is seen, whether it is more than chance "
            "cannot be told.",
            first=one.first,
            second=one.second,
            difference=difference,
        )
    return say(
        "{first} has {difference} more than {second}. Of one of them there is one planting only: whether the difference is more than chance "
        "cannot be told.",
        first=one.first,
        second=one.second,
        difference=difference,
    )


def _verdict(one: Comparison) -> str:
    """What chance alone would give."""
    chance = one.chance or 0.0
    share = percent(chance) if chance >= 0.01 else say("less than 1 %")
    if one.least is not None and one.least > RARE:
        return say(
            "So few plantings cannot show more: chance alone gives even the clearest result in {least} of cases, and this one in {share}.",
            least=percent(one.least),
            share=share,
        )
    if chance <= RARE:
        return say(
            "Chance alone gives as much in {share} of cases: the difference is most likely real.", share=share
        )
    return say(
        "Chance alone gives as much in {share} of cases: the trial shows no difference, which does not say that there is none.",
        share=share,
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
