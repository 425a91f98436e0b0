"""Which plantings a typed line is about."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Sequence

from planner.amounts.tasks import planting_tasks
from planner.garden import Planting
from planner.importing.record_beds import either
from planner.importing.record_line import RecordLineError
from planner.importing.record_vocabulary import Verb
from planner.listings.record_words import done_words
from planner.plan import Plan
from planner.words import day_words, join_list, say

#: Work is taken for what is due so near to its day where no crop is named, and where one is. [days]
DUE_WITHIN, NAMED_WITHIN = 30, 183
#: What happened to a planting is taken for one that is there so near to the day. [days]
THERE_WITHIN = 60
#: What happened to a planting is not taken for one that is begun more days after (practice): what is raised comes up indoors. [days]
NOT_BEFORE = {"came up": 120}
_NOT_BEFORE = 7
#: Kinds of records that tell of what grows already.
_TELLS_OF_GROWN = ("came up", "flowering", "ripe", "first picking", "last picking", "picked", "ended", "seen")
#: Work with which a planting is over: what stands there may be meant as well as what was due.
_ENDS = ("clear", "lift and store", "lift and cure")
#: Work with which a planting begins: it is not there before.
_STARTS = ("chit", "sow", "prick out", "pot on", "harden off", "set out")


class Targets:
    """Finds plantings by bed, crop and day.

    Parameters
    ----------
    plan : Plan
    day : date
        Of the record.
    verb : Verb
        What happened.
    take_all : bool
        Several plantings in one bed are all meant.
    """

    def __init__(self, plan: Plan, day: dt.date, verb: Verb, *, take_all: bool) -> None:
        self._plan, self._day, self._verb, self._all = plan, day, verb, take_all

    def of_crop(
        self, keys: Collection[str], name: str, beds: Sequence[str], varieties: Collection[str] | None
    ) -> list[Planting]:
        """The plantings of a crop, by the keys that its name may mean.

        Raises
        ------
        RecordLineError
            Where there is none, or it is not clear which one is meant.
        """
        pool = [
            one
            for one in self._plan.garden.plantings
            if one.crop in keys
            and (not beds or one.bed in beds)
            and (varieties is None or one.id in varieties)
        ]
        found = self._fitting(pool, named=True)
        if not found:
            raise self._none(name, beds)
        there = list(dict.fromkeys(one.bed for one in found))
        if not beds and len(there) > 1 and not self._all:
            names = [self._plan.garden.beds_by_id[bed].name for bed in there]
            raise RecordLineError(
                say("'{crop}' may be that in {beds}", crop=name, beds=either(names)),
                fix=say("Name the bed, or type 'all {crop}'", crop=name),
            )
        for bed in there:
            self._one_of([one for one in found if one.bed == bed], bed)
        return found

    def of_bed(self, bed: str) -> list[Planting]:
        """What a line about a bed that names no crop means.

        Raises
        ------
        RecordLineError
            Where nothing fits, or several do.
        """
        pool = list(self._plan.garden_in_bed(bed))
        found = self._fitting(pool, named=False)
        if not found:
            name = self._plan.garden.beds_by_id[bed].name
            day = day_words(self._day)
            tasks = self._verb.tasks
            if pool and tasks and tasks[0] in _STARTS:
                raise RecordLineError(
                    say(
                        "nothing is to be {done} in {bed} about {day}",
                        done=done_words(tasks[0]),
                        bed=name,
                        day=day,
                    ),
                    fix=say("Name the crop where it was done all the same"),
                )
            raise RecordLineError(
                say("nothing grows in {bed} on {day}", bed=name, day=day),
                fix=say("Write a note, or name another bed or day"),
            )
        self._one_of(found, bed)
        return found

    def _fitting(self, pool: Sequence[Planting], *, named: bool) -> list[Planting]:
        """Of some plantings those that the day and the work fit, nearest in each bed."""
        if self._verb.tasks:
            within = NAMED_WITHIN if named else DUE_WITHIN
            due = self._nearest(pool, self._days_to_task, within)
            if due and not named and self._verb.tasks[0] in _ENDS:
                return [one for one in pool if one in due or self._stands(one)]
            if due or (self._verb.tasks[0] in _STARTS and not named):
                return due
        return self._nearest(pool, self._days_since_it_began, THERE_WITHIN)

    def _nearest(
        self, pool: Sequence[Planting], days: Callable[[Planting], int | None], within: int
    ) -> list[Planting]:
        """Of each bed those that are within reach of the day; of one crop only the nearest ones."""
        best: dict[tuple[str, str], int] = {}
        away: dict[str, int] = {}
        for one in pool:
            distance = days(one)
            if distance is None or distance > within:
                continue
            away[one.id] = distance
            best[one.bed, one.crop] = min(distance, best.get((one.bed, one.crop), distance))
        near = [one for one in pool if one.id in away and away[one.id] == best[one.bed, one.crop]]
        standing = {one.bed for one in near if away[one.id] == 0}
        return [one for one in near if away[one.id] == 0 or one.bed not in standing or self._verb.tasks]

    def _days_away(self, planting: Planting) -> int | None:
        """Days from the day to those on which a planting is on its plot; 0 on them."""
        span = self._plan.span_of(planting)
        return max((span.first - self._day).days, (self._day - span.last).days, 0)

    def _stands(self, planting: Planting) -> bool:
        """Whether it is on its plot on the day, and not known to have ended."""
        outcome = self._plan.garden.outcome(planting)
        return not self._days_away(planting) and (outcome is None or outcome.day >= self._day)

    def _days_since_it_began(self, planting: Planting) -> int | None:
        """Days from the day to those on its plot; None where it is only begun later, and this is no work."""
        before = (self._plan.span_of(planting).first - self._day).days
        most = NOT_BEFORE.get(self._verb.kind, _NOT_BEFORE)
        tells = self._verb.kind in _TELLS_OF_GROWN
        return None if tells and before > most else self._days_away(planting)

    def _days_to_task(self, planting: Planting) -> int | None:
        """Days to the work of the line on a planting; None where it has none."""
        if abs(planting.year - self._day.year) > 1 and self._days_away(planting):
            return None
        found = [
            max((task.date - self._day).days, (self._day - max(task.until, task.date)).days, 0)
            for task in planting_tasks(self._plan, planting)
            if task.kind in self._verb.tasks
        ]
        return min(found, default=None)

    def _one_of(self, found: Sequence[Planting], bed: str) -> None:
        """Ask back where several plantings of a bed fit."""
        crops = list(dict.fromkeys(one.crop for one in found))
        if self._all or (len(found) == len(crops) == 1):
            return
        name = self._plan.garden.beds_by_id[bed].name
        called = [self._plan.catalogue.name_of(crop) for crop in crops]
        names = either(called)
        if len(crops) > 1:
            if self._verb.tasks:
                raise RecordLineError(
                    say("in {bed} it may be {crops}", bed=name, crops=names),
                    fix=say("Name the crop, or type 'all in {bed}'", bed=name),
                )
            raise RecordLineError(
                say("several crops grow in {bed}: {crops}", bed=name, crops=join_list(called)),
                fix=say("Name the crop"),
            )
        varieties = [one.variety for one in found if one.variety]
        if len(set(varieties)) == len(found):
            raise RecordLineError(
                say("in {bed} it may be {varieties}", bed=name, varieties=either(varieties)),
                fix=say("Name the variety, or type 'all {crop}'", crop=names),
            )
        if len(found) > 1:
            raise RecordLineError(
                say("several plantings of {crop} are in {bed}", crop=names, bed=name),
                fix=say("Select the one that is meant on the plan, or type 'all {crop}'", crop=names),
            )

    def _none(self, crop: str, beds: Sequence[str]) -> RecordLineError:
        day = day_words(self._day)
        if beds:
            names = either([self._plan.garden.beds_by_id[bed].name for bed in beds])
            there = [one for bed in beds for one in self._plan.garden_in_bed(bed) if not self._days_away(one)]
            stands = list(dict.fromkeys(self._plan.catalogue.name_of(one.crop) for one in there))
            what = (
                say(
                    "'{crop}' is not in {beds} on {day}: there is {crops}",
                    crop=crop,
                    beds=names,
                    day=day,
                    crops=join_list(stands),
                )
                if stands
                else say("'{crop}' is not in {beds} on {day}: nothing is", crop=crop, beds=names, day=day)
            )
        else:
            what = say("'{crop}' is nowhere in the garden on {day}", crop=crop, day=day)
        return RecordLineError(what, fix=say("Look at the plan of that day"))
