"""Beds of a typed line, with lists and ranges by number: ``beds 3 to 7``, ``West 1, 2 and 4``."""

from __future__ import annotations

from collections.abc import Sequence

from planner.importing.record_line import Names, RecordLineError
from planner.importing.record_phrases import Item, Signs, signs_of
from planner.plan import Plan
from planner.words import say

#: Most beds whose names are listed when it is asked which one is meant.
MOST_NAMED = 6


def with_beds(plan: Plan, names: Names, items: Sequence[Item]) -> list[Item]:
    """The items of a line with lists and ranges of beds made into items of beds; each holds the ids of its beds.

    Raises
    ------
    RecordLineError
        Where a bed does not exist, or it is not clear which one is meant.
    """
    return _Beds(plan, names, items).read()


class _Beds:
    def __init__(self, plan: Plan, names: Names, items: Sequence[Item]) -> None:
        self._plan, self._names, self._items = plan, names, items
        self._at = 0

    def _sort(self, ahead: int = 0) -> str:
        at = self._at + ahead
        return self._items[at].sort if at < len(self._items) else ""

    def read(self) -> list[Item]:
        found: list[Item] = []
        while self._at < len(self._items):
            item = self._items[self._at]
            if item.sort == "bed":
                found.append(self._from_bed(item))
            elif item.sort == "bed word" and self._is_bed_number(1):
                self._at += 1
                found.append(self._numbers(item, None))
            elif item.sort == "in" and self._is_bed_number(1) and self._plainly_numbered(1):
                self._at += 1
                found.append(self._numbers(item, ()))
            elif (
                item.sort == "number"
                and self._at == 0
                and len(self._items) == 1
                and self._plainly_numbered(0)
            ):
                found.append(self._numbers(item, ()))
            elif item.sort == "bed word":  # before a name, or alone
                found.append(Item("filler", "", item.start, item.end))
                self._at += 1
            else:
                found.append(item)
                self._at += 1
        return found

    def _is_bed_number(self, ahead: int) -> bool:
        """Whether the item so far ahead is a number, and not one of an amount, a share or a count."""
        if self._sort(ahead) != "number" or not _wholes(self._items[self._at + ahead]):
            return False
        return self._sort(ahead + 1) not in ("unit", "percent") and not (
            self._sort(ahead + 1) == "of" and self._sort(ahead + 2) == "number"
        )

    def _plainly_numbered(self, ahead: int) -> bool:
        """Whether beds are called by numbers alone, or nothing else can be meant by this one."""
        number = _wholes(self._items[self._at + ahead])
        plainly = any(() in of_number for of_number in self._names.numbered.values())
        return bool(number) and plainly

    def _from_bed(self, item: Item) -> Item:
        """A bed by its name, and what of a list or range follows it."""
        beds = self._only(item.value)
        signs = signs_of(self._plan.garden.beds_by_id[item.value[0]].name)
        prefix = signs[:-1] if signs[-1].isdecimal() else None
        self._at += 1
        if prefix is None:
            return Item("bed", beds, item.start, item.end)
        if self._sort() == "to" and self._sort(1) == "bed":
            other = self._items[self._at + 1]
            ends = signs_of(self._plan.garden.beds_by_id[other.value[0]].name)
            if ends[:-1] == prefix and ends[-1].isdecimal():
                self._at += 2
                return Item("bed", self._span(int(signs[-1]), int(ends[-1]), prefix), item.start, other.end)
        if self._sort() == "to" and self._is_bed_number(1):
            other = self._items[self._at + 1]
            self._at += 2
            (last,) = _wholes(other)
            beds = self._span(int(signs[-1]), last, prefix)
            item = Item("bed", beds, item.start, other.end)
        more, end = self._listed(item.end)
        return Item("bed", _once(beds + self._all_of(more, prefix)), item.start, end)

    def _numbers(self, head: Item, prefix: Signs | None) -> Item:
        """Beds by number: a list of numbers and ranges, of which the first comes next."""
        spans, end = self._spans(head.end)
        ends = [number for span in spans for number in span]
        which = self._prefix_for(ends) if prefix is None else prefix
        return Item("bed", self._all_of(spans, which), head.start, end)

    def _listed(self, end: int) -> tuple[list[tuple[int, int]], int]:
        """Further numbers of a list behind ``and`` or a comma."""
        ahead = 0
        while self._sort(ahead) == "and":
            ahead += 1
        if not ahead or not self._is_bed_number(ahead):
            return [], end
        self._at += ahead
        return self._spans(end)

    def _spans(self, end: int) -> tuple[list[tuple[int, int]], int]:
        spans: list[tuple[int, int]] = []
        while self._sort() == "number":
            wholes = _wholes(self._items[self._at])
            end = self._items[self._at].end
            self._at += 1
            if len(wholes) == 1 and self._sort() == "to" and self._is_bed_number(1):
                (last,) = _wholes(self._items[self._at + 1])[:1]
                end = self._items[self._at + 1].end
                spans.append((wholes[0], last))
                self._at += 2
            else:
                spans += [(number, number) for number in wholes]
            ahead = 0
            while self._sort(ahead) == "and":
                ahead += 1
            if not ahead or not self._is_bed_number(ahead):
                break
            self._at += ahead
        return spans, end

    def _prefix_for(self, numbers: Sequence[int]) -> Signs:
        """What stands before the numbers in the names that are meant."""
        for number in numbers:
            if str(number) not in self._names.numbered:
                raise _no_bed(number)
        shared = set.intersection(*(set(self._names.numbered[str(number)]) for number in numbers))
        usual = [prefix for prefix in (("bed",), signs_of(say("Bed")), ()) if prefix in shared]
        if len(shared) == 1:
            return shared.pop()
        if usual and not (len(set(usual)) > 1 and () in usual):
            return usual[0]
        if usual or shared:
            choices = [self._name_of(prefix, numbers[0]) for prefix in sorted(shared)]
        else:
            choices = [self._name_of(prefix, numbers[0]) for prefix in self._names.numbered[str(numbers[0])]]
        raise RecordLineError(
            say("'bed {number}' may be {beds}", number=numbers[0], beds=either(choices)),
            fix=say("Type the whole name"),
        )

    def _name_of(self, prefix: Signs, number: int) -> str:
        ids = self._names.numbered[str(number)][prefix]
        return self._plan.garden.beds_by_id[ids[0]].name

    def _all_of(self, spans: Sequence[tuple[int, int]], prefix: Signs) -> tuple[str, ...]:
        return _once(tuple(key for first, last in spans for key in self._span(first, last, prefix)))

    def _span(self, first: int, last: int, prefix: Signs) -> tuple[str, ...]:
        """The beds from one number to another; both ends must be there."""
        if last < first:
            raise RecordLineError(
                say("'{first} to {last}' runs backwards", first=first, last=last),
                fix=say("Type {last} to {first}", first=first, last=last),
            )
        for number in (first, last):
            if prefix not in self._names.numbered.get(str(number), {}):
                raise _no_bed(number)
        between = [
            number
            for number in map(int, self._names.numbered)
            if first <= number <= last and prefix in self._names.numbered[str(number)]
        ]
        ids = [self._names.numbered[str(number)][prefix] for number in sorted(between)]
        return tuple(key for each in ids for key in self._only(each))

    def _only(self, ids: tuple[str, ...]) -> tuple[str, ...]:
        if len(ids) > 1:
            name = self._plan.garden.beds_by_id[ids[0]].name
            raise RecordLineError(
                say("several beds are called {bed}", bed=name),
                fix=say("Select the one that is meant on the plan, and leave its name out"),
            )
        return ids


def either(names: Sequence[str]) -> str:
    """Names of which one is meant; of many the first.

    Examples
    --------
    >>> either(["West 1", "West 2", "West 3"])
    'West 1, West 2 or West 3'
    """
    some = list(dict.fromkeys(names))
    if len(some) > MOST_NAMED:
        some = [*some[:MOST_NAMED], say("another")]
    if len(some) < 2:
        return "".join(some)
    head = some[0]
    for name in some[1:-1]:
        head = say("{names}, {name}", names=head, name=name)
    return say("{names} or {last}", names=head, last=some[-1])


def _no_bed(number: int) -> RecordLineError:
    return RecordLineError(
        say("there is no bed {number}", number=number), fix=say("Look at the names on the plan")
    )


def _wholes(item: Item) -> list[int]:
    """The whole numbers of a typed number: of ``5,6`` two; none of any other number."""
    typed = item.value[1]
    parts = typed.split(",") if "," in typed else [typed]
    return [int(part) for part in parts] if all(part.isdecimal() for part in parts) else []


def _once(ids: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(ids))
