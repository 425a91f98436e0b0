"""How much of a planting was lost, as a typed line says it: ``half``, ``6 of the 24``, ``3 cucumber plants``, ``a few``.

A part of a planting never ends the whole of it.  A share or a number becomes what is lost; of words that say no number it is
asked how much they are.
"""

from __future__ import annotations

import datetime as dt
import itertools
from typing import Any, NamedTuple

from planner.importing.record_items import LineItems
from planner.importing.record_line import RecordLineError
from planner.importing.record_phrases import (
    ADJECTIVES,
    MORE_WORDS,
    NUMBER_SIGNS,
    OF_SIGNS,
    PART_WORDS,
    PIECE_WORDS,
    SHARE_SIGNS,
    Item,
    tokens_of,
)
from planner.importing.record_vocabulary import Verb
from planner.plan import Plan
from planner.words import join_list, say, say_count

#: Work with which a planting is over, so that it is not written down for a part of it.
ENDING_WORK = ("clear", "lift and store", "lift and cure")
#: Ends that are no loss: a part of them is not one either.
_NO_LOSS = ("harvested", "made room", "resown")
#: Items between a number and what it counts: ``3 of the courgettes``.
_BETWEEN = ("of", "filler", "all")
#: Units of what is weighed or bundled, of which nobody knows how many plants it was.
_WEIGHED = ("mass", "volume", "bunches")
_COUNTED = ("crop", "variety", "planting")

Fields = dict[str, Any]


class Part(NamedTuple):
    """How much of a planting a line tells of.

    Attributes
    ----------
    share : float or None
    plants, of : int or None
        So many plants, and those that it had where the line says so.
    all_told : bool
        The line says that all losses until its day are counted.
    vague : str
        Words that say that it is a part, and not how much.
    items : tuple of Item
        Those that say it.
    """

    share: float | None = None
    plants: int | None = None
    of: int | None = None
    all_told: bool = False
    vague: str = ""
    items: tuple[Item, ...] = ()


def part_told(line: LineItems, *, narrowed: bool = True) -> Part | None:
    """The part of a planting that a line tells of; None where it is all of it.

    Parameters
    ----------
    line : LineItems
    narrowed : bool
        Words that say which plants of a crop are meant count as well.
    """
    told = tuple(line.of_sort("all told"))
    words = [(item, word) for item in line.items for word in _words_in(line, item)]
    firm = [item for item, word in words if word in PIECE_WORDS or word in MORE_WORDS]
    firm += [
        item for item, word in words if word == "but" and any(one.sort == "all" for one in line.beside(item))
    ]
    if firm:
        return Part(vague=_around(line, firm[0]))
    found = _share_told(line) or _count_told(line)
    if found is not None:
        return found._replace(all_told=bool(told), items=(*found.items, *told))
    vague = next((item for item, word in words if word in PART_WORDS), None)
    vague = vague or (_narrowed(line) if narrowed else None)
    if vague is not None:
        return Part(vague=_around(line, vague))
    return Part(vague=line.words) if _tells_part(line.words) else None


def _tells_part(words: str) -> bool:
    """Whether words of somebody's own say that a part is meant: ``only a few``, ``2 of the leeks``, ``half``."""
    signs = [token.sign for token in tokens_of(words)]
    for sign, behind in itertools.zip_longest(signs, signs[1:]):
        if sign in PART_WORDS | PIECE_WORDS | SHARE_SIGNS:
            return True
        if (sign in NUMBER_SIGNS or sign[:1].isdecimal()) and behind in (None, *OF_SIGNS):
            return True
    return False


def loss_of(line: LineItems, verb: Verb, said: list[Item]) -> Verb:
    """An end of a part of a planting as the loss that it is; anything else as it is.

    Parameters
    ----------
    line : LineItems
    verb : Verb
    said : list of Item
        The items that say what happened.

    Raises
    ------
    RecordLineError
        Where it is not clear how much was lost, or it was no loss.
    """
    work = bool(verb.tasks) and verb.tasks[0] in ENDING_WORK
    if verb.kind != "ended" and not work:
        return verb
    part = part_told(line) or _dead_ones(line, said)
    if part is None and not work:  # the courgette plants died: all of them
        line.drop([item for item in line.of_sort("unit") if item.value == "plants"])
    if part is None or part.share == 1.0:
        if part is not None:
            line.drop(part.items)
        return verb
    words = join_list(list(dict.fromkeys(line.typed(item) for item in said)))
    if work or verb.why in _NO_LOSS:
        raise RecordLineError(
            say("'{words}' of a part would end all of it", words=words),
            fix=say(
                "Type what was picked with its amount, or keep it as a note: {example}", example=line.as_note
            ),
        )
    if part.vague:
        raise _asked(line, part.vague)
    if verb.why == "failed" and verb.told and line.of_sort("verb") and _never_came(line, said):
        return Verb("came up", missing=True)
    if verb.why == "frozen":
        return Verb("seen", harm="frost", lost=True)
    if verb.why:
        line.add_words(words)
    return Verb("seen", harm="something else", lost=True)


def _dead_ones(line: LineItems, said: list[Item]) -> Part | None:
    """``dead leeks``: those that died, and not all of them."""
    for item in said:
        behind = line.beside(item)[-1:]
        if (
            line.text(item) in ADJECTIVES
            and behind
            and behind[0].sort in _COUNTED
            and not line.of_sort("all")
        ):
            return Part(vague=line.part[item.start : behind[0].end])
    return None


def _never_came(line: LineItems, said: list[Item]) -> bool:
    return all(item.value.missing for item in said)


def _asked(line: LineItems, words: str) -> RecordLineError:
    return RecordLineError(
        say("'{words}': how much of it?", words=words),
        fix=say(
            "Type a share like half, 30 % or 6 of 24; or keep it as a note: {example}",
            example=line.as_note,
        ),
    )


def ask_how_much(line: LineItems, part: Part) -> None:
    """Ask how much a part is that no number is told of.

    Raises
    ------
    RecordLineError
        Where there is no number.
    """
    if part.vague:
        raise _asked(line, part.vague)


def _words_in(line: LineItems, item: Item) -> list[str]:
    """The words of an item that may say how much; of those that have another meaning none."""
    if item.sort not in ("unknown", "filler", "not"):
        return []
    return [token.sign for token in tokens_of(line.typed(item))]


def _around(line: LineItems, item: Item) -> str:
    """A word with what stands beside it up to the crop: ``a few onions``."""
    at = next(number for number, one in enumerate(line.items) if one is item)
    first = last = at
    sorts = ("unknown", "filler", "of", "all", "not", "number")
    while (
        first
        and line.items[first - 1].sort in sorts
        and not line.separate(line.items[first - 1], line.items[first])
    ):
        first -= 1
    while last + 1 < len(line.items) and not line.separate(line.items[last], line.items[last + 1]):
        last += 1
        if line.items[last].sort not in sorts:
            last -= line.items[last].sort not in _COUNTED
            break
    return line.part[line.items[first].start : line.items[last].end]


def _share_told(line: LineItems) -> Part | None:
    for at, item in enumerate(line.items):
        if item.sort == "share":
            return Part(share=item.value, items=(item,))
        if item.sort != "number":
            continue
        value, typed = item.value
        if line.sort_at(at + 1) == "percent":
            return Part(share=value / 100, items=tuple(line.items[at : at + 2]))
        if "/" in typed and 0 < value < 1:
            return Part(share=value, items=(item,))
    return None


def _count_told(line: LineItems) -> Part | None:
    """``6 of the 24``, ``3 cucumber plants``, ``six of them died``."""
    items = line.items
    for at, item in enumerate(items):
        if item.sort == "filler" and line.text(item) in ("a", "an") and line.sort_at(at + 1) in _COUNTED:
            behind = items[at + 2 : at + 3]
            plants = [one for one in behind if one.sort == "unit" and one.value == "plants"]
            return Part(plants=1, items=tuple(plants))
        if item.sort != "number" or item.value[0] != int(item.value[0]):
            continue
        count, after = int(item.value[0]), at + 1
        while line.sort_at(after) in _BETWEEN:
            after += 1
        if line.sort_at(after) == "number" and "of" in (one.sort for one in items[at:after]):
            of = items[after]
            plants = items[after + 1 : after + 3]
            units = [one for one in plants if one.sort == "unit" and one.value in ("plants", "pieces")]
            return Part(plants=count, of=int(of.value[0]), items=(item, of, *units))
        if line.sort_at(at + 1) == "unit" and items[at + 1].value.partition(" ")[0] in _WEIGHED:
            return Part(vague=line.part[item.start : items[at + 1].end])
        if line.sort_at(at + 1) == "unit" and items[at + 1].value not in ("plants", "pieces"):
            continue
        while line.sort_at(after) == "unknown" and not line.separate(items[after - 1], items[after]):
            after += 1
        if line.sort_at(after) in _COUNTED:
            units = [
                one for one in items[after + 1 : after + 2] if one.sort == "unit" and one.value == "plants"
            ]
            return Part(plants=count, items=(item, *units))
        if line.sort_at(after) == "unit" and items[after].value in ("plants", "pieces"):
            return Part(plants=count, items=(item, items[after]))
        beside = (*line.beside(item), *line.beside(items[after - 1]))
        if any(one.sort == "verb" and one.value.kind in ("ended", "seen") for one in beside):
            return Part(plants=count, items=(item,))
    one_plant = next((item for item in line.of_sort("unit") if item.value == "plants"), None)
    if one_plant is not None and not line.text(one_plant).endswith(("s", "en")):
        return Part(plants=1, items=(one_plant,))
    return None


def _narrowed(line: LineItems) -> Item | None:
    """A word that says which plants of a crop are meant: ``the smallest leeks``, ``a tray of leeks``, ``leeks by the path``."""
    of_all = bool(line.of_sort("all"))
    for at, item in enumerate(line.items):
        if item.sort == "by" and line.sort_at(at + 1) == "filler" and line.sort_at(at + 2) == "unknown":
            return item
        after_crop = item.sort in ("crop", "variety") and line.sort_at(at + 1) == "unknown"
        if (
            after_crop
            and not line.separate(item, line.items[at + 1])
            and line.beside(line.items[at + 1])[-1].sort == "verb"
        ):
            return line.items[at + 1]
        behind = at + 1
        while line.sort_at(behind) in ("of", "filler") and "of" in (
            one.sort for one in line.items[at + 1 : behind + 1]
        ):
            behind += 1
        before_crop = line.sort_at(behind) in ("crop", "variety") and not line.separate(
            item, line.items[behind]
        )
        if before_crop and item.sort == "unknown" and not of_all:
            return item
    return None


def counted_part(
    plan: Plan, line: LineItems, place: Fields, fields: Fields, places: int, day: dt.date
) -> Fields:
    """Fields of a record in which a number of plants has become a share of those of its planting.

    Parameters
    ----------
    plan : Plan
    line : LineItems
    place : dict
        What the record is about.
    fields : dict
        Of the record; a :class:`Part` in the place of a share is counted.
    places : int
        Of so many plantings a record is made.
    day : date
        Of the record.

    Raises
    ------
    RecordLineError
        Where the number cannot be a part of that planting.
    """
    field = next((name for name, value in fields.items() if isinstance(value, Part)), None)
    if field is None:
        return fields
    part: Part = fields[field]
    planting = plan.garden.plantings_by_id.get(place.get("planting", ""))
    if planting is None or places > 1:
        raise RecordLineError(
            say("it is not clear of which planting {count} are meant", count=part.plants),
            fix=say("Name its crop and its bed, or type a share like half or 30 %"),
        )
    there = part.of if part.of is not None else plan.placed(planting).plants
    if part.of is None and not part.all_told:  # of those that were there on the day
        there = round(there * plan.survival(planting).left_on(day - dt.timedelta(days=1)))
    count = part.plants or 0
    if not there:
        raise RecordLineError(
            say("it is not known of how many plants {count} are meant", count=count),
            fix=say("Type both, as 6 of 24, or a share like half or 30 %"),
        )
    if not count:
        raise RecordLineError(
            say("a loss of 0 is none"),
            fix=say("Leave it out, or keep it as a note: {example}", example=line.as_note),
        )
    if count > there:
        raise RecordLineError(
            say_count(
                "{lost} are more than the {count} plant that it has",
                "{lost} are more than the {count} plants that it has",
                there,
                lost=count,
            ),
            fix=say("Type both numbers, as 6 of 24"),
        )
    rest = {name: value for name, value in fields.items() if name != field}
    if field == "missing":
        return {**rest, "count": there - count, "sown": there}
    left = plan.survival(planting).left_on(day - dt.timedelta(days=1))
    if part.all_told:  # of all that it had; what was lost before is taken off
        return {**rest, field: max(0.0, 1 - (1 - count / there) / left) if left > 0 else 1.0}
    return {**rest, field: count / there}
