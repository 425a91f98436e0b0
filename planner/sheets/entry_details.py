"""The details of a planting on its bed's sheet: labels, each with a text."""

from __future__ import annotations

from planner.crops import Figure
from planner.listings.phrases import PURPOSE_WORDS, START_SENTENCES, counted, grams, span
from planner.sheets.printed_planting import PrintedPlanting
from planner.words import capital, say

#: Starts for which the depth in the bed is printed.
_WITH_DEPTH = ("sown", "raised", "sets", "tubers", "cloves", "crowns")


def details(printed: PrintedPlanting) -> list[tuple[str, str]]:
    """Return the labels of a planting's details with their texts; what is not known is left out."""
    planting, part, dates = printed.planting, printed.amount, printed.dates
    pairs = [
        ("Start", _start(printed)),
        ("Sowing depth" if part.start == "raised" else "Depth", _depth(printed)),
        ("Seed", _seed(printed)),
        ("To have ready", _to_have_ready(printed)),
        ("Plot", _plot(printed)),
        ("In the bed", _days(printed)),
        ("Cover", "; ".join(_covers(printed))),
        ("Support", _support(printed)),
        ("Use", PURPOSE_WORDS[planting.purpose] if planting.purpose != "kitchen" else ""),
        ("For", planting.product),
        ("Tended by", planting.tended_by),
    ]
    warnings = (part.problem, *part.missing, *dates.missing, *dates.doubts)
    pairs += [("Warning", f"{capital(text)}.") for text in warnings if text]
    return [(label, text) for label, text in pairs if text]


def _start(printed: PrintedPlanting) -> str:
    part = printed.amount
    words = START_SENTENCES[part.start]
    if part.start == "sown":
        if printed.planting.arrangement.kind == "scatter":
            return "sown in place, broadcast"
        words += ", in a drill" if part.sowing == "drill" else ", plant by plant"
    return words


def _depth(printed: PrintedPlanting) -> str:
    return _spacing_figure(printed, "sowing_depth") if printed.amount.start in _WITH_DEPTH else ""


def _spacing_figure(printed: PrintedPlanting, field: str) -> str:
    """A spacing or depth, marked where it is an estimate; empty where unknown."""
    figures = printed.plan.figures_of(printed.planting)
    value = figures.number(field)
    if value is None:
        return ""
    own = figures.variety.number(field) if figures.variety is not None else None
    published = getattr(figures.crop, field, None)
    guess = own is None and isinstance(published, Figure) and published.provenance == "estimate"
    return printed.measure.spacing(value) + (" (estimate)" if guess else "")


def _seed(printed: PrintedPlanting) -> str:
    """How a planting sown in place is sown and thinned."""
    part = printed.amount
    if part.start != "sown":
        return ""
    if part.sowing == "drill":
        return _drill(printed)
    each = part.seeds_per_station
    if each is None:
        return ""
    if printed.planting.arrangement.kind == "scatter":
        return f"{counted(each, 'seed')} for every plant"
    return f"{counted(each, 'seed')} for each plant" + ("; thin to 1" if each > 1 else "")


def _drill(printed: PrintedPlanting) -> str:
    apart = _spacing_figure(printed, "sowing_spacing")
    final = printed.plan.placed(printed.planting).layout.in_row_spacing
    thin = printed.measure.spacing(final) if final else ""
    if apart and thin:
        return f"one every {apart} in the drill; thin to {thin}"
    return f"one every {thin}" if thin else ""


def _to_have_ready(printed: PrintedPlanting) -> str:
    part = printed.amount
    words = []
    if part.raise_:
        words.append(f"sow {counted(part.raise_, 'seed')} to have {counted(part.plants, 'plant')}")
    elif part.seeds:
        words.append(counted(part.seeds, "seed"))
    if part.acquire:
        bought = printed.planting.bought_as("plants") if part.start == "bought" else part.start
        noun = bought.removesuffix("s")
        words.append(counted(part.acquire, noun))
    if part.seeds and part.seed_grams:
        words.append(f"{grams(part.seed_grams)} of seed")
    return ", ".join(words)


def _plot(printed: PrintedPlanting) -> str:
    plot = printed.plan.placed(printed.planting).plot
    if plot.is_empty:
        return ""
    area = printed.measure.area(printed.amount.area)
    kind = printed.planting.plot.kind
    if kind == "whole":
        return f"the whole bed, {area}"
    left, low, right, high = (float(v) for v in printed.frame.shape(plot).bounds)
    length = printed.measure.length
    words = f"{length(left)} to {length(right)} along the bed"
    if kind == "region":
        words += f", {length(low)} to {length(high)} across it"
    return f"{words}; {area}"


def _days(printed: PrintedPlanting) -> str:
    """Days on its plot; empty where neither dates nor hand say so."""
    planting, dates = printed.planting, printed.dates
    days = printed.plan.span_of(planting)
    first = days.first if dates.on_plot is not None or planting.first else None
    last = days.last if dates.off_plot is not None or planting.last else None
    return span(first, last)


def _covers(printed: PrintedPlanting) -> list[str]:
    """Covers; their days are at the boxes, or here where they are not known there."""
    crop = printed.plan.figures_of(printed.planting).crop
    pests = crop.cover_keeps_off.value if crop and crop.cover_keeps_off else ()
    dated = {cover.kind for cover in printed.dates.covers}
    found = []
    for cover in printed.planting.covers:
        days = "" if cover.kind in dated else span(cover.first, cover.last) or "all its days"
        found.append(f"{cover.kind}, {days}" if days else cover.kind)
    if found and pests:
        found[-1] += f" (keeps off {', '.join(pests)})"
    return found


def _support(printed: PrintedPlanting) -> str:
    support, arch = printed.planting.support, printed.plan.arch_of(printed.planting)
    if arch is not None:
        height = printed.measure.length(arch.height)
        if arch.name:
            return say("the arch “{name}” beside it, {height} high", name=arch.name, height=height)
        return say("the arch beside it, {height} high", height=height)
    if support is None:
        crop = printed.plan.figures_of(printed.planting).crop
        usual = crop.support.value if crop and crop.support and crop.support.value else "none"
        return f"none planned; it usually has one ({usual})" if usual != "none" else ""
    words = f"{support.kind}, {printed.measure.length(support.height)} high"
    if support.spacing:
        words += f", post to post {printed.measure.length(support.spacing)}"
    if support.lines is not None and support.lines > 1:
        words += f", {support.lines} lines"
        if support.line_spacing:
            words += f" {printed.measure.length(support.line_spacing)} apart"
    return words
