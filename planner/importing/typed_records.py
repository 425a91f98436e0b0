"""Records typed as one line: ``sown: beds 3 to 7 on Tuesday``, ``slugs on lettuce in Bed 2, half of it``.

A line says what happened, where, when and how much, in any order; words of one's own stand behind a colon.  What is not
understood, or may mean several things, is asked back and never guessed.
"""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from planner.amounts.tasks import planting_tasks
from planner.garden import Garden, edits
from planner.garden.edits.common import checked
from planner.garden.edits.ticks import REPEATED
from planner.garden.records import RECORD_MODELS, RecordBase
from planner.importing.record_beds import either
from planner.importing.record_items import LineItems
from planner.importing.record_line import LineReader, RecordLineError, plain_line
from planner.importing.record_losses import counted_part
from planner.importing.record_measures import Fields, measures_of
from planner.importing.record_parting import one_crop, take_apart
from planner.importing.record_phrases import COVERING, OTHER_YEARS, Item
from planner.importing.record_targets import Targets
from planner.importing.record_verbs import verb_of
from planner.importing.record_vocabulary import Verb
from planner.importing.record_warnings import record_warnings
from planner.listings.record_words import dated_record
from planner.plan import Plan
from planner.words import full_day_words, join_list, say

#: Work that has a name of its own the second time.
_AGAIN = {"earth up": "earth up again"}
#: Harm that may be of the whole garden where no place is named.
_WEATHER = ("frost", "hail", "wind", "drought")
#: Work that is done to a bed where no crop is named and several grow there.
_OF_WHOLE_BED = (("mulch",), ("feed",), ("spread",), ("film up",), ("film down",))
#: Records that are about a planting.
_OF_PLANTING = ("came up", "flowering", "ripe", "first picking", "last picking", "picked", "ended")


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
    """Write down what a line means; work that was ticked off before gets its new day, but for work that is
    done again and again.

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
            again = one["task"] in REPEATED
            garden = edits.tick(garden, planting.id, one["task"], one["day"], one.get("cover"), again)
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


def typed_warnings(plan: Plan, typed: TypedRecords) -> tuple[str, ...]:
    """What of a line is perhaps a slip of the pen; it can be written down all the same.

    Parameters
    ----------
    plan : Plan
    typed : TypedRecords
    """
    return record_warnings(plan, typed.records)


class _Line:
    """One line being read."""

    def __init__(
        self, plan: Plan, line: str, today: dt.date, about: tuple[str, ...], called: Mapping[str, str]
    ) -> None:
        self._plan, self._today, self._about = plan, today, about
        self._line: LineItems = take_apart(plan, LineReader(plan, today, called), line)

    def records(self) -> Iterator[Fields]:
        """The fields of each record."""
        self._refuse_vague_days()
        said = self._line.of_sort("verb")
        verb = verb_of(self._line)
        if (
            verb.kind != "measured" or verb.measure
        ):  # else what was measured is told in words of somebody's own
            self._refuse_without_place(verb)
        again = self._line.of_sort("again")
        if again and verb.tasks[:1] and verb.tasks[0] in _AGAIN:
            verb = verb._replace(tasks=(_AGAIN[verb.tasks[0]],))
            self._line.drop(again)
        fields = measures_of(self._line, verb)
        day = self._day()
        if verb.tasks[:1] in _OF_WHOLE_BED and not self._line.of_sort("crop", "variety", "planting"):
            verb = self._of_whole_bed(verb)
        if verb.tasks and verb.tasks[0] not in COVERING and self._line.of_sort("unknown"):
            verb = self._work_or_free(verb, day)
        anchors = said if verb.free or verb.told else []
        anchors += self._weather_numbers(verb) + self._lengths(verb)
        self._line.keep_words(anchors, placed=self._is_placed)
        self._line.refuse_left(verb)
        if self._line.words:
            fields["words"] = self._line.words
        heads = [(verb.kind, fields)]
        if verb.kind in ("first picking", "last picking") and "amount" in fields:
            heads = [(verb.kind, {}), ("picked", fields)]
        for kind, of_kind in heads:
            yield from self._placed(verb, day, {"kind": kind, "day": day}, of_kind)

    @property
    def _is_placed(self) -> bool:
        return bool(self._about) or self._line.names_place

    def _refuse_vague_days(self) -> None:
        """Ask which day is meant by words for a time that is not one day: it is never today."""
        items = self._line.items
        for at, item in enumerate(items):
            if item.sort != "vague day":
                continue
            last = item
            for other in items[at + 1 :]:
                if other.sort not in ("vague day", "day") or self._line.part[last.end : other.start].strip():
                    break
                last = other
            words = self._line.part[item.start : last.end]
            if item.value in OTHER_YEARS:
                raise RecordLineError(
                    say("'{words}' is no day on which something happened", words=words),
                    fix=say(
                        "Type it as a lesson, which comes back with the crop, or as a note: {example}",
                        example=self._line.as_lesson,
                    ),
                )
            raise RecordLineError(
                say("'{words}' is not one day that has been", words=words),
                fix=say("Type the day: today, Tuesday, 3 May or 2026-05-03"),
            )

    def _refuse_without_place(self, verb: Verb) -> None:
        """Ask where it was: animals and diseases, and what is of a planting, are not of the whole garden."""
        if self._is_placed:
            return
        if verb.kind in _OF_PLANTING or verb.tasks:
            self._line.refuse_unknown()
        elif verb.kind == "seen" and verb.harm not in _WEATHER:
            self._line.refuse_unknown()
            self._line.refuse_left(verb)
            raise RecordLineError(
                say("where it was seen is missing"),
                fix=say("Name the bed or the crop, or type 'everywhere'"),
            )

    def _work_or_free(self, verb: Verb, day: dt.date) -> Verb:
        """Work on something that is none of the tasks of its planting is free work: runners potted up."""
        places = list(self._places(verb, day))
        plantings = [self._plan.garden.plantings_by_id[one["planting"]] for one in places]
        kinds = {task.kind for planting in plantings for task in planting_tasks(self._plan, planting)}
        return verb if kinds & set(verb.tasks) else Verb("done", free=True)

    def _of_whole_bed(self, verb: Verb) -> Verb:
        """Mulch, feed or film on a bed whose crop is not named is for all of it: it is no task of one of several plantings."""
        named = [key for item in self._line.of_sort("bed") for key in item.value]
        beds = named or [key for key in self._about if key in self._plan.garden.beds_by_id]
        several = any(len(self._plan.garden_in_bed(bed)) > 1 for bed in beds)
        return Verb("done", free=True) if several else verb

    def _lengths(self, verb: Verb) -> list[Item]:
        """Lengths beside work, which are kept in its words: thinned to 15 cm."""
        items, found = self._line.items, list[Item]()
        for at, (one, behind) in enumerate(itertools.pairwise(items)):
            length = behind.sort == "unit" and behind.value.startswith("length")
            if verb.kind == "done" and one.sort == "number" and length:
                found += [one, behind]
                found += [to for to in items[max(at - 1, 0) : at] if to.sort == "to"]
        return found

    def _weather_numbers(self, verb: Verb) -> list[Item]:
        """Numbers beside a kind of weather, which are kept in its words: frost -2."""
        if verb.kind != "seen" or verb.harm not in _WEATHER:
            return []
        items = self._line.items
        numbers = [item for item in items if item.sort == "number"]
        signs = [item for item, behind in itertools.pairwise(items)
                 if item.sort == "to" and behind.sort == "number" and item.end == behind.start]  # fmt: skip
        return signs + numbers

    def _day(self) -> dt.date:
        days = list(dict.fromkeys(item.value for item in self._line.of_sort("day")))
        if len(days) > 1:
            raise RecordLineError(
                say("two days are named: {days}", days=join_list([full_day_words(day) for day in days])),
                fix=say("Type a line for each day"),
            )
        return days[0] if days else self._today

    def _placed(self, verb: Verb, day: dt.date, head: Fields, fields: Fields) -> Iterator[Fields]:
        """A record for each place that the line names."""
        names = self._line.of_sort("name")
        if names:
            fields["by"] = names[0].value
        places = list(self._lesson_places() if verb.kind == "lesson" else self._places(verb, day))
        if verb.kind == "picked" and len(places) > 1 and not self._line.of_sort("each"):
            raise RecordLineError(
                say("it is not clear whether that was picked of each or of all together"),
                fix=say("Type 'each', or a line for each"),
            )
        for place in places:
            counted = counted_part(self._plan, self._line, place, fields, len(places), head["day"])
            yield {**head, **place, **self._task(verb, place), **counted}

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
        """What a lesson is pinned to: crops, families, beds, or crops in beds; else what is meant, else the garden."""
        garden = self._plan.garden
        plants = dict[tuple[str, str], None]()
        for item in self._line.items:
            if item.sort == "family":
                plants["family", item.value] = None
            elif item.sort == "crop":
                plants["crop", one_crop(self._plan, self._line.part, item)] = None
            elif item.sort in ("planting", "variety"):
                keys = [item.value] if item.sort == "planting" else sorted(item.value)
                plants |= dict.fromkeys(("crop", garden.plantings_by_id[key].crop) for key in keys)
        beds = [key for item in self._line.of_sort("bed") for key in item.value]
        if not plants and not beds and not self._line.of_sort("garden"):
            beds = [key for key in self._about if key in garden.beds_by_id]
            there = [key for key in self._about if key in garden.plantings_by_id]
            plants = dict.fromkeys(("crop", garden.plantings_by_id[key].crop) for key in there)
            if beds and plants:  # each was selected by itself
                yield from ({field: value} for field, value in plants)
                plants = {}
        for bed in beds or [None]:
            pin: Fields = {"bed": bed} if bed is not None else {}
            yield from ({**pin, field: value} for field, value in plants) if plants else [pin]

    def _places(self, verb: Verb, day: dt.date) -> Iterator[Fields]:
        """Plantings where a crop is named or the record needs one, else beds, else the garden."""
        wants = verb.kind in _OF_PLANTING or bool(verb.tasks) or verb.lost
        targets = Targets(self._plan, day, verb, take_all=bool(self._line.of_sort("all")))
        beds = [key for item in self._line.of_sort("bed") for key in item.value]
        plantings = [item.value for item in self._line.of_sort("planting")]
        crops, varieties = self._line.of_sort("crop"), self._line.of_sort("variety")
        if not (beds or crops or varieties or plantings or self._line.of_sort("garden")):
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
            (item.value, self._line.part[item.start : item.end].casefold()) for item in crops
        ]
        if not asked and of_variety is not None:
            keys = frozenset(garden.plantings_by_id[key].crop for key in of_variety)
            asked = [(keys, " ".join(self._line.part[item.start : item.end] for item in varieties))]
        found = [one for keys, name in asked for one in targets.of_crop(keys, name, beds, of_variety)]
        unused = [bed for bed in beds if all(one.bed != bed for one in found)]
        if unused:
            names = either([garden.beds_by_id[bed].name for bed in unused])
            raise RecordLineError(
                say("nothing of that grows in {beds}", beds=names), fix=say("Leave the bed out")
            )
        return [one.id for one in found]
