"""What a typed line says of a record: its kind, and how much."""

from __future__ import annotations

import itertools
import re
from typing import Any, NoReturn

from planner.garden.typed_amounts import parse_load, parse_volume
from planner.garden.units import INCH, parse_length
from planner.importing.record_items import BEHIND_COLON, PLACES, SILENT, LineItems
from planner.importing.record_line import RecordLineError
from planner.importing.record_phrases import ALL_GATHERED, COVERING, MEASURES, ORDINALS, Item, unit_of
from planner.importing.record_vocabulary import Verb
from planner.listings.record_words import KIND_WORDS
from planner.words import join_list, say

Fields = dict[str, Any]
_AMOUNT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(.*)")


#: How a planting ended by harm, where no word says it.
_ENDED_BY = {
    "frost": "frozen",
    **dict.fromkeys(("pest", "birds", "slugs", "voles", "something else"), "eaten"),
    **dict.fromkeys(("disease", "hail", "wind", "drought"), "failed"),
}


def verb_of(line: LineItems) -> Verb:
    """What happened; its items are taken out.

    Raises
    ------
    RecordLineError
        Where nothing is said of that, or several things are.
    """
    items = line.of_sort("verb")
    verbs = list(dict.fromkeys(item.value for item in items))
    closed = [verb for verb in verbs if not verb.is_open]
    if any(verb.kind == "measured" for verb in closed) and line.items and items[0].value.kind == "measured":
        line.drop(items[:1])
        return Verb("measured")
    told = (
        _gathered(line, items)
        or _stage_of_picking(line, items)
        or _harmed(line, verbs)
        or _measured_by_unit(line)
        or _looked_at(line, items)
    )
    if told is not None:
        line.drop(items)
        return told
    if closed and len(verbs) > 1:
        kinds = {verb.kind for verb in closed}
        verbs = closed if all(v.kind in kinds for v in verbs) else verbs
    if verbs and {verb._replace(cause="") for verb in verbs} == {verbs[0]._replace(cause="")}:
        causes = [verb.cause for verb in verbs if verb.cause]
        verbs = [verbs[0]._replace(cause=join_list(causes))]
    if not verbs:
        _refuse_nothing_said(line)
    if len(verbs) > 1:
        words = [line.text(item) for item in items]
        raise RecordLineError(
            say("{words} are two things", words=join_list(words)), fix=say("Type a line for each")
        )
    verb: Verb = verbs[0]
    if not verb.free and not verb.told:
        line.drop(items)
    if verb == Verb("done") and not line.words:
        line.refuse_unknown()
        raise RecordLineError(say("what was done is missing"), fix=say(BEHIND_COLON))
    if verb.kind in ("note", "lesson") and not line.words:
        raise RecordLineError(
            say("the words of the {kind} are missing", kind=say(KIND_WORDS[verb.kind])),
            fix=say(BEHIND_COLON),
        )
    if verb.kind == "seen" and not verb.harm:
        line.refuse_unknown()
        raise RecordLineError(
            say("what was seen is missing"),
            fix=say("Name it: slugs, aphids, mildew, frost; or 'something else' and words behind a colon"),
        )
    if verb.kind == "ended" and not verb.why:
        line.refuse_unknown()
        raise RecordLineError(
            say("why it ended is missing"), fix=say("Type failed, eaten, frozen, bolted or cleared")
        )
    return verb


def _refuse_nothing_said(line: LineItems) -> NoReturn:
    """Ask what happened, naming the amount where there is one."""
    amount = amount_of(line, used := [])
    if amount is not None:
        words = line.part[used[0].start : used[-1].end]
        raise RecordLineError(
            say("what happened is missing: {amount} may be picked, sown or given", amount=words),
            fix=say(
                "Type one like: picked {amount} {place}",
                amount=words,
                place=line.place or say("tomato in North"),
            ),
        )
    line.refuse_unknown()
    line.refuse_left(Verb(""))
    raise RecordLineError(
        say("what happened is missing"),
        fix=say("Begin with sown, picked, slugs, up, note or another word of the list of kinds"),
    )


def _gathered(line: LineItems, items: list[Item]) -> Verb | None:
    """A picking that another word than ``picked`` tells of, by its amount; or the end of what is all gathered."""
    verbs = [item.value for item in items]
    if any(verb.kind != "picked" and not verb.gathers and verb.kind != "done" for verb in verbs):
        return None
    amount = amount_of(line, used := [])
    if amount is None:
        ends = verbs and all(line.text(item) in ALL_GATHERED for item in items) and line.of_sort("all")
        return Verb("ended", why="harvested") if ends else None
    behind = [item for item in line.items if item.start >= used[-1].end and item.sort not in ("of", "filler")]
    if behind and behind[0].sort == "unknown":
        return None
    gathers = bool(verbs) and all(verb.gathers or verb.kind == "picked" for verb in verbs)
    if line.of_sort("ordinal") and gathers:
        return None
    return Verb("picked") if gathers or line.of_sort("for") else None


def _stage_of_picking(line: LineItems, items: list[Item]) -> Verb | None:
    """``picked the first peas``; with what else happened first the word says no more than that."""
    ordinals, verbs = line.of_sort("ordinal"), [item.value for item in items]
    stages = {verb.kind for verb in verbs} & {"first picking", "last picking"}
    if len(stages) == 1 and all(verb.kind in (*stages, "picked") for verb in verbs):
        line.drop(ordinals)
        return Verb(stages.pop())
    if not ordinals or not verbs:
        return None
    if all(verb.kind == "picked" or verb.gathers for verb in verbs):
        line.drop(ordinals)
        return Verb(ORDINALS[line.text(ordinals[0])])
    if all(verb.kind in ("came up", "flowering", "ripe") for verb in verbs):
        line.drop([item for item in ordinals if ORDINALS[line.text(item)] == "first picking"])
    return None


def _harmed(line: LineItems, verbs: list[Verb]) -> Verb | None:
    """Harm and what it did: seen where it says how much of it, else the end."""
    harms = [verb for verb in verbs if verb.kind == "seen" and verb.harm]
    did = [verb for verb in verbs if verb not in harms]
    if not did or not harms or len({one.harm for one in harms}) > 1:
        return None
    if any(verb.kind not in ("seen", "ended") for verb in did):
        return None
    ended = [verb for verb in did if verb.kind == "ended"]
    causes = join_list([one.cause for one in harms if one.cause])
    if not ended or line.of_sort("share", "percent"):
        return harms[0]._replace(cause=causes)
    own = [verb.why for verb in ended if verb.why not in ("", "failed")]
    if len(set(own)) > 1:
        return None
    items = [item for item in line.of_sort("verb") if item.value in harms]
    for one, behind in itertools.pairwise(line.items):
        if one.sort == "to" and behind in items:  # lost to slugs
            line.drop([one])
    line.add_words(join_list([line.typed(item) for item in items]))
    return Verb("ended", why=own[0] if own else _ENDED_BY[harms[0].harm])


def _measured_by_unit(line: LineItems) -> Verb | None:
    """``40 cm high``, ``25 mm of rain``, ``soil temperature 9 °C``."""
    if line.of_sort("verb") or not line.of_sort("number"):
        return None
    for at, item in enumerate(line.items):
        behind_unit = at > 1 and line.sort_at(at - 1) == "unit" and line.sort_at(at - 2) == "number"
        if item.sort == "measure" and behind_unit:
            line.drop([item])
            return Verb("measured", measure=MEASURES[line.text(item)])
        if item.sort == "measured":
            line.drop([item])
            return Verb("measured", measure=line.text(item))
    return None


def _looked_at(line: LineItems, items: list[Item]) -> Verb | None:
    """A note of what was seen on a bed or planting: at least two words, since one alone may be a slip of the hand."""
    if any(not item.value.is_open for item in items) or line.of_sort("number", "unit", "share", "percent"):
        return None
    if not line.of_sort("bed", "crop", "variety", "planting"):
        return None
    words = [item for item in line.items if item.sort == "unknown" or item in items]
    pairs = itertools.pairwise(words)
    if any(not line.part[one.end : other.start].strip() for one, other in pairs):
        for item in items:
            line.replace(item, item._replace(sort="unknown", value=line.typed(item)))
        return Verb("note")
    return None


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
            return fields | _share(line) | _look_again(line)
        case "measured" if verb.measure:
            return _measured_as(line, verb.measure)
        case "measured":
            return _measured(line)
        case "came up":
            return _count(line) or _share(line)
        case "picked":
            return _picked(line)
        case "ended":
            return {"why": verb.why}
        case "first picking" | "last picking" if amount_of(line, []) is not None:
            return _picked(line)
        case "done" if verb.tasks:
            return _cover(line, verb)
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


def _picked(line: LineItems) -> Fields:
    amount = amount_of(line, used := [])
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
    if where and where[0].value != "kept":
        fields["picked_for"] = where[0].value
    return fields


def amount_of(line: LineItems, used: list[Item]) -> Fields | None:
    """An amount of mass, volume, bunches or pieces; parts like 2 lb 3 oz are put together.

    Parameters
    ----------
    line : LineItems
    used : list of Item
        Its items are put here.
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
    if value <= 0 or unit not in ("g", "l", "pieces", "bunches"):
        return None
    return {"value": round(value, 9), "unit": unit}


def _cover(line: LineItems, verb: Verb) -> Fields:
    if verb.tasks[0] not in COVERING:
        return {}
    if verb.cover:
        return {"cover": verb.cover}
    kinds = line.of_sort("cover")
    line.drop(kinds)
    return {"cover": kinds[0].value} if kinds else {}


def _measured_as(line: LineItems, measure: str) -> Fields:
    """A number with its unit, of what the line says was measured."""
    number = line.of_sort("number")[0]
    at = line.items.index(number)
    minus = at > 0 and line.sort_at(at - 1) == "to" and line.items[at - 1].end == number.start
    used, unit = [number], ""
    for item in line.items[at + 1 :]:
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
