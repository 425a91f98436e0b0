"""The items of a typed line while records are made of them: what has found its place is taken out."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Collection, Mapping, Sequence

from planner.importing.record_beds import either
from planner.importing.record_line import RecordLineError
from planner.importing.record_phrases import LOOSE_UNITS, Item
from planner.importing.record_vocabulary import Verb
from planner.words import later, say

#: Sorts of items that carry no meaning by themselves.
SILENT = ("filler", "in", "and", "of", "all", "to")
#: Sorts that say where or when.
PLACES = ("bed", "crop", "variety", "planting", "family", "garden", "day", "by", "name")
#: Sorts that name what a record is about.
_THINGS = ("bed", "crop", "variety", "planting")
#: How a line is mended that has words of somebody's own.
BEHIND_COLON = later("Put words of your own behind a colon")
BEHIND_COLON_AS = later("Put words of your own behind a colon: {example}")
#: Sorts with which words of somebody's own go on: ``two cans each``.
_GOES_ON = (
    "unknown",
    "filler",
    "in",
    "of",
    "to",
    "each",
    "cover",
    "for",
    "unit",
    "ordinal",
    "since",
    "measure",
    "measured",
    "share",
    "again",
    "all",
    "not",
    "whom",
)
#: What may stand before the words that are kept, and what behind them.
_AHEAD, _BEHIND = ("in", "and", "of", "to"), (*SILENT, "each")
_ARTICLES = ("a", "an", "the")
#: An unknown word that is so like a known one is taken for a slip of the hand, from so many letters on.
_LIKE, _LETTERS = 0.84, 5
#: Sorts that must have found their place when the records are made.
_LEFT = ("verb", "unit", "share", "percent", "cover", "for", "lost", "look again", "look again on")


class LineItems:
    """The items of a line that are still to be used.

    Attributes
    ----------
    items : list of Item
    part : str
        What was typed before the words of somebody's own; items say where they stand in it.
    words : str
        Words of somebody's own.
    beginnings : mapping of str to tuple of str
        Names of beds by their first words.
    known : callable
        Gives the single words that have a meaning.
    """

    def __init__(
        self,
        items: list[Item],
        part: str,
        words: str,
        beginnings: Mapping[str, tuple[str, ...]],
        known: Callable[[], Collection[str]] = tuple,
    ) -> None:
        self.items, self.part, self.words = items, part, words
        self._beginnings, self._known = beginnings, known
        self._all = tuple(items)

    def typed(self, item: Item) -> str:
        """An item as it was typed."""
        return self.part[item.start : item.end]

    def of_sort(self, *sorts: str) -> list[Item]:
        """The items of some sorts."""
        return [item for item in self.items if item.sort in sorts]

    def drop(self, gone: Sequence[Item]) -> None:
        """Take items out: they have found their place."""
        self.items = [item for item in self.items if not any(item is one for one in gone)]

    def replace(self, gone: Item, new: Item) -> None:
        """Put an item in the place of another."""
        self.items = [new if item is gone else item for item in self.items]
        self._all = tuple(new if item is gone else item for item in self._all)

    def turned_around(self) -> list[Item]:
        """Words like ``not`` in a part of the line, between commas, that also says what happened."""
        found, clause = list[Item](), list[Item]()
        for item in (*self._all, None):
            if item is not None and self.typed(item) not in (",", ";"):
                clause.append(item)
                continue
            if any(one.sort == "verb" for one in clause):
                found += [one for one in clause if one.sort == "not"]
            clause = []
        return found

    def beside(self, item: Item) -> tuple[Item, ...]:
        """The items of the line that stand right before and behind one, those among them that are used already."""
        at = next(number for number, one in enumerate(self._all) if one is item)
        return (*self._all[max(at - 1, 0) : at], *self._all[at + 1 : at + 2])

    def behind(self, item: Item) -> tuple[Item, ...]:
        """The items of the line behind one, those among them that are used already."""
        return tuple(one for one in self._all if one.start >= item.end)

    def separate(self, one: Item, other: Item) -> bool:
        """Whether a comma or the like parts two items."""
        return any(sign in self.part[one.end : other.start] for sign in ",;:-–—")

    def add_words(self, words: str) -> None:
        """Add to the words of the record, before those of somebody's own."""
        self.words = say("{work}: {words}", work=words, words=self.words) if self.words else words

    def sort_at(self, at: int) -> str:
        """The sort of an item by its number; empty behind the last."""
        return self.items[at].sort if at < len(self.items) else ""

    def text(self, item: Item) -> str:
        """An item as it was typed, in small letters."""
        return self.part[item.start : item.end].casefold() or str(item.value)

    def take_names(self) -> None:
        """``by Ana``: the unknown words behind ``by``."""
        for at, item in enumerate(self.items):
            if item.sort != "by":
                continue
            behind = []
            for other in self.items[at + 1 :]:
                if other.sort != "unknown":
                    break
                behind.append(other)
            self.drop([item, *behind])
            if behind:
                name = self.part[behind[0].start : behind[-1].end]
                self.items.append(Item("name", name, item.start, behind[-1].end))
            return

    def refuse_unknown(self) -> None:
        """Refuse words that nobody knows.

        Raises
        ------
        RecordLineError
        """
        self.take_names()
        unknown = self.of_sort("unknown")
        if not unknown:
            return
        self._refuse(unknown[0])

    def _refuse(self, item: Item) -> None:
        """Ask back what a word means, with those beside it."""
        word = str(item.value)
        beds = self._beginnings.get(word.casefold())
        behind = [one for one in self._all if one.start >= item.end][:1]
        if beds and behind and behind[0].sort == "number":
            raise RecordLineError(
                say("there is no bed {name}", name=self.part[item.start : behind[0].end]),
                fix=say("Look at the names on the plan"),
            )
        if beds:
            raise RecordLineError(
                say("'{word}' may be {beds}", word=word, beds=either(beds)), fix=say("Type the whole name")
            )
        near = self._near(word)
        if near:
            error = RecordLineError(
                say("'{word}' is not understood", word=word),
                fix=say("Type '{word}' if you mean that", word=near),
            )
            error.slip = (word, near)
            raise error
        words = self._beside(item)
        loose = next((one for one in words.casefold().split() if one in LOOSE_UNITS), "")
        if loose:
            weight = LOOSE_UNITS[loose]
            raise RecordLineError(
                say("'{words}' says no weight and no number", words=words),
                fix=say("One is {weight}: type it so, or in kg", weight=weight)
                if weight
                else say(
                    "Type in its place what it weighs or holds, as 2 kg, 5 g, 3 l or 12 pieces; the words go behind a colon"
                ),
            )
        raise RecordLineError(
            say("'{words}' is not understood", words=words),
            fix=say(BEHIND_COLON_AS, example=self.example(words)),
        )

    def _near(self, word: str) -> str:
        """The known word of which another is a slip of the hand; empty for none."""
        sign = word.casefold()
        if len(sign) < _LETTERS:
            return ""
        known = self._known()
        near = [] if sign in known else difflib.get_close_matches(sign, known, 3, _LIKE)
        return next((one for one in near if not _is_form_of(sign, one)), "")

    def _beside(self, item: Item) -> str:
        """An unknown word with those that follow it."""
        last = item
        for other in self.of_sort("unknown"):
            if other.start >= last.end and not self.part[last.end : other.start].strip():
                last = other
        return self.part[item.start : last.end] or str(item.value)

    def example(self, words: str) -> str:
        """How words of somebody's own are typed about the place of the line."""
        return say("{place}: {words}", place=self.place or say("note"), words=words)

    @property
    def as_note(self) -> str:
        """How the line is typed as a note, which is taken as it stands."""
        words = (
            say("{work}: {words}", work=self.part.strip(), words=self.words)
            if self.words
            else self.part.strip()
        )
        return (
            say("note {place}: {words}", place=self.place, words=words)
            if self.place
            else say("note: {words}", words=words)
        )

    @property
    def as_lesson(self) -> str:
        """How the line is typed as a lesson."""
        words = self.part.strip()
        return (
            say("lesson {place}: {words}", place=self.place, words=words)
            if self.place
            else say("lesson: {words}", words=words)
        )

    @property
    def place(self) -> str:
        """The first bed or crop of the line as it was typed; empty for none."""
        return next((self.typed(item) for item in self._all if item.sort in _THINGS and item.end), "")

    @property
    def names_place(self) -> bool:
        """Whether a bed, a crop or the whole garden is named."""
        return any(item.sort in (*_THINGS, "garden") for item in self._all)

    def keep_words(self, anchors: Collection[Item] = (), *, placed: bool) -> None:
        """Keep what nobody knows, and the items given, as words of the record, with the words that belong to them.

        Parameters
        ----------
        anchors : collection of Item
            Items whose words are kept.
        placed : bool
            Whether it is known what the record is about.

        Raises
        ------
        RecordLineError
            Of a word that may be the name of something, or a slip of the hand.
        """
        self.take_names()
        left = [item for item in self._all if _is_in(item, self.items)]
        kept = [
            item
            for item in left
            if item.sort
            in ("unknown", "since", "ordinal", "measure", "measured", "again", "not", "all told", "whom")
        ]
        for item in kept:
            if item.sort == "unknown":
                self._refuse_a_name(item, placed=placed)
        kept += [item for item in anchors if not _is_in(item, kept)]
        runs: list[str] = []
        at = 0
        while at < len(self._all):
            if not _is_in(self._all[at], kept):
                at += 1
                continue
            first, last = self._run(at, kept)
            runs.append(self.part[self._all[first].start : self._all[last].end])
            self.drop(self._all[first : last + 1])
            at = last + 1
        if runs:
            self.add_words(", ".join(runs))

    def _run(self, at: int, kept: Collection[Item]) -> tuple[int, int]:
        """The first and last of the items about one that belong to its words."""

        def goes_on(number: int) -> bool:
            item = self._all[number]
            if _is_in(item, kept):
                return True
            weighed = number + 1 < len(self._all) and self._all[number + 1].sort == "unit"
            counted = item.sort == "number" and (weighed or not self.typed(item)[:1].isdecimal())
            joins = item.sort == "and" and self.typed(item).isalpha() and number + 1 < len(self._all)
            if joins:
                return _is_in(self._all[number + 1], kept)
            if item.sort == "day":
                return self._all[number - 1].sort == "since"
            return _is_in(item, self.items) and (counted or item.sort in _GOES_ON)

        first = last = at
        while first and goes_on(first - 1):
            first -= 1
        while last + 1 < len(self._all) and goes_on(last + 1):
            last += 1
        while first < at and self._is_silent(first, _AHEAD) and not self._ends_clause(first - 1):
            first += 1
        whole = self._ends_clause(last + 1)
        while (
            not whole and last > at and not _is_in(self._all[last], kept) and self._all[last].sort in SILENT
        ):
            last -= 1
        return first, last

    def _ends_clause(self, number: int) -> bool:
        """Whether the line ends at an item, or a comma parts it there."""
        return not 0 <= number < len(self._all) or self.typed(self._all[number]) in (",", ";")

    def _is_silent(self, number: int, sorts: Sequence[str]) -> bool:
        item = self._all[number]
        return item.sort in sorts or (item.sort == "filler" and self.text(item) not in _ARTICLES)

    def _refuse_a_name(self, item: Item, *, placed: bool) -> None:
        """Refuse an unknown word that may be a bed, a crop or a day, or follows a number."""
        at = next(number for number, one in enumerate(self._all) if one is item)
        before = [one for one in self._all[:at] if one.sort != "filler" or self.text(one) not in _ARTICLES]
        word = str(item.value)
        ahead = before[-1] if before else None
        after_place = ahead is not None and (ahead.sort in ("in", "of") or self.text(ahead) in ("on", "from"))
        after_digits = ahead is not None and ahead.sort == "number" and self.typed(ahead)[:1].isdecimal()
        named = bool(at) and word[:1].isupper() and not self.part.isupper()
        if (
            self._beginnings.get(word.casefold())
            or named
            or after_digits
            or (after_place and not placed)
            or self._near(word)
        ):
            self._refuse(item)

    def refuse_left(self, verb: Verb) -> None:
        """Refuse numbers and the like that belong to nothing."""
        for at, item in enumerate(self.items):
            words = self.part[item.start : item.end]
            if item.sort == "number":
                raise RecordLineError(
                    say("'{number}' of what is not clear", number=words),
                    fix=say("Type a bed as 'bed {number}', an amount with its unit", number=words),
                )
            joins = item.sort == "to" and (words.isalpha() or self.sort_at(at + 1) in ("bed", "number"))
            if joins and self.sort_at(at + 1) == "bed":
                raise RecordLineError(
                    say("it is not clear which beds lie between those two"),
                    fix=say("A range goes from number to number: West 1 to 5; else name each bed"),
                )
            if joins or item.sort in _LEFT or (item.sort == "family" and verb.kind != "lesson"):
                raise RecordLineError(
                    say("'{words}' does not belong here", words=words), fix=say(BEHIND_COLON)
                )


def _is_form_of(one: str, other: str) -> bool:
    """Whether one word is the other with an ending: compost, composted; green, greens."""
    if other in (f"{one}s", one.removesuffix("s")):
        return True
    return abs(len(one) - len(other)) > 1 and (one.startswith(other) or other.startswith(one))


def _is_in(item: Item, items: Collection[Item]) -> bool:
    return any(item is one for one in items)
