"""Which layout is shown, where several unlike ones were found."""

from __future__ import annotations

from planner.desk.forms.fields import ChoiceField
from planner.desk.model.layout_search import LayoutSearch
from planner.listings.found_layout import FoundLayout
from planner.words import say, say_count


class LayoutChoice(ChoiceField):
    """Chooses among the layouts that a search has found; hidden where there is one only."""

    def __init__(self, search: LayoutSearch) -> None:
        super().__init__(say("Which layout is shown"), ())
        self._search = search
        self.chosen.connect(lambda number: search.show_layout(int(str(number))))
        self.hide()

    def refresh(self) -> None:
        """Offer the layouts, each with how many wishes are elsewhere than in the first."""
        layouts = self._search.layouts
        self.setVisible(bool(layouts))
        if not layouts:
            return
        first = say("The layout found first: {count} met", count=len(_beds(layouts[0])))
        offered: list[tuple[object, str]] = [(0, first)]
        for number, layout in enumerate(layouts[1:], 1):
            words = say_count(
                "{count} wish elsewhere", "{count} wishes elsewhere", _moved(layouts[0], layout)
            )
            met = say("{count} met", count=len(_beds(layout)))
            offered.append(
                (
                    number,
                    say("Layout {number}: {met}, {difference}", number=number + 1, met=met, difference=words),
                )
            )
        if [words for _, words in offered] != [self.itemText(n) for n in range(self.count())]:
            self.offer(offered)
        self.show_value(self._search.shown_number)


def _moved(first: FoundLayout, other: FoundLayout) -> int:
    """How many wishes are in other beds, or met in one of two layouts only."""
    here, there = _beds(first), _beds(other)
    return sum(here.get(wish) != there.get(wish) for wish in {*here, *there})


def _beds(layout: FoundLayout) -> dict[str, set[str]]:
    """Beds of each wish that is met."""
    found: dict[str, set[str]] = {}
    for row in layout.rows:
        if row.planting is not None:
            found.setdefault(row.wish, set()).add(row.planting.bed)
    return found
