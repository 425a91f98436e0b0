"""A typed line parted at its colons: what happened and where, and words of somebody's own."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Iterator

from planner.errors import BedwrightError
from planner.importing.record_beds import either, with_beds
from planner.importing.record_items import PLACES, SILENT, LineItems
from planner.importing.record_line import LineReader, RecordLineError, with_plain_fractions
from planner.importing.record_phrases import CARRIED, COMING, LOOSE_UNITS, Item, signs_of
from planner.importing.record_vocabulary import Verb
from planner.plan import Plan
from planner.words import say


def _either_word(words: Iterable[str]) -> str:
    return "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))


#: Work of no kind, in words.
_WORK = "done"
#: A load of something: a number, what it is carried in, and what it is.
_LOAD = re.compile(
    rf"\b(?:half an?|\d+(?:[.,]\d+)?|[^\W\d]+)\s+(?:{_either_word(LOOSE_UNITS)})\s+(?:of\s+)?(?:{_either_word(CARRIED)})\b",
    re.IGNORECASE,
)


def take_apart(plan: Plan, reader: LineReader, line: str) -> LineItems:
    """Take a line apart.

    Parameters
    ----------
    plan : Plan
    reader : LineReader
    line : str

    Raises
    ------
    RecordLineError or DayError
        Where a bed or a day in it is not clear.
    """
    return _Parting(plan, reader).part_line(line)


class _Parting:
    """Parts one line."""

    def __init__(self, plan: Plan, reader: LineReader) -> None:
        self._plan, self._reader = plan, reader
        self._words = ""
        self._part = ""
        self._items: list[Item] = []

    def part_line(self, line: str) -> LineItems:
        """Part the line at its colon: what happened and where, and words of one's own."""
        left, colon, right = _parted(line)
        if not colon and (load := _LOAD.search(left)) is not None:
            return self._part_load(left, load)
        items = self._scan(left)
        spoken = [item for item in items if item.sort not in SILENT]
        verbs = [item.value for item in spoken if item.sort == "verb"]
        if colon and spoken and all(item.sort == "verb" for item in spoken):
            self._take_after_verb(items, verbs[0], right)
        elif colon and verbs and not any(_is_wordy(one) for one in verbs) and self._goes_on(right):
            self._take_all(items, left, right)
        elif colon and spoken and not verbs and all(item.sort in PLACES for item in spoken):
            self._take_after_place(items, left, right)
        elif not colon and spoken[:1] and spoken[0].sort == "verb" and _is_wordy(spoken[0].value):
            self._take_words_without_colon(spoken)
        else:
            self._items, self._words = items, right
        self._take_day_of_words()
        names = self._reader.names
        return LineItems(self._items, self._part, self._words, names.beginnings, self._reader.single_words)

    def _part_load(self, line: str, load: re.Match[str]) -> LineItems:
        """``2 buckets of compost on West 3``: how much is carried there are words of the record, which is of work done."""
        rest = " ".join((line[: load.start()] + line[load.end() :]).split()).strip(" ,;")
        worked = any(item.sort == "verb" for item in self._scan_quietly(rest))
        return self.part_line(f"{rest if worked else ' '.join((_WORK, rest))}: {load.group()}")

    def _take_day_of_words(self) -> None:
        """The day with which the words of a note end is its day: a note is not of today where it says another day.

        Raises
        ------
        RecordLineError
            Where the words end with a time that has been and is not one day.
        """
        verbs = [item.value.kind for item in self._items if item.sort == "verb"]
        if verbs != ["note"] or not self._words or any(item.sort == "day" for item in self._items):
            return
        part = self._part
        try:
            found = self._reader.items(with_plain_fractions(self._words))
        except BedwrightError:  # a day to come, or none: words of somebody's own
            return
        self._part = part
        last = found[-1] if found else None
        if last is not None and last.sort == "day":
            self._items.append(last._replace(start=len(part), end=len(part)))
        elif last is not None and last.sort == "vague day" and last.value not in COMING:
            raise RecordLineError(
                say("'{words}' is not one day that has been", words=self._words[last.start : last.end]),
                fix=say("Put the day of the note before its words: note on 3 May: soil dry"),
            )

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

    def _goes_on(self, right: str) -> bool:
        """Whether what stands behind a colon names a place or a day, and holds no words of somebody's own."""
        part = self._part
        found = self._scan_quietly(right)
        self._part = part
        sorts = {item.sort for item in found}
        return not sorts & {"unknown", "vague day"} and bool(
            sorts & {"bed", "crop", "variety", "planting", "day", "garden", "unit"}
        )

    def _take_all(self, items: list[Item], left: str, right: str) -> None:
        """``leek sown: beds 3 to 7 on Tuesday``, ``hail 14 Aug: half of the tomatoes gone``: the colon parts nothing."""
        before = len(with_plain_fractions(left)) + 1
        found = self._scan(right)
        self._items = items + [
            item._replace(start=item.start + before, end=item.end + before) for item in found
        ]
        self._part, self._words = f"{with_plain_fractions(left)} {with_plain_fractions(right)}", ""

    def _take_after_place(self, items: list[Item], left: str, right: str) -> None:
        """``North: picked 800 g tomato``, ``North: soil very dry``."""
        inner, _colon, words = _parted(right)
        found = self._without_part_of_crop(items, inner, self._scan_quietly(inner))
        spoken = [item for item in found if item.sort not in SILENT]
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

    def _without_part_of_crop(self, before: list[Item], part: str, found: list[Item]) -> list[Item]:
        """Items in which the last word of a crop's name right behind another crop is none: ``strawberries: runners cut``."""
        if not (before and before[-1].sort == "crop" and found and found[0].sort == "crop"):
            return found
        text = with_plain_fractions(part)[found[0].start : found[0].end]
        if signs_of(text) in self._reader.names.whole:
            return found
        return [Item("unknown", text, found[0].start, found[0].end), *found[1:]]

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

    def _scan(self, part: str) -> list[Item]:
        self._part = with_plain_fractions(part)
        items = with_beds(self._plan, self._reader.names, self._reader.items(self._part))
        return list(self._with_families(items))

    def _scan_quietly(self, part: str) -> list[Item]:
        """The items of words that may be somebody's own: nothing is asked back of them."""
        try:
            return self._scan(part)
        except RecordLineError:
            return [Item("unknown", part, 0, len(part))]

    def _with_families(self, items: list[Item]) -> Iterator[Item]:
        """The items with the family of a crop where ``family`` stands behind it: cabbage family."""
        passed = False
        for item, following in itertools.zip_longest(items, items[1:]):
            if passed:
                passed = False
            elif item.sort == "crop" and following is not None and following.sort == "family word":
                crop = self._plan.catalogue.crops[one_crop(self._plan, self._part, item)]
                yield Item("family", crop.family, item.start, following.end)
                passed = True
            else:
                yield item._replace(sort="filler") if item.sort == "family word" else item


def one_crop(plan: Plan, part: str, item: Item) -> str:
    """The key of the crop that an item of a part of a line means.

    Raises
    ------
    RecordLineError
        Where it may be several.
    """
    text = part[item.start : item.end]
    named = plan.catalogue.named(text)
    if named is None and len(item.value) > 1:
        names = [plan.catalogue.name_of(key) for key in sorted(item.value)]
        raise RecordLineError(
            say("'{word}' may be {crops}", word=text, crops=either(names)), fix=say("Type the whole name")
        )
    return named.key if named is not None and named.key in item.value else str(min(item.value))


def _parted(line: str) -> tuple[str, bool, str]:
    """What stands before and behind the first colon that is not inside of a time."""
    for at, sign in enumerate(line):
        inside = line[at - 1 : at].isdigit() and line[at + 1 : at + 2].isdigit()
        if sign in ":：" and not inside:
            return line[:at].strip(), True, line[at + 1 :].strip()
    return line, False, ""


def _is_wordy(value: object) -> bool:
    return isinstance(value, Verb) and value.kind in ("note", "lesson")
