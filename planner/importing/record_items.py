"""The items of a typed line while records are made of them: what has found its place is taken out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.importing.record_beds import either
from planner.importing.record_line import RecordLineError
from planner.importing.record_phrases import Item, Verb
from planner.words import later, say

#: Sorts of items that carry no meaning by themselves.
SILENT = ("filler", "in", "and", "of", "all", "to")
#: Sorts that say where or when.
PLACES = ("bed", "crop", "variety", "planting", "family", "garden", "day", "by", "name")
#: How a line is mended that has words of somebody's own.
BEHIND_COLON = later("Put words of your own behind a colon")
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
    """

    def __init__(
        self, items: list[Item], part: str, words: str, beginnings: Mapping[str, tuple[str, ...]]
    ) -> None:
        self.items, self.part, self.words = items, part, words
        self._beginnings = beginnings

    def typed(self, item: Item) -> str:
        """An item as it was typed."""
        return self.part[item.start : item.end]

    def of_sort(self, *sorts: str) -> list[Item]:
        """The items of some sorts."""
        return [item for item in self.items if item.sort in sorts]

    def drop(self, gone: Sequence[Item]) -> None:
        """Take items out: they have found their place."""
        self.items = [item for item in self.items if not any(item is one for one in gone)]

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
        word = str(unknown[0].value)
        beds = self._beginnings.get(word.casefold())
        if beds:
            raise RecordLineError(
                say("'{word}' may be {beds}", word=word, beds=either(beds)), fix=say("Type the whole name")
            )
        last = unknown[0]
        for item in unknown[1:]:
            if self.part[last.end : item.start].strip():
                break
            last = item
        words = self.part[unknown[0].start : last.end] or word
        raise RecordLineError(say("'{words}' is not understood", words=words), fix=say(BEHIND_COLON))

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
