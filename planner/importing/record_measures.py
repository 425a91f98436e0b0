"""What a typed line says of a record: its kind, and how much."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from typing import Any

from planner.garden.typed_amounts import parse_load, parse_volume
from planner.garden.units import INCH, parse_length
from planner.importing.record_items import PLACES, SILENT, LineItems
from planner.importing.record_line import RecordLineError
from planner.importing.record_losses import Part, ask_how_much, part_told
from planner.importing.record_phrases import COVERING, Item, unit_of
from planner.importing.record_vocabulary import Verb
from planner.words import say

Fields = dict[str, Any]
#: Units of what is picked, and of what is sown or planted.
_OF_PICKING, _OF_WORK = ("g", "l", "pieces", "bunches"), ("g", "pieces", "seeds", "plants")
#: Work of which an amount by itself is that of the crop: ``sown on 8 April, 2 g``.
_OF_AMOUNT = ("sow", "prick out", "set out")
_AMOUNT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(.*)")


def measures_of(line: LineItems, verb: Verb) -> Fields:
    """Share, count, amount, cover and the like of a record, taken out of the items.

    Raises
    ------
    RecordLineError
        Where what a record needs is missing.
    """
    match verb.kind:
        case "seen":
            fields: Fields = {"harm": verb.harm}
            if verb.cause:
                fields["cause"] = verb.cause
            return fields | _part(line, "lost" if verb.lost else "share") | _look_again(line)
        case "measured" if verb.measure:
            return _measured_as(line, verb.measure)
        case "measured":
            return _measured(line)
        case "came up":
            return _came_up_but(line) if verb.missing else _count(line) or _share(line)
        case "picked":
            return _picked(line, verb)
        case "ended":
            return {"why": verb.why}
        case "first picking" | "last picking" if amount_of(line, []) is not None:
            return _picked(line, verb)
        case "done" if verb.tasks:
            return _cover(line, verb) | _work_amount(line, verb)
        case _:
            return {}


def _share(line: LineItems) -> Fields:
    for at, item in enumerate(line.items):
        if item.sort == "share":
            line.drop([item])
            return {"share": item.value}
        if item.sort == "number" and line.sort_at(at + 1) == "percent":
            share = item.value[0] / 100
            if share > 1:
                raise RecordLineError(
                    say("{number} % is no share of a whole", number=item.value[1]),
                    fix=say("Type a number from 0 to 100"),
                )
            line.drop(line.items[at : at + 2])
            return {"share": share}
    return {}


def _part(line: LineItems, field: str) -> Fields:
    """The share that was lost or damaged; a number of plants is set against those of its planting later."""
    found = _share(line)
    if found:
        line.drop(line.of_sort("all told"))
        return {field: found["share"]}
    part = part_told(line)
    if part is None or (part.vague and field == "share"):
        return {}
    ask_how_much(line, part)
    line.drop(part.items)
    return {field: part.share} if part.plants is None else {field: part}


def _came_up_but(line: LineItems) -> Fields:
    """What came up where the line says how much did not."""
    found = _part(line, "lost")["lost"]
    if not isinstance(found, Part):
        return {"share": 1.0 - found}
    return {"missing": found}


def _look_again(line: LineItems) -> Fields:
    marks, days = line.of_sort("look again"), line.of_sort("look again on")
    line.drop(marks + days)
    if marks and not days:
        raise RecordLineError(
            say("the day to look again is missing"), fix=say("Type one like: look again on 15 June")
        )
    return {"look_again": days[0].value} if days else {}


def _count(line: LineItems) -> Fields:
    for at, item in enumerate(line.items):
        if item.sort != "number" or item.value[0] != int(item.value[0]):
            continue
        if line.sort_at(at + 1) == "of" and line.sort_at(at + 2) == "number":
            sown = line.items[at + 2].value[0]
            line.drop(line.items[at : at + 3])
            return {"count": int(item.value[0]), "sown": int(sown)}
        if line.sort_at(at + 1) == "unit" and line.items[at + 1].value == "plants":
            line.drop(line.items[at : at + 2])
            return {"count": int(item.value[0])}
    return {}


def _picked(line: LineItems, verb: Verb) -> Fields:
    used: list[Item] = []
    amount = amount_of(line, used)
    behind = [item for item in line.items if used and item.start >= used[-1].end]
    while behind and behind[0].sort in ("of", "filler"):
        behind = behind[1:]
    if amount is None or (behind and behind[0].sort == "unknown" and not line.separate(used[-1], behind[0])):
        line.refuse_unknown()
    if amount is None:
        line.refuse_left(Verb("picked"))
        raise RecordLineError(
            say("how much was picked is missing"), fix=say("Type one like 1.2 kg, 3 bunches or 12 pieces")
        )
    line.drop(used)
    where = line.of_sort("for")
    line.drop(where)
    fields: Fields = {"amount": amount}
    if verb.picked_for:
        fields["picked_for"] = verb.picked_for
    if where and where[0].value != "kept":
        fields["picked_for"] = where[0].value
    return fields


def amount_of(line: LineItems, used: list[Item], units: Sequence[str] = _OF_PICKING) -> Fields | None:
    """An amount of mass, volume, bunches or pieces; parts like 2 lb 3 oz are put together.

    Parameters
    ----------
    line : LineItems
    used : list of Item
        Its items are put here.
    units : sequence of str
        Those that it may have.
    """
    value, unit = 0.0, ""
    for at, item in enumerate(line.items):
        if item.sort == "filler" and line.text(item) in ("a", "an") and line.sort_at(at + 1) == "unit":
            half = line.items[at - 1] if at and line.sort_at(at - 1) == "share" else None
            part = half.value if half is not None else 1.0
            of_part, new_unit = _in_base_unit(part, line.items[at + 1].value)
            if unit in ("", new_unit):
                value, unit = value + of_part, new_unit
                used += [line.items[at + 1], *([half] if half is not None else [])]
        if item.sort != "number":
            continue
        following = line.items[at + 1] if line.sort_at(at + 1) == "unit" else None
        if following is not None:
            of_part, new_unit = _in_base_unit(item.value[0], following.value)
            if unit in ("", new_unit):
                value, unit = value + of_part, new_unit
                used += [item, following]
        elif not unit and line.sort_at(at + 1) == "crop":
            value, unit = item.value[0], "pieces"
            used.append(item)
    if value <= 0 or unit not in units:
        return None
    _refuse_negative(line, used)
    return {"value": round(value, 9), "unit": unit}


def _refuse_negative(line: LineItems, used: Sequence[Item]) -> None:
    """Refuse a number with a minus before it, which no amount has."""
    for sign, number in itertools.pairwise(line.items):
        close = sign.sort == "to" and sign.end == number.start and not line.typed(sign).isalpha()
        if (
            close
            and any(number is one for one in used)
            and not line.part[sign.start - 1 : sign.start].strip()
        ):
            raise RecordLineError(
                say("'{amount}' is less than nothing", amount=line.part[sign.start : number.end]),
                fix=say("Type the amount without the minus"),
            )


def _cover(line: LineItems, verb: Verb) -> Fields:
    if verb.tasks[0] not in COVERING:
        return {}
    if verb.cover:
        return {"cover": verb.cover}
    kinds = line.of_sort("cover")
    line.drop(kinds)
    return {"cover": kinds[0].value} if kinds else {}


def _work_amount(line: LineItems, verb: Verb) -> Fields:
    """How much of the crop was sown, planted or lifted: ``planted 118 cloves of garlic``."""
    used: list[Item] = []
    amount = amount_of(line, used, _OF_WORK)
    behind = [item for item in line.items if used and item.start >= used[-1].end and item.sort != "of"]
    named = bool(behind) and behind[0].sort in ("crop", "variety")
    alone = not behind or behind[0].sort in ("and", "in", "day", "bed", "by")
    if amount is None or not (named or (alone and verb.tasks[0] in _OF_AMOUNT)):
        return {}
    line.drop(used)
    return {"amount": amount}


def _measured_as(line: LineItems, measure: str) -> Fields:
    """A number with its unit, of what the line says was measured."""
    number = line.of_sort("number")[0]
    at = line.items.index(number)
    minus = at > 0 and line.sort_at(at - 1) == "to" and line.items[at - 1].end == number.start
    used, unit = [number], ""
    rest = line.items[at + 1 :]
    if rest and line.typed(rest[0]).lower() == "in" and (len(rest) == 1 or rest[1].sort not in PLACES):
        # No place follows, as in "rain 0.5 in": inches.
        unit = "in"
        used.append(rest[0])
        rest = []
    for item in rest:
        if item.sort not in ("unit", "percent", "unknown") and line.typed(item) != "°":
            break
        if unit and item.start != used[-1].end:
            break
        unit += line.typed(item)
        used.append(item)
    line.drop(used)
    if minus:
        line.drop([line.items[at - 1]])
    fields: Fields = {"measure": measure, "value": -number.value[0] if minus else number.value[0]}
    return fields | ({"unit": unit} if unit else {})


def _measured(line: LineItems) -> Fields:
    """``height 43 cm``: what was measured, the number, and its unit."""
    number = next((item for item in line.items if item.sort == "number"), None)
    if number is None:
        raise RecordLineError(
            say("the number of what was measured is missing"),
            fix=say("Type one like: measured height 43 cm"),
        )
    at = line.items.index(number)
    before = [item for item in line.items[:at] if item.sort not in PLACES and item.sort not in SILENT]
    minus = [item for item in line.items[:at] if item.sort == "to" and item.end == number.start]
    if not before:
        raise RecordLineError(
            say("what was measured is missing"), fix=say("Type one like: measured height 43 cm")
        )
    used = [*before, *minus, number]
    value, unit = number.value[0], ""
    rest = line.items[at + 1 :]
    if rest and rest[0].sort == "unit":
        unit = line.part[rest[0].start : rest[0].end]
        used.append(rest[0])
        inches = line.part[rest[0].end :].lstrip()
        if rest[0].value == "length ft" and len(rest) > 1 and rest[1].sort == "number":
            value = round(parse_length(f"{number.value[1]} ft {rest[1].value[1]} in") / INCH, 3)
            unit = "in"
            used += rest[1:3] if inches else []
    elif rest and rest[0].sort in ("unknown", "percent", "filler") and rest[0].start - number.end <= 1:
        while (
            rest
            and rest[0].sort in ("unknown", "percent", "filler")
            and (not unit or rest[0].start == used[-1].end)
        ):
            unit += line.part[rest[0].start : rest[0].end]
            used.append(rest.pop(0))
    line.drop(used)
    line.take_names()
    line.refuse_unknown()
    measure = " ".join(line.part[item.start : item.end] for item in before)
    fields: Fields = {"measure": measure, "value": -value if minus else value}
    return fields | ({"unit": unit} if unit else {})


def read_amount(text: str) -> Fields:
    """Read an amount of a record as typed; a number alone is pieces.

    Parameters
    ----------
    text : str

    Raises
    ------
    RecordLineError
        If it is none.

    Examples
    --------
    >>> read_amount("1.2 kg"), read_amount("3 bunches"), read_amount("12")
    ({'value': 1200.0, 'unit': 'g'}, {'value': 3.0, 'unit': 'bunches'}, {'value': 12.0, 'unit': 'pieces'})
    """
    number, unit = _AMOUNT.fullmatch(text.strip().casefold()), ""
    if number is not None:
        unit = unit_of(number[2].strip() or "pieces")
    if number is None or not unit:
        raise RecordLineError(
            say("'{text}' is no amount", text=text.strip()),
            fix=say("Type one like 1.2 kg, 3 bunches or 12 pieces"),
        )
    value, base = _in_base_unit(float(number[1].replace(",", ".")), unit)
    return {"value": round(value, 9), "unit": base}


def _in_base_unit(number: float, unit: str) -> tuple[float, str]:
    """An amount in grams, litres or metres, or a count, with its unit in records."""
    dimension, _, word = unit.partition(" ")
    typed = f"{number:.9f} {word}"
    match dimension:
        case "mass":
            return parse_load(typed), "g"
        case "volume":
            return parse_volume(typed), "l"
        case "length":
            return parse_length(typed), "m"
        case _:
            return number, unit
