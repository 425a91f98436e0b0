"""What is known of a crop, every figure with its source, as lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from planner.crops import Catalogue, Crop, Fact, Figure, Flag, Numbers, Series, Words
from planner.crops.aftercare import IN_SHORT, Care
from planner.crops.crop import ENTRY_FIELDS
from planner.crops.families import family_title
from planner.crops.field_units import UNITS
from planner.crops.figures import ESTIMATE, PRACTICE, Origin, Reading
from planner.listings.tables import aligned
from planner.season.aftercare import when_due
from planner.words import join_list, key_list, key_words, say, short_number

#: Longer values are printed below the table of a crop. [characters]
WIDEST = 24


def crops_table(crops: Sequence[Crop], room: int | None = None) -> list[str]:
    """List crops as lines: name, Latin name, family and key."""
    rows = [(crop.name, crop.latin, family_title(crop.family), crop.key) for crop in crops]
    return aligned((say("crop"), say("Latin name"), say("family"), say("key")), rows, indent="", room=room)


def crop_lines(catalogue: Catalogue, crop: Crop, room: int | None = None) -> list[str]:
    """Print a crop as lines: names, every figure with unit, range and number of its source, then the sources in full.

    Parameters
    ----------
    catalogue : Catalogue
        For the sources.
    crop : Crop
    room : int, optional
        Width of tables; any by default. [columns]
    """
    lines = [f"{crop.name} ({crop.latin}), {family_title(crop.family)}"]
    if crop.also:
        lines.append("  " + say("also: {names}", names=", ".join(crop.also)))
    if crop.american:
        lines.append("  " + say("in American English: {name}", name=crop.american.value))
    lines.append(
        "  "
        + say(
            "key: {key}; {life}; grows as {form}",
            key=crop.key,
            life=key_words(crop.life_cycle),
            form=key_words(crop.growth_form),
        )
    )
    numbers = _source_numbers(crop)
    lines += _figure_lines(crop.entries(), numbers, room)
    absent = [name for name in ENTRY_FIELDS if getattr(crop, name) is None]
    if absent:
        lines.append("  " + say("Not known: {fields}.", fields=", ".join(absent)))
    for product in crop.further_products:
        lines += [
            "",
            "  "
            + (
                say(
                    "Further product: {product}, {note}",
                    product=key_words(product.product),
                    note=product.note,
                )
                if product.note
                else say("Further product: {product}", product=key_words(product.product))
            ),
        ]
        lines += _figure_lines(product.entries(), numbers, room)
    if crop.toxic:
        parts = [
            (key_words(one.part), key_list(one.harms), _origin(one, numbers), one.note or "")
            for one in crop.toxic
        ]
        lines += [
            "  " + say("Poisonous parts"),
            *aligned((say("part"), say("whom"), say("source"), say("note")), parts, indent="    ", room=room),
        ]
    if crop.aftercare:
        heads = (say("work"), say("when"), say("source"), say("note"))
        work = [
            (say(IN_SHORT[care.task]), care_words(care), _origin(care, numbers), care.note or "")
            for care in crop.aftercare
        ]
        lines += ["  " + say("Aftercare"), *aligned(heads, work, indent="    ", room=room)]
    cited = [(f"[{number}]", catalogue.source_line(key)) for key, number in numbers.items()]
    named = sorted({key for key in _source_keys(crop) if key in (PRACTICE, ESTIMATE)})
    cited += [(key, catalogue.source_line(key)) for key in named]
    lines += [
        "  " + say("Sources"),
        *aligned((say("source"), say("publication")), cited, indent="    ", room=room)[1:],
    ]
    return lines


def _figure_lines(
    entries: Iterable[tuple[str, Origin]], numbers: Mapping[str, int], room: int | None
) -> list[str]:
    """A table of figures, how each came about with it; values that are long below it."""
    rows, long = [], []
    for name, entry in entries:
        text, unit = value_words(entry), UNITS.get(name, "")
        if len(text) > WIDEST:
            long.append(f"  {name}: {text}{f' ({unit})' if unit else ''}, {_origin(entry, numbers)}")
            text = say("(below)")
        how = key_words(entry.provenance) if entry.source not in (None, entry.provenance) else ""
        rows.append((name, text, unit, _range(entry), how, _origin(entry, numbers), entry.note or ""))
        rows += [
            ("", _number(other.value), "", _range(other), "", _origin(other, numbers), other.note or "")
            for other in getattr(entry, "other", ())
        ]
    return (
        aligned(
            (say("what"), say("value"), say("unit"), say("range"), say("how"), say("source"), say("note")),
            rows,
            room=room,
        )
        + long
    )


def value_words(entry: Origin) -> str:
    """Value of an entry as a word or number."""
    if not entry.applies:
        return say("does not apply")
    match entry:
        case Figure():
            return _number(entry.value)
        case Fact():
            return key_words(entry.value or "")
        case Flag():
            return say("yes") if entry.value else say("no")
        case Words():
            return key_list(entry.value)
        case Numbers():
            return ", ".join(short_number(number) for number in entry.values)
        case Series():
            return ", ".join(
                say(
                    "{value} at {temperature}",
                    value=short_number(value),
                    temperature=short_number(temperature),
                )
                for temperature, value in entry.at
            )
    return ""


def care_words(care: Care) -> str:
    """When a piece of aftercare is due, how often, and of which plantings; months are those of the north."""
    words = [when_due(care)]
    if care.every_days is not None:
        words.append(say("every {days} days", days=care.every_days))
    if care.every_years > 1:
        words.append(say("every {years} years", years=care.every_years))
    if care.supports:
        words.append(
            say("only on {supports}", supports=join_list(key_words(support) for support in care.supports))
        )
    return ", ".join(words)


def _number(value: float | None) -> str:
    return short_number(value, 10) if value is not None else ""


def _range(entry: Origin | Reading) -> str:
    low, high = getattr(entry, "low", None), getattr(entry, "high", None)
    if low is None and high is None:
        return ""
    if low is None:
        return say("up to {most}", most=short_number(high or 0.0))
    if high is None:
        return say("from {least}", least=short_number(low))
    return say("{first} to {last}", first=short_number(low), last=short_number(high))


def _origin(entry: Origin | Reading, numbers: Mapping[str, int]) -> str:
    """Number of a figure's publication, or in a word that it has none."""
    key = entry.source or ""
    source = f"[{numbers[key]}]" if key in numbers else key_words(key)
    return say("{source} (from memory)", source=source) if entry.recalled else source


def _source_numbers(crop: Crop) -> dict[str, int]:
    """The publications of a crop's figures by key, numbered in the order of their first naming."""
    keys = dict.fromkeys(key for key in _source_keys(crop) if key not in (PRACTICE, ESTIMATE))
    return {key: number for number, key in enumerate(keys, start=1)}


def _source_keys(crop: Crop) -> Iterator[str]:
    for _, entry in crop.entries():
        if entry.source:
            yield entry.source
        for other in getattr(entry, "other", ()):
            yield other.source
    further = (entry for product in crop.further_products for _, entry in product.entries())
    for one in (*further, *crop.toxic, *crop.aftercare):
        if one.source:
            yield one.source
