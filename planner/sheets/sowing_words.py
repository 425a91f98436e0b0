"""How a planting is sown or planted, and how much seed it takes, in words for paper."""

from __future__ import annotations

from planner.amounts import Amount
from planner.crops import Figure
from planner.garden.planting_figures import PlantingFigures
from planner.garden.units import FOOT, show_mass
from planner.plan import Plan
from planner.sheets.tape_measure import TapeMeasure
from planner.words import capital, join_list, later, number_words, say, say_count, whole_words

#: Starts for which a depth in the bed is printed.
_PUT_IN_SOIL = ("sown", "sets", "tubers", "cloves", "crowns")
_PLANTED = {
    "raised": later("Raise, and set out one at each mark"),
    "sets": later("Plant a set at each mark, its tip just showing"),
    "tubers": later("Plant a tuber at each mark"),
    "cloves": later("Plant a clove at each mark, its flat end down"),
    "crowns": later("Plant a crown at each mark"),
    "standing": later("Already growing"),
}


def depth_words(figures: PlantingFigures, start: str, measure: TapeMeasure) -> str:
    """How deep a planting goes into the soil of its bed; empty where that is not known, and of plants in leaf.

    Parameters
    ----------
    figures : PlantingFigures
    start : str
        How it starts.
    measure : TapeMeasure
    """
    depth = figures.number("sowing_depth") if start in _PUT_IN_SOIL else None
    return measure.depth(depth) if depth is not None else ""


def how_words(plan: Plan, part: Amount, measure: TapeMeasure) -> str:
    """How a planting is sown or planted, a sentence without its full stop.

    Parameters
    ----------
    plan : Plan
    part : Amount
        Of the planting.
    measure : TapeMeasure
    """
    planting, figures = part.planting, plan.figures_of(part.planting)
    if part.start == "bought":
        what = planting.bought_as(say("bought plants"))
        words = say("Set out {plants}, one at each mark", plants=what)
    elif part.start != "sown":
        words = say(_PLANTED[part.start])
    elif planting.arrangement.kind == "scatter":
        words = _scattered(part, measure)
    elif part.sowing == "drill":
        words = _drill(plan, part, figures, measure)
    else:
        each = part.seeds_per_station
        words = (
            say("Sow at each mark")
            if each is None
            else say("Sow 1 seed at each mark")
            if each == 1
            else say_count(
                "Sow {count} seed at each mark; thin to the strongest",
                "Sow {count} seeds at each mark; thin to the strongest",
                each,
            )
        )
    guessed = [
        name
        for field, name in (("sowing_depth", say("depth")), ("sowing_spacing", say("seeds in the drill")))
        if is_estimate(figures, field) and (field != "sowing_spacing" or part.sowing == "drill")
    ]
    if guessed and part.start in (*_PUT_IN_SOIL, "raised"):
        words = say("{words} (our estimate: {figures})", words=words, figures=join_list(guessed))
    return words


def _scattered(part: Amount, measure: TapeMeasure) -> str:
    if not part.seeds or not part.area:
        return say("Scatter evenly over the plot, rake in")
    if measure.units == "metric":
        return say(
            "Scatter evenly over the plot, {seeds} seeds to the square metre; rake in",
            seeds=_about(part.seeds / part.area),
        )
    return say(
        "Scatter evenly over the plot, {seeds} seeds to the square foot; rake in",
        seeds=_about(part.seeds / part.area * FOOT**2),
    )


def _drill(plan: Plan, part: Amount, figures: PlantingFigures, measure: TapeMeasure) -> str:
    apart = figures.number("sowing_spacing")
    final = plan.placed(part.planting).layout.in_row_spacing
    thinned = part.thinned_from is not None and part.thinned_from > part.plants
    if apart and thinned:
        if final and measure.units == "metric":
            return say(
                "Sow in a drill, {seeds} seeds to the metre; thin to one every {spacing}",
                seeds=_about(1.0 / apart),
                spacing=measure.spacing(final),
            )
        if final:
            return say(
                "Sow in a drill, {seeds} seeds to the foot; thin to one every {spacing}",
                seeds=_about(FOOT / apart),
                spacing=measure.spacing(final),
            )
    if final:
        return say("Sow in a drill, one seed every {spacing}", spacing=measure.spacing(final))
    return say("Sow in a drill")


def _about(number: float) -> str:
    """A number of seeds, to two figures where it is large."""
    if number >= 100:
        return whole_words(round(number / 10) * 10)
    return number_words(number, 0 if number >= 3 else 1)


def seed_words(part: Amount, measure: TapeMeasure) -> str:
    """Seed, or plants to have ready; empty where neither is known."""
    words = []
    if part.raise_:
        words.append(say_count("{count} seed", "{count} seeds", part.raise_))
    elif part.seeds:
        number = whole_words(part.seeds)
        words.append(say("{count} seeds", count=number))
    if part.seeds and part.seed_grams:
        words.append(show_mass(part.seed_grams, measure.units))
    return ", ".join(words)


def plants_words(part: Amount) -> str:
    """Number of plants and rows: ``256 plants in 4 rows``, ``32 tubers in 2 rows``."""
    noun = part.start if part.start in ("sets", "tubers", "cloves", "crowns") else "plants"
    count = whole_words(part.plants)
    number = say(_NOUNS[noun], count=count) if part.plants != 1 else say(_ONE[noun])
    if not part.rows:
        return number
    return say_count("{plants} in {count} row", "{plants} in {count} rows", part.rows, plants=number)


_NOUNS = {
    "plants": later("{count} plants"),
    "sets": later("{count} sets"),
    "tubers": later("{count} tubers"),
    "cloves": later("{count} cloves"),
    "crowns": later("{count} crowns"),
}
_ONE = {
    "plants": later("1 plant"),
    "sets": later("1 set"),
    "tubers": later("1 tuber"),
    "cloves": later("1 clove"),
    "crowns": later("1 crown"),
}


def is_estimate(figures: PlantingFigures, field: str) -> bool:
    """Whether a figure of the crop is our own estimate, and no own one stands in its place."""
    own = figures.variety.number(field) if figures.variety is not None else None
    published = getattr(figures.crop, field, None)
    return own is None and isinstance(published, Figure) and published.provenance == "estimate"


def warnings_of(part: Amount, *more: tuple[str, ...]) -> list[str]:
    """What is odd or not known of a planting, a sentence each with its full stop."""
    found = (part.problem, *part.missing, *(text for texts in more for text in texts))
    return [say("{sentence}.", sentence=capital(text)) for text in dict.fromkeys(found) if text]
