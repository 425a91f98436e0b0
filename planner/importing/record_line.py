"""A typed line taken apart: verbs, beds, crops, days, numbers and words nobody knows."""

from __future__ import annotations

import datetime as dt
import itertools
import unicodedata
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any, NamedTuple

from planner.crops import Catalogue, Crop
from planner.crops.families import names_of_family
from planner.errors import BedwrightError
from planner.garden import Bed, Planting
from planner.garden.units import month_first
from planner.importing.record_phrases import (
    ARTICLED,
    EVERYDAY,
    SPLIT_WORK,
    Item,
    Signs,
    Token,
    crop_kinds,
    crop_names,
    phrases,
    signs_of,
    tokens_of,
)
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words.recent_days import DAY_WORDS, days_ago, is_weekday, names_recent_day, recent_day_as_typed
from planner.words.typed_days import DayError, NoSuchDayError, folded, read_typed_day

#: Longest line that is read. [characters]
LONGEST_LINE = 2_000
#: A day takes so many tokens at the most: ``25 . 4 . 2027``.
_LONGEST_DAY = 6
#: Short names of days of the week that are no everyday words.
_SHORT_WEEKDAYS = ("mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri")
_FRACTIONS = {"¼": " 1/4", "½": " 1/2", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3"}


class RecordLineError(BedwrightError):
    """A typed line that does not say what is to be written down.

    Attributes
    ----------
    slip : tuple of str or None
        A word that is perhaps a slip of the hand, and the one that is perhaps meant.
    """

    slip: tuple[str, str] | None = None


class NamesInputs(NamedTuple):
    """What can be named in a line.

    Attributes
    ----------
    beds : tuple of Bed
    plantings : tuple of Planting
    catalogue : Catalogue
    """

    beds: tuple[Bed, ...]
    plantings: tuple[Planting, ...]
    catalogue: Catalogue


class Names(NamedTuple):
    """Names of beds, crops, families and varieties, as they are compared.

    Attributes
    ----------
    found : mapping of tuple of str to (sort, value)
        Of beds their ids, of crops their keys, of varieties the ids of their plantings, of families the name.
    numbered : mapping of str to mapping of tuple of str to tuple of str
        Beds whose name ends in a number: by number, and by what stands before it, their ids.
    beginnings : mapping of str to tuple of str
        First words of the names of beds that have several words, with those names.
    whole : frozenset of tuple of str
        Names of crops that are more than the last word of one.
    """

    found: Mapping[Signs, tuple[str, Any]]
    numbered: Mapping[str, Mapping[Signs, tuple[str, ...]]]
    beginnings: Mapping[str, tuple[str, ...]]
    whole: frozenset[Signs]


@fact("names typed in records")
def names_of(inputs: NamesInputs) -> Names:
    """The names that a line may hold; of the same words a bed goes before a variety, and that before a crop."""
    crops, whole = _crops_by_name(inputs)
    found: dict[Signs, tuple[str, Any]] = {
        signs_of(name): ("family", crop.family)
        for crop in inputs.catalogue.crops.values()
        for name in names_of_family(crop.family)
    }
    found |= {signs: ("crop", keys) for signs, keys in crops.items()}
    varieties: dict[Signs, frozenset[str]] = {}
    for planting in inputs.plantings:
        if planting.variety:
            signs = signs_of(planting.variety)
            varieties[signs] = varieties.get(signs, frozenset()) | {planting.id}
    found |= {signs: ("variety", ids) for signs, ids in varieties.items()}
    beds: dict[Signs, tuple[str, ...]] = {}
    numbered: dict[str, dict[Signs, tuple[str, ...]]] = {}
    beginnings: dict[str, tuple[str, ...]] = {}
    for bed in inputs.beds:
        signs = signs_of(bed.name)
        beds[signs] = (*beds.get(signs, ()), bed.id)
        if signs[-1:] and signs[-1].isdecimal():
            of_number = numbered.setdefault(str(int(signs[-1])), {})
            of_number[signs[:-1]] = (*of_number.get(signs[:-1], ()), bed.id)
        if len(signs) > 1:
            beginnings[signs[0]] = (*beginnings.get(signs[0], ()), bed.name)
    found |= {signs: ("bed", ids) for signs, ids in beds.items() if not _is_number(signs)}
    found.pop((), None)
    by_number = {number: MappingProxyType(beds_of) for number, beds_of in numbered.items()}
    return Names(MappingProxyType(found), MappingProxyType(by_number), MappingProxyType(beginnings), whole)


def _crops_by_name(inputs: NamesInputs) -> tuple[dict[Signs, frozenset[str]], frozenset[Signs]]:
    """Keys of crops by what they are called, and which of these are whole names.

    Of what is planted the last word alone is a name as well: beans.  Where that word is all of the name of another species
    that is planted, it is only that one: peas are no sweet peas.
    """
    crops, planted = inputs.catalogue.crops, {planting.crop for planting in inputs.plantings}
    found: dict[Signs, set[str]] = {}
    for key, crop in crops.items():
        for name in (crop.name, *crop.also):
            for signs in _in_several(signs_of(name)):
                found.setdefault(signs, set()).add(key)
    for name, key in crop_names():
        if key in crops:
            found.setdefault(signs_of(name), {key})
    whole = frozenset(found)
    there = sorted(planted & set(crops))
    by_own_name = {key: _in_several(signs_of(crops[key].name)[-1:]) for key in there}
    own_words = set[Signs]().union(*by_own_name.values())
    for key in there:  # lamb's lettuce is none where lettuce stands
        others = {signs for name in crops[key].also for signs in _in_several(signs_of(name)[-1:])}
        for signs in by_own_name[key] | (others - own_words):
            found.setdefault(signs, set()).add(key)
    for kind in crop_kinds():  # of what is planted: beans, whatever they are
        of_kind = {key for key in planted & set(crops) if _is_of_kind(crops[key], kind)}
        if of_kind:
            found.setdefault(signs_of(kind), of_kind)
    for key in sorted(planted & set(crops)):
        for signs in _in_several(signs_of(crops[key].name)):
            found[signs] = {
                other
                for other in found[signs]
                if crops[other].latin == crops[key].latin
                or _in_several(signs_of(crops[other].name)) & {signs}
            }
    return {signs: frozenset(keys) for signs, keys in found.items() if signs}, whole


def _is_of_kind(crop: Crop, kind: str) -> bool:
    name = str(crop.german.value).casefold() if crop.german is not None else ""
    return any(
        name.endswith(kind.removesuffix(ending)) for ending in ("", "n", "e", "se") if kind.endswith(ending)
    )


def _is_number(signs: Signs) -> bool:
    return len(signs) == 1 and signs[0].isdecimal()


def _in_several(name: Signs) -> set[Signs]:
    """A name in one and in several."""
    return {(*name[:-1], word) for word in _plurals(name[-1])} if name else set()


def _plurals(word: str) -> tuple[str, ...]:
    several = (
        f"{word[:-1]}ies"
        if word.endswith("y")
        else f"{word}es"
        if word.endswith(("o", "s", "sh", "ch", "x"))
        else f"{word}s"
    )
    return word, several


def plain_line(text: str) -> str:
    """A typed line in Unicode's composed form, without control characters.

    Raises
    ------
    RecordLineError
        Where nothing is typed, or too much.
    """
    from planner.words import say

    line = unicodedata.normalize("NFC", "".join(sign if sign.isprintable() else " " for sign in text)).strip()
    if not line:
        raise RecordLineError(say("nothing is typed"), fix=say("Type one like: sown: beds 3 to 7 on Tuesday"))
    if len(line) > LONGEST_LINE:
        raise RecordLineError(
            say("the line is too long"), fix=say("A line may have {count} characters", count=LONGEST_LINE)
        )
    return line


def with_plain_fractions(part: str) -> str:
    """A part of a line with ``1/2`` in place of ½."""
    for sign, plain in _FRACTIONS.items():
        part = part.replace(sign, plain)
    return part


class LineReader:
    """Takes parts of a line apart.

    Parameters
    ----------
    plan : Plan
    today : date
    called : mapping of str to str
        Plantings by a capital letter, as on the walk; a line may begin with a small one.
    """

    def __init__(self, plan: Plan, today: dt.date, called: Mapping[str, str]) -> None:
        garden = plan.garden
        self.today, self._called = today, called
        self.names = plan.cached(names_of, "", NamesInputs(garden.beds, garden.plantings, plan.catalogue))
        self._phrases: dict[Signs, tuple[str, Any]] = {}
        for signs, sort, value in phrases():
            self._phrases.setdefault(signs, (sort, value))
        self._longest = max(map(len, itertools.chain(self._phrases, self.names.found)), default=1)
        self._month_first = month_first(garden.site.units)

    def items(self, part: str) -> list[Item]:
        """The items of a part of a line, in their order.

        Raises
        ------
        DayError
            Of a day that no calendar has, or that is still to come.
        """
        tokens, found, at = tokens_of(part), list[Item](), 0
        while at < len(tokens):
            after_on = at > 0 and tokens[at - 1].sign in ("on", "am")
            item, used = self._next(part, tokens, at, after_on=after_on, looking=_looks_again(found))
            found.append(item)
            at += used
        return _with_split_work(part, self._without_parts_of_crops(part, found))

    def single_words(self) -> tuple[str, ...]:
        """Words that have a meaning by themselves, those of days among them."""
        meant = ("verb", "vague day", "crop", "bed", "variety")
        known = [
            (signs, sort) for signs, (sort, _value) in (*self._phrases.items(), *self.names.found.items())
        ]
        return (*DAY_WORDS, *(signs[0] for signs, sort in known if len(signs) == 1 and sort in meant))

    def _without_parts_of_crops(self, part: str, items: Sequence[Item]) -> list[Item]:
        """Items in which the last word of a crop's name behind another crop is none: strawberry runners."""
        found = list[Item]()
        for item in items:
            text = part[item.start : item.end]
            behind_crop = bool(found) and found[-1].sort == "crop"
            if item.sort == "crop" and behind_crop and signs_of(text) not in self.names.whole:
                item = Item("unknown", text, item.start, item.end)
            found.append(item)
        return found

    def _next(
        self, part: str, tokens: Sequence[Token], at: int, *, after_on: bool, looking: bool
    ) -> tuple[Item, int]:
        token = tokens[at]
        phrase, length = self._phrase(tokens, at)
        letter = token.text.upper() if at == 0 and length < 2 else token.text
        if token.text == "a" and self._is_article(tokens):
            letter = ""
        if len(token.text) == 1 and letter in self._called:
            return Item("planting", self._called[letter], token.start, token.end), 1
        day = self._day(part, tokens, at, after_on=after_on, looking=looking)
        if day is not None and (after_on or looking or day[1] >= length):
            end = tokens[at + day[1] - 1].end
            return Item("look again on" if looking else "day", day[0], token.start, end), day[1]
        everyday = length == 1 and token.sign in EVERYDAY and token.text.islower()
        if phrase is not None and not (phrase[0] == "vague day" and everyday):
            return Item(*phrase, token.start, tokens[at + length - 1].end), length
        if token.is_number:
            value, used = _number(tokens, at)
            return Item("number", value, token.start, tokens[at + used - 1].end), used
        return Item("unknown", token.text, token.start, token.end), 1

    def _is_article(self, tokens: Sequence[Token]) -> bool:
        """Whether a small ``a`` at the beginning belongs to a noun: ``a frost``, ``a lot of``, ``a late frost``, ``a tomato``."""
        if len(tokens) < 2 or not tokens[1].text.isalpha():
            return False
        phrase, _length = self._phrase(tokens, 1)
        return phrase is None or phrase[0] in ("crop", "variety") or tokens[1].sign in ARTICLED

    def _phrase(self, tokens: Sequence[Token], at: int) -> tuple[tuple[str, Any] | None, int]:
        """The longest name or phrase that begins at a token; a bed's goes before another of the same length."""
        for length in range(min(self._longest, len(tokens) - at), 0, -1):
            signs = tuple(token.sign for token in tokens[at : at + length])
            named, phrase = self.names.found.get(signs), self._phrases.get(signs)
            if named is not None and (phrase is None or named[0] == "bed"):
                return named, length
            if phrase is not None:
                return phrase, length
        return None, 0

    def _is_counted(self, tokens: Sequence[Token], at: int) -> bool:
        """Whether what begins at a token is counted or weighed by the number before it."""
        phrase, _length = self._phrase(tokens, at)
        return phrase is not None and phrase[0] in ("unit", "crop", "percent")

    def _day(
        self, part: str, tokens: Sequence[Token], at: int, *, after_on: bool, looking: bool
    ) -> tuple[dt.date, int] | None:
        for length in range(min(_LONGEST_DAY, len(tokens) - at), 0, -1):
            text = part[tokens[at].start : tokens[at + length - 1].end]
            if not (after_on or looking or _looks_like_a_day(text)):
                continue
            if tokens[at + length - 1].sign in ("of", "the"):
                continue
            if length > 1 and tokens[at + length - 1].is_number:
                parted = tokens[at + length - 2].sign == "," and len(tokens[at + length - 1].sign) < 4
                if parted or self._is_counted(tokens, at + length):
                    continue  # 1 Sept 20 kg; 3 June, 60 of them
            try:
                if looking:
                    return _coming_day(text, self.today, month_first=self._month_first), length
                return recent_day_as_typed(text, self.today, month_first=self._month_first), length
            except NoSuchDayError:
                raise
            except DayError:
                if _is_day(text, self._month_first):
                    raise
        return None


def _with_split_work(part: str, items: list[Item]) -> list[Item]:
    """Items in which work whose two words stand apart is one: ``set 40 leeks out``."""
    for at, item in enumerate(items):
        head = part[item.start : item.end].casefold()
        if item.sort not in ("unknown", "verb"):
            continue
        for number, other in enumerate(items[at + 1 :], start=at + 1):
            verb = SPLIT_WORK.get((head, part[other.start : other.end].casefold()))
            if verb is not None and number > at + 1:
                items[at] = Item("verb", verb, item.start, item.end)
                items[number] = other._replace(sort="filler")
                break
            if other.sort not in ("number", "crop", "variety", "unit", "filler", "of", "all"):
                break
    return items


def _is_day(text: str, first: bool) -> bool:
    try:
        read_typed_day(text, month_first=first)
    except DayError:
        return False
    return True


def _looks_again(found: Sequence[Item]) -> bool:
    """Whether the words before were ``look again``."""
    before = [item.sort for item in found if item.sort not in ("filler", "in")]
    return before[-1:] == ["look again"]


def _looks_like_a_day(text: str) -> bool:
    """Whether a text can be meant as a day without ``on`` before it: it has a month's or a day's name, or a year."""
    plain = " ".join(folded(text).split())
    letters = any(sign.isalpha() for sign in plain)
    if names_recent_day(plain) or plain.removeprefix("last ") in _SHORT_WEEKDAYS:
        return True
    if letters:
        return len(plain) > 4 and any(sign.isdigit() for sign in plain) and not plain[-1].isspace()
    return (plain[:4].isdecimal() and "-" in plain) or (plain.endswith(".") and plain.count(".") >= 2)


def _coming_day(text: str, today: dt.date, *, month_first: bool) -> dt.date:
    """A day to come: ``15 June``, ``Tuesday``, ``5 days``, ``a week``."""
    from planner.words.typed_days import date_as_typed

    plain = " ".join(folded(text).split())
    number, _, unit = plain.partition(" ")
    if unit in ("day", "days", "week", "weeks") and (number in ("a", "one") or number.isdecimal()):
        count = int(number) if number.isdecimal() else 1
        return today + dt.timedelta(days=min(count, 1_000) * (7 if unit.startswith("week") else 1))
    if is_weekday(plain):
        ago = days_ago(plain, today) or 0
        return today + dt.timedelta(days=7 - ago)
    return date_as_typed(text, today, month_first=month_first)


def _number(tokens: Sequence[Token], at: int) -> tuple[tuple[float, str], int]:
    """A number, with the fraction behind it, as it was typed, and how many tokens it takes."""
    signs = [token.sign for token in tokens[at : at + 4]]
    whole = len(signs) == 4 and signs[0].isdecimal() and signs[2] == "/"
    for offset, used in ((1, 4), (0, 3)):
        if used == 4 and not whole:
            continue
        top = signs[offset : offset + 3]
        if len(top) == 3 and top[1] == "/" and top[0].isdecimal() and top[2].isdecimal() and int(top[2]):
            value = int(top[0]) / int(top[2]) + (int(signs[0]) if used == 4 else 0)
            return (value, " ".join(signs[:used])), used
    try:
        value = float(signs[0].replace(",", "."))
    except ValueError:  # digits that are no number, as of another script
        value = 0.0
    return (value, signs[0]), 1
