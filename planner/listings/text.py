"""What the command line prints: amounts bed by bed, and what is known of a crop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from planner.amounts import Amount, totals
from planner.crops import Catalogue, Crop, Fact, Figure, Flag, Series, Words
from planner.crops.crop import ENTRY_FIELDS, UNITS
from planner.crops.figures import Origin, Reading
from planner.garden.units import show_area
from planner.listings.tables import aligned
from planner.plan import Plan

UNKNOWN = "?"
#: Values longer than this stand below the table of a crop. [characters]
WIDEST = 24


def amounts_text(plan: Plan, parts: Sequence[Amount]) -> list[str]:
    """Lines: a table a bed, totals by variety, then what is wrong and what is not known."""
    units = plan.garden.site.units
    lines = [f"{plan.garden.site.name}, growing year {plan.year}"]
    headers = ("crop", "variety", "start", "plants", "rows", "seeds", "grams", "raise", "get")
    for bed, group in groupby(parts, key=lambda part: part.bed):
        rows = [
            (
                part.crop,
                part.variety,
                part.start,
                _count(part.plants),
                _count(part.rows),
                _count(part.seeds),
                grams(part.seed_grams),
                _count(part.raise_),
                _count(part.acquire),
            )
            for part in group
        ]
        lines += ["", f"{bed.name} ({show_area(plan.area(bed), units)})"]
        lines += aligned(headers, rows, right=range(3, 9))
    rows = [
        (
            total.crop,
            total.variety,
            _count(total.plantings),
            _count(total.plants),
            show_area(total.area, units),
            _count(total.seeds),
            grams(total.seed_grams),
            _count(total.raise_),
            _count(total.acquire),
        )
        for total in totals(parts)
    ]
    headers = ("crop", "variety", "plantings", "plants", "area", "seeds", "grams", "raise", "get")
    lines += ["", "Totals", *aligned(headers, rows, right=range(2, 9))]
    problems = [f"{part.bed.name}: {part.problem}." for part in parts if part.problem]
    missing = [f"{part.bed.name}: {sentence}." for part in parts for sentence in part.missing]
    if problems:
        lines += ["", "Problems", *("  " + line for line in dict.fromkeys(problems))]
    if missing:
        lines += ["", f"Not known ({UNKNOWN})", *("  " + line for line in dict.fromkeys(missing))]
    return lines


def _count(number: int | None) -> str:
    if number is None:
        return UNKNOWN
    return str(number) if number else "-"


def grams(mass: float | None) -> str:
    """A mass of seed: ``12.5``, ``0.34``, ``0.0021``; ``?`` where unknown. [g]"""
    if mass is None:
        return UNKNOWN
    if not mass:
        return "-"
    return f"{mass:.0f}" if mass >= 100 else f"{mass:.3g}" if mass < 1 else f"{mass:.1f}"


# -- a crop ------------------------------------------------------------------------------------


def crop_lines(catalogue: Catalogue, crop: Crop) -> list[str]:
    """Lines: names, every figure with unit, range and source key, then the sources in full."""
    lines = [f"{crop.name} ({crop.latin}), {crop.family}"]
    if crop.also:
        lines.append(f"  also: {', '.join(crop.also)}")
    lines.append(f"  key: {crop.key}; {crop.life_cycle}; grows as {crop.growth_form}")
    rows, long = [], []
    for name, entry in crop.entries():
        text, unit = shown(entry), UNITS.get(name, "")
        if len(text) > WIDEST:
            long.append(f"  {name}: {text}{f' [{unit}]' if unit else ''}, {_origin(entry)}")
            text = "(below)"
        rows.append((name, text, unit, _range(entry), _origin(entry), entry.note or ""))
        rows += [
            ("", _number(other.value), "", _range(other), _origin(other), other.note or "")
            for other in getattr(entry, "other", ())
        ]
    lines += aligned(("what", "value", "unit", "range", "source", "note"), rows) + long
    absent = [name for name in ENTRY_FIELDS if getattr(crop, name) is None]
    if absent:
        lines.append(f"  Not known: {', '.join(absent)}.")
    keys = sorted(set(_source_keys(crop)))
    lines += [
        "  Sources",
        *aligned(("key", "publication"), [(k, catalogue.source_line(k)) for k in keys], indent="    ")[1:],
    ]
    return lines


def crop_record(catalogue: Catalogue, crop: Crop) -> dict[str, object]:
    """Everything known of a crop, ready for JSON; every figure with its source in full."""
    return {
        "key": crop.key,
        "name": crop.name,
        "also": list(crop.also),
        "latin": crop.latin,
        "family": crop.family,
        "life_cycle": crop.life_cycle,
        "growth_form": crop.growth_form,
        "cautions": list(crop.cautions),
        "figures": {name: _entry_record(catalogue, name, entry) for name, entry in crop.entries()},
        "not_known": [name for name in ENTRY_FIELDS if getattr(crop, name) is None],
    }


def _entry_record(catalogue: Catalogue, name: str, entry: Origin) -> dict[str, object]:
    record = entry.model_dump(mode="json", exclude_none=True, exclude={"other"})
    record["unit"] = UNITS.get(name, "")
    record["standing"] = entry.provenance
    record["citation"] = catalogue.source_line(entry.source) if entry.source else ""
    if isinstance(entry, Figure) and entry.other:
        record["other"] = [
            {
                **other.model_dump(mode="json", exclude_none=True),
                "citation": catalogue.source_line(other.source),
            }
            for other in entry.other
        ]
    return record


def shown(entry: Origin) -> str:
    """Value of an entry as a word or number."""
    if not entry.applies:
        return "does not apply"
    match entry:
        case Figure():
            return _number(entry.value)
        case Fact():
            return entry.value or ""
        case Flag():
            return "yes" if entry.value else "no"
        case Words():
            return ", ".join(entry.value)
        case Series():
            return ", ".join(f"{value:g} at {temperature:g}" for temperature, value in entry.at)
    return ""


def _number(value: float | None) -> str:
    return f"{value:.10g}" if value is not None else ""


def _range(entry: Origin | Reading) -> str:
    low, high = getattr(entry, "low", None), getattr(entry, "high", None)
    if low is None and high is None:
        return ""
    if low is None or high is None:
        return f"up to {high:g}" if low is None else f"from {low:g}"
    return f"{low:g} to {high:g}"


def _origin(entry: Origin | Reading) -> str:
    return (entry.source or "") + (" (from memory)" if entry.recalled else "")


def _source_keys(crop: Crop) -> Iterator[str]:
    for _, entry in crop.entries():
        if entry.source:
            yield entry.source
        for other in getattr(entry, "other", ()):
            yield other.source
