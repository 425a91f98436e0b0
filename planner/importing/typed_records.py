"""Records typed as one line: ``sown: beds 3 to 7 on Tuesday``, ``slugs on lettuce in Bed 2, half of it``.

A line says what happened, where, when and how much, in any order; words of one's own stand behind a colon.  What is not
understood, or may mean several things, is asked back and never guessed.
"""

from __future__ import annotations

import datetime as dt
import itertools
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from planner.amounts.tasks import planting_tasks
from planner.garden import Garden, edits
from planner.garden.edits.common import checked
from planner.garden.records import RECORD_MODELS, RecordBase
from planner.garden.typed_amounts import parse_load, parse_volume
from planner.garden.units import parse_length
from planner.importing.record_beds import either, with_beds
from planner.importing.record_line import LineReader, RecordLineError, plain_line, with_plain_fractions
from planner.importing.record_phrases import COVERING, Item, Verb, unit_of
from planner.importing.record_targets import Targets
from planner.listings.record_words import KIND_WORDS, dated_record
from planner.plan import Plan
from planner.words import full_day_words, join_list, later, say

Fields = dict[str, Any]
#: Sorts of items that carry no meaning by themselves.
_SILENT = ("filler", "in", "and", "of", "all", "to")
#: Sorts that say where or when.
_PLACES = ("bed", "crop", "variety", "planting", "family", "garden", "day", "by", "name")
#: Sorts that must have found their place when the records are made.
_LEFT = ("verb", "unit", "share", "percent", "cover", "for", "look again", "look again on")
_AMOUNT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(.*)")
#: Records that are about a planting.
_OF_PLANTING = ("came up", "flowering", "ripe", "first picking", "last picking", "picked", "ended")
_BEHIND_COLON = later("Put words of your own behind a colon")


class TypedRecords(NamedTuple):
    """What a line means.

    Attributes
    ----------
    fields : tuple of dict
        Of each record, as ``add_records`` takes them.
    """

    fields: tuple[Fields, ...]

    @property
    def records(self) -> tuple[RecordBase, ...]:
        """The records, without ids of their own."""
        return tuple(RECORD_MODELS[one["kind"]].model_validate({"id": "-", **one}) for one in self.fields)


def read_typed_records(
    plan: Plan,
    text: str,
    today: dt.date,
    about: Sequence[str] = (),
    called: Mapping[str, str] | None = None,
) -> TypedRecords:
    """Read a typed line.

    Parameters
    ----------
    plan : Plan
    text : str
    today : date
        The day of a line that names none.
    about : sequence of str
        Ids of beds or plantings that are meant where the line names none, as those selected.
    called : mapping of str to str, optional
        Plantings by a capital letter, as on the walk.

    Raises
    ------
    RecordLineError or BedwrightError
        Where it cannot be understood, or may mean several things; one line says what to type.
    """
    line = plain_line(text)
    typed = TypedRecords(tuple(_Line(plan, line, today, tuple(about), called or {}).records()))
    checked(lambda: typed.records[0], str(typed.fields[0]["day"]))
    return typed


def add_typed_records(garden: Garden, typed: TypedRecords) -> Garden:
    """Write down what a line means; work that was ticked off before gets its new day.

    Parameters
    ----------
    garden : Garden
    typed : TypedRecords

    Raises
    ------
    EditError
        Where a record is not possible.
    """
    new: list[Fields] = []
    for one in typed.fields:
        ticked = one["kind"] == "done" and one.get("task") and not one.get("words")
        planting = garden.plantings_by_id.get(one.get("planting", ""))
        if (
            ticked
            and planting is not None
            and any(
                (done.kind, done.cover) == (one["task"], one.get("cover")) for done in garden.done(planting)
            )
        ):
            garden = edits.tick(garden, planting.id, one["task"], one["day"], one.get("cover"))
        else:
            new.append(one)
    return edits.add_records(garden, new)[0]


def try_typed_records(garden: Garden, typed: TypedRecords) -> None:
    """Refuse what :func:`add_typed_records` would; only the records of the same plantings are looked at.

    Parameters
    ----------
    garden : Garden
    typed : TypedRecords

    Raises
    ------
    EditError
        Where a record is not possible.
    """
    concerned = {one.get("planting") for one in typed.fields} - {None}
    few = tuple(one for one in garden.records if one.planting in concerned)
    add_typed_records(garden.with_(records=few), typed)


def typed_lines(plan: Plan, typed: TypedRecords) -> tuple[str, ...]:
    """What a line will write, a line each record: ``9 June 2026, beetroot in Bed 5: sown``."""
    return tuple(dated_record(plan, one) for one in typed.records)


class _Line:
    """One line being read."""

    def __init__(
        self, plan: Plan, line: str, today: dt.date, about: tuple[str, ...], called: Mapping[str, str]
    ) -> None:
        self._plan, self._line, self._today, self._about = plan, line, today, about
        self._reader = LineReader(plan, today, called)
        self._words = ""
        self._part = ""
        self._items: list[Item] = []

    # -- taking apart -----------------------------------------------------------------------

    def records(self) -> Iterator[Fields]:
        self._take_apart()
        verb = self._verb()
        if verb.kind in ("note", "lesson") or (verb.kind == "done" and not verb.tasks and not verb.free):
            self._refuse_unknown()
        if verb.kind == "measured":
            fields = self._measured()
        else:
            self._take_names()
            self._refuse_unknown()
            fields = self._measure(verb)
        self._refuse_left(verb)
        day = self._day()
        if self._words:
            fields["words"] = self._words
        yield from self._placed(verb, day, {"kind": verb.kind, "day": day}, fields)

    def _scan(self, part: str) -> list[Item]:
        self._part = with_plain_fractions(part)
        items = with_beds(self._plan, self._reader.names, self._reader.items(self._part))
        return list(self._with_families(items))

    def _with_families(self, items: list[Item]) -> Iterator[Item]:
        """The items with the family of a crop where ``family`` stands behind it: cabbage family."""
        passed = False
        for item, following in itertools.zip_longest(items, items[1:]):
            if passed:
                passed = False
            elif item.sort == "crop" and following is not None and following.sort == "family word":
                crop = self._plan.catalogue.crops[self._one_crop(item)]
                yield Item("family", crop.family, item.start, following.end)
                passed = True
            else:
                yield item._replace(sort="filler") if item.sort == "family word" else item

    def _take_apart(self) -> None:
        """Part the line at its colon: what happened and where, and words of one's own."""
        left, colon, right = _parted(self._line)
        items = self._scan(left)
        spoken = [item for item in items if item.sort not in _SILENT]
        verbs = [item.value for item in spoken if item.sort == "verb"]
        if colon and spoken and all(item.sort == "verb" for item in spoken):
            self._take_after_verb(items, verbs[0], right)
        elif colon and spoken and not verbs and all(item.sort in _PLACES for item in spoken):
            self._take_after_place(items, left, right)
        elif not colon and spoken[:1] and spoken[0].sort == "verb" and _is_wordy(spoken[0].value):
            self._take_words_without_colon(spoken)
        else:
            self._items, self._words = items, right

    def _take_after_verb(self, items: list[Item], verb: Verb, right: str) -> None:
        """``sown: beds 3 to 7``, ``note: first swallow``."""
        if verb.kind in ("note", "lesson"):
            self._items, self._words = items, right
            return
        inner, colon, words = _parted(right)
        if verb == Verb("done"):
            found = self._scan_quietly(inner if colon else right)
            if any(item.sort == "unknown" for item in found) or not any(
                item.sort == "verb" for item in found
            ):
                self._items, self._words = items, right
                return
        part, before = self._part, len(self._part) + 1
        self._items = items + [
            item._replace(start=item.start + before, end=item.end + before) for item in self._scan(inner)
        ]
        self._part, self._words = f"{part} {self._part}", words

    def _take_after_place(self, items: list[Item], left: str, right: str) -> None:
        """``North: picked 800 g tomato``, ``North: soil very dry``."""
        inner, _colon, words = _parted(right)
        found = self._scan_quietly(inner)
        spoken = [item for item in found if item.sort not in _SILENT]
        verbs = any(item.sort == "verb" for item in spoken)
        known = not any(item.sort == "unknown" for item in spoken)
        if verbs and (known or spoken[0].sort == "verb") and not _is_wordy(spoken[0].value):
            before = len(with_plain_fractions(left)) + 1
            self._items = items + [
                item._replace(start=item.start + before, end=item.end + before) for item in found
            ]
            self._part, self._words = f"{with_plain_fractions(left)} {with_plain_fractions(inner)}", words
            return
        if spoken and spoken[0].sort == "verb" and _is_wordy(spoken[0].value):
            self._items = [Item("verb", spoken[0].value, 0, 0), *items]
            self._words = with_plain_fractions(right)[spoken[0].end :].lstrip(" :,")
            return
        self._items, self._words = [Item("verb", Verb("note"), 0, 0), *items], right

    def _scan_quietly(self, part: str) -> list[Item]:
        """The items of words that may be somebody's own: nothing is asked back of them."""
        try:
            return self._scan(part)
        except RecordLineError:
            return [Item("unknown", part, 0, len(part))]

    def _take_words_without_colon(self, spoken: list[Item]) -> None:
        """``note first swallow``: all words are one's own, and no place is guessed from them."""
        head, rest = spoken[0], spoken[1:]
        words = self._part[head.end :].strip()
        if any(item.sort in ("unknown", "verb", "number", "unit") for item in rest):
            if rest[0].sort in ("bed", "crop", "variety", "planting", "family"):
                raise RecordLineError(
                    say("it is not clear where the place ends in '{words}'", words=words),
                    fix=say("Put a colon behind the place, or before all words"),
                )
            self._items, self._words = [head], words
        else:
            self._items, self._words = spoken, ""

    # -- what happened ----------------------------------------------------------------------

    def _of_sort(self, *sorts: str) -> list[Item]:
        return [item for item in self._items if item.sort in sorts]

    def _drop(self, gone: Sequence[Item]) -> None:
        self._items = [item for item in self._items if not any(item is one for one in gone)]

    def _verb(self) -> Verb:
        items = self._of_sort("verb")
        verbs = list(dict.fromkeys(item.value for item in items))
        closed = [verb for verb in verbs if not verb.is_open]
        if (
            any(verb.kind == "measured" for verb in closed)
            and self._items
            and items[0].value.kind == "measured"
        ):
            self._drop(items[:1])
            return Verb("measured")
        if closed and len(verbs) > 1:
            kinds = {verb.kind for verb in closed}
            verbs = closed if all(v.kind in kinds for v in verbs) else verbs
        if verbs and {verb._replace(cause="") for verb in verbs} == {verbs[0]._replace(cause="")}:
            causes = [verb.cause for verb in verbs if verb.cause]
            verbs = [verbs[0]._replace(cause=join_list(causes))]
        if not verbs:
            self._refuse_unknown()
            raise RecordLineError(
                say("what happened is missing"),
                fix=say("Begin with sown, picked, slugs, up, note or another word of the list of kinds"),
            )
        if len(verbs) > 1:
            words = [self._text(item) for item in items]
            raise RecordLineError(
                say("{words} are two things", words=join_list(words)), fix=say("Type a line for each")
            )
        self._drop(items)
        verb: Verb = verbs[0]
        if verb == Verb("done") and not self._words:
            self._refuse_unknown()
            raise RecordLineError(say("what was done is missing"), fix=say(_BEHIND_COLON))
        if verb.kind in ("note", "lesson") and not self._words:
            raise RecordLineError(
                say("the words of the {kind} are missing", kind=say(KIND_WORDS[verb.kind])),
                fix=say(_BEHIND_COLON),
            )
        if verb.kind == "seen" and not verb.harm:
            self._refuse_unknown()
            raise RecordLineError(
                say("what was seen is missing"),
                fix=say(
                    "Name it: slugs, aphids, mildew, frost; or 'something else' and words behind a colon"
                ),
            )
        if verb.kind == "ended" and not verb.why:
            self._refuse_unknown()
            raise RecordLineError(
                say("why it ended is missing"), fix=say("Type failed, eaten, frozen, bolted or cleared")
            )
        if verb.free:
            done = join_list(self._text(item) for item in items)
            self._words = say("{work}: {words}", work=done, words=self._words) if self._words else done
        return verb

    def _text(self, item: Item) -> str:
        return self._part[item.start : item.end].casefold() or str(item.value)

    def _measure(self, verb: Verb) -> Fields:
        """Share, count, amount, cover and the like of a record, taken out of the items."""
        match verb.kind:
            case "seen":
                fields: Fields = {"harm": verb.harm}
                if verb.cause:
                    fields["cause"] = verb.cause
                return fields | self._share() | self._look_again()
            case "came up":
                return self._count() or self._share()
            case "picked":
                return self._picked()
            case "ended":
                return {"why": verb.why}
            case "done" if verb.tasks:
                return self._cover(verb)
            case _:
                return {}

    def _share(self) -> Fields:
        for at, item in enumerate(self._items):
            if item.sort == "share":
                self._drop([item])
                return {"share": item.value}
            if item.sort == "number" and self._sort(at + 1) == "percent":
                share = item.value[0] / 100
                if share > 1:
                    raise RecordLineError(
                        say("{number} % is no share of a whole", number=item.value[1]),
                        fix=say("Type a number from 0 to 100"),
                    )
                self._drop(self._items[at : at + 2])
                return {"share": share}
        return {}

    def _sort(self, at: int) -> str:
        return self._items[at].sort if at < len(self._items) else ""

    def _look_again(self) -> Fields:
        marks, days = self._of_sort("look again"), self._of_sort("look again on")
        self._drop(marks + days)
        if marks and not days:
            raise RecordLineError(
                say("the day to look again is missing"), fix=say("Type one like: look again on 15 June")
            )
        return {"look_again": days[0].value} if days else {}

    def _count(self) -> Fields:
        for at, item in enumerate(self._items):
            if item.sort != "number" or item.value[0] != int(item.value[0]):
                continue
            if self._sort(at + 1) == "of" and self._sort(at + 2) == "number":
                sown = self._items[at + 2].value[0]
                self._drop(self._items[at : at + 3])
                return {"count": int(item.value[0]), "sown": int(sown)}
            if self._sort(at + 1) == "unit" and self._items[at + 1].value == "plants":
                self._drop(self._items[at : at + 2])
                return {"count": int(item.value[0])}
        return {}

    def _picked(self) -> Fields:
        amount = self._amount()
        if amount is None:
            self._refuse_left(Verb("picked"))
            raise RecordLineError(
                say("how much was picked is missing"), fix=say("Type one like 1.2 kg, 3 bunches or 12 pieces")
            )
        where = self._of_sort("for")
        self._drop(where)
        fields: Fields = {"amount": amount}
        if where and where[0].value != "kept":
            fields["picked_for"] = where[0].value
        return fields

    def _amount(self) -> Fields | None:
        """An amount of mass, volume, bunches or pieces; parts like 2 lb 3 oz are put together."""
        value, unit, used = 0.0, "", list[Item]()
        for at, item in enumerate(self._items):
            if item.sort == "filler" and self._text(item) in ("a", "an") and self._sort(at + 1) == "unit":
                half = self._items[at - 1] if at and self._sort(at - 1) == "share" else None
                part = half.value if half is not None else 1.0
                of_part, new_unit = _in_base_unit(part, self._items[at + 1].value)
                if unit in ("", new_unit):
                    value, unit = value + of_part, new_unit
                    used += [self._items[at + 1], *([half] if half is not None else [])]
            if item.sort != "number":
                continue
            following = self._items[at + 1] if self._sort(at + 1) == "unit" else None
            if following is not None:
                of_part, new_unit = _in_base_unit(item.value[0], following.value)
                if unit in ("", new_unit):
                    value, unit = value + of_part, new_unit
                    used += [item, following]
            elif not unit and self._sort(at + 1) == "crop":
                value, unit = item.value[0], "pieces"
                used.append(item)
        self._drop(used)
        if value <= 0:
            return None
        return {"value": round(value, 9), "unit": unit}

    def _cover(self, verb: Verb) -> Fields:
        if verb.tasks[0] not in COVERING:
            return {}
        kinds = self._of_sort("cover")
        self._drop(kinds)
        return {"cover": kinds[0].value} if kinds else {}

    def _measured(self) -> Fields:
        """``height 43 cm``: what was measured, the number, and its unit."""
        number = next((item for item in self._items if item.sort == "number"), None)
        if number is None:
            raise RecordLineError(
                say("the number of what was measured is missing"),
                fix=say("Type one like: measured height 43 cm"),
            )
        at = self._items.index(number)
        before = [item for item in self._items[:at] if item.sort not in _PLACES and item.sort not in _SILENT]
        minus = [item for item in self._items[:at] if item.sort == "to" and item.end == number.start]
        if not before:
            raise RecordLineError(
                say("what was measured is missing"), fix=say("Type one like: measured height 43 cm")
            )
        used = [*before, *minus, number]
        value, unit = number.value[0], ""
        rest = self._items[at + 1 :]
        if rest and rest[0].sort == "unit":
            unit = self._part[rest[0].start : rest[0].end]
            used.append(rest[0])
            inches = self._part[rest[0].end :].lstrip()
            if rest[0].value == "length ft" and len(rest) > 1 and rest[1].sort == "number":
                value = round(parse_length(f"{number.value[1]} ft {rest[1].value[1]} in") / 0.0254, 3)
                unit = "in"
                used += rest[1:3] if inches else []
        elif rest and rest[0].sort in ("unknown", "percent", "filler") and rest[0].start - number.end <= 1:
            while (
                rest
                and rest[0].sort in ("unknown", "percent", "filler")
                and (not unit or rest[0].start == used[-1].end)
            ):
                unit += self._part[rest[0].start : rest[0].end]
                used.append(rest.pop(0))
        self._drop(used)
        self._take_names()
        self._refuse_unknown()
        measure = " ".join(self._part[item.start : item.end] for item in before)
        fields: Fields = {"measure": measure, "value": -value if minus else value}
        return fields | ({"unit": unit} if unit else {})

    # -- who, where and when ----------------------------------------------------------------

    def _take_names(self) -> None:
        """``by Ana``: the unknown words behind ``by``."""
        for at, item in enumerate(self._items):
            if item.sort != "by":
                continue
            behind = []
            for other in self._items[at + 1 :]:
                if other.sort != "unknown":
                    break
                behind.append(other)
            self._drop([item, *behind])
            if behind:
                name = self._part[behind[0].start : behind[-1].end]
                self._items.append(Item("name", name, item.start, behind[-1].end))
            return

    def _refuse_unknown(self) -> None:
        self._take_names()
        unknown = self._of_sort("unknown")
        if not unknown:
            return
        word = str(unknown[0].value)
        beds = self._reader.names.beginnings.get(word.casefold())
        if beds:
            raise RecordLineError(
                say("'{word}' may be {beds}", word=word, beds=either(beds)), fix=say("Type the whole name")
            )
        last = unknown[0]
        for item in unknown[1:]:
            if self._part[last.end : item.start].strip():
                break
            last = item
        words = self._part[unknown[0].start : last.end] or word
        raise RecordLineError(say("'{words}' is not understood", words=words), fix=say(_BEHIND_COLON))

    def _refuse_left(self, verb: Verb) -> None:
        """Refuse numbers and the like that belong to nothing."""
        for at, item in enumerate(self._items):
            words = self._part[item.start : item.end]
            if item.sort == "number":
                raise RecordLineError(
                    say("'{number}' of what is not clear", number=words),
                    fix=say("Type a bed as 'bed {number}', an amount with its unit", number=words),
                )
            joins = item.sort == "to" and (words.isalpha() or self._sort(at + 1) in ("bed", "number"))
            if joins and self._sort(at + 1) == "bed":
                raise RecordLineError(
                    say("it is not clear which beds lie between those two"),
                    fix=say("A range goes from number to number: West 1 to 5; else name each bed"),
                )
            if joins or item.sort in _LEFT or (item.sort == "family" and verb.kind != "lesson"):
                raise RecordLineError(
                    say("'{words}' does not belong here", words=words), fix=say(_BEHIND_COLON)
                )

    def _day(self) -> dt.date:
        days = list(dict.fromkeys(item.value for item in self._of_sort("day")))
        if len(days) > 1:
            raise RecordLineError(
                say("two days are named: {days}", days=join_list([full_day_words(day) for day in days])),
                fix=say("Type a line for each day"),
            )
        return days[0] if days else self._today

    def _placed(self, verb: Verb, day: dt.date, head: Fields, fields: Fields) -> Iterator[Fields]:
        """A record for each place that the line names."""
        names = self._of_sort("name")
        if names:
            fields["by"] = names[0].value
        places = list(self._lesson_places() if verb.kind == "lesson" else self._places(verb, day))
        if verb.kind == "picked" and len(places) > 1 and not self._of_sort("each"):
            raise RecordLineError(
                say("it is not clear whether that was picked of each or of all together"),
                fix=say("Type 'each', or a line for each"),
            )
        for place in places:
            yield {**head, **place, **self._task(verb, place), **fields}

    def _task(self, verb: Verb, place: Fields) -> Fields:
        """The task that a word means on a planting: the first of its own that it may mean."""
        if not verb.tasks:
            return {}
        kinds = {
            one.kind
            for one in planting_tasks(self._plan, self._plan.garden.plantings_by_id[place["planting"]])
        }
        return {"task": next((task for task in verb.tasks if task in kinds), verb.tasks[0])}

    def _lesson_places(self) -> Iterator[Fields]:
        for item in self._items:
            if item.sort == "bed":
                yield from ({"bed": key} for key in item.value)
            elif item.sort == "family":
                yield {"family": item.value}
            elif item.sort == "crop":
                yield {"crop": self._one_crop(item)}
            elif item.sort == "planting":
                yield {"crop": self._plan.garden.plantings_by_id[item.value].crop}
            elif item.sort == "variety":
                of_variety = {self._plan.garden.plantings_by_id[key].crop for key in item.value}
                yield from ({"crop": crop} for crop in sorted(of_variety))
        if not self._of_sort("bed", "family", "crop", "planting", "variety"):
            garden = self._plan.garden
            beds = [key for key in self._about if key in garden.beds_by_id]
            crops = [garden.plantings_by_id[key].crop for key in self._about if key in garden.plantings_by_id]
            pins = [{"bed": key} for key in beds] + [{"crop": key} for key in dict.fromkeys(crops)]
            yield from pins if pins and not self._of_sort("garden") else [{}]

    def _one_crop(self, item: Item) -> str:
        text = self._part[item.start : item.end]
        named = self._plan.catalogue.named(text)
        if named is None and len(item.value) > 1:
            names = [self._plan.catalogue.name_of(key) for key in sorted(item.value)]
            raise RecordLineError(
                say("'{word}' may be {crops}", word=text, crops=either(names)), fix=say("Type the whole name")
            )
        return named.key if named is not None and named.key in item.value else str(min(item.value))

    def _places(self, verb: Verb, day: dt.date) -> Iterator[Fields]:
        """Plantings where a crop is named or the record needs one, else beds, else the garden."""
        wants = verb.kind in _OF_PLANTING or bool(verb.tasks)
        targets = Targets(self._plan, day, verb, take_all=bool(self._of_sort("all")))
        beds = [key for item in self._of_sort("bed") for key in item.value]
        plantings = [item.value for item in self._of_sort("planting")]
        crops, varieties = self._of_sort("crop"), self._of_sort("variety")
        if not (beds or crops or varieties or plantings or self._of_sort("garden")):
            beds = [key for key in self._about if key in self._plan.garden.beds_by_id]
            plantings = [key for key in self._about if key in self._plan.garden.plantings_by_id]
        elif (crops or varieties) and not beds:
            beds = [key for key in self._about if key in self._plan.garden.beds_by_id]
        if crops or varieties:
            found = self._of_crops(targets, crops, varieties, beds)
        elif wants and not plantings:
            if not beds:
                raise RecordLineError(
                    say("which planting is meant is missing"),
                    fix=say("Name the planting: its crop, its bed, or both"),
                )
            found = [one.id for bed in dict.fromkeys(beds) for one in targets.of_bed(bed)]
        else:
            found = []
        found = list(dict.fromkeys([*plantings, *found]))
        if found:
            yield from ({"planting": key} for key in found)
        elif beds:
            yield from ({"bed": key} for key in dict.fromkeys(beds))
        else:
            yield {}

    def _of_crops(
        self, targets: Targets, crops: list[Item], varieties: list[Item], beds: list[str]
    ) -> list[str]:
        """Ids of the plantings of the crops and varieties named; each crop must be found, and each bed used."""
        of_variety = set[str]().union(*(item.value for item in varieties)) if varieties else None
        garden = self._plan.garden
        asked: list[tuple[frozenset[str], str]] = [
            (item.value, self._part[item.start : item.end].casefold()) for item in crops
        ]
        if not asked and of_variety is not None:
            keys = frozenset(garden.plantings_by_id[key].crop for key in of_variety)
            asked = [(keys, " ".join(self._part[item.start : item.end] for item in varieties))]
        found = [one for keys, name in asked for one in targets.of_crop(keys, name, beds, of_variety)]
        unused = [bed for bed in beds if all(one.bed != bed for one in found)]
        if unused:
            names = either([garden.beds_by_id[bed].name for bed in unused])
            raise RecordLineError(
                say("nothing of that grows in {beds}", beds=names), fix=say("Leave the bed out")
            )
        return [one.id for one in found]


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


def _parted(line: str) -> tuple[str, bool, str]:
    """What stands before and behind the first colon that is not inside of a time."""
    for at, sign in enumerate(line):
        inside = line[at - 1 : at].isdigit() and line[at + 1 : at + 2].isdigit()
        if sign in ":：" and not inside:
            return line[:at].strip(), True, line[at + 1 :].strip()
    return line, False, ""


def _is_wordy(value: object) -> bool:
    return isinstance(value, Verb) and value.kind in ("note", "lesson")


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
