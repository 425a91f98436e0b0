"""Years side by side: small maps of what stood where, and what its records tell."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QScrollArea, QVBoxLayout, QWidget

from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import LEAST_TABLE, wrapped_label
from planner.desk.pages.map_painting import MappedPlot
from planner.desk.pages.opening_table import OpeningTable, Row
from planner.desk.pages.year_maps import YearMap, YearMaps
from planner.desk.theme.palette import LookSwitch
from planner.garden.harm_words import HARM_WORDS
from planner.garden.records import Amount
from planner.ground.shapes import plan_polygon
from planner.listings.learned import crop_name
from planner.listings.record_words import amount_words
from planner.listings.weights import weight_words
from planner.listings.years import ended_words, place_words
from planner.plan import Plan
from planner.plan.history import Stood, years_side_by_side
from planner.words import capital, day_words, join_list, say, say_count

#: Columns that are set to the right.
_NUMBERS = (4,)


def year_heads() -> tuple[str, ...]:
    """Headings of the table."""
    return (
        say("Year, planting"), say("Bed"), say("On its plot"), say("Picked from and until"), say("Picked"), say("Seed"), say("Ended"),
        say("Harm"),
    )  # fmt: skip


class YearsPage(QWidget):
    """What stood where in all growing years.

    Signals
    -------
    planting_wanted : str
        Id of a planting to show on the sheet.
    """

    planting_wanted = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Years side by side"))
        self._crop = ""
        self._place: tuple[float, float] | None = None
        self.choice = ChoiceField(say("Crop"), (("", say("All crops")),))
        self.choice.chosen.connect(self._choose)
        self.whole = QPushButton(say("The whole garden again"))
        self.whole.clicked.connect(lambda: self._pick(None))
        self.words = wrapped_label()
        self.maps = YearMaps(look)
        self.maps.place_picked.connect(lambda x, y: self._pick((x, y)))
        self.strip = QScrollArea()
        self.strip.setWidget(self.maps)
        self.strip.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.strip.setAccessibleName(say("Maps of the years"))
        self.table = OpeningTable(year_heads(), say("Plantings by year"), _NUMBERS)
        self.table.setMinimumHeight(LEAST_TABLE)
        self.table.shown.connect(self.planting_wanted)
        head = FlowLayout()
        head.addWidget(self.choice)
        head.addWidget(self.whole)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.words)
        column.addWidget(self.strip)
        column.addWidget(self.table, 1000)
        column.addStretch(1)
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)

    def _choose(self, key: object) -> None:
        self._crop = str(key)
        self.refresh()

    def _pick(self, place: tuple[float, float] | None) -> None:
        self._place = place
        self.refresh()

    def refresh(self) -> None:
        """Show the years as they are now."""
        plan = self.document.plan
        crops = sorted({one.crop for one in plan.garden.plantings}, key=lambda key: crop_name(plan, key))
        offered: list[tuple[object, str]] = [("", say("All crops"))]
        offered += [(key, capital(crop_name(plan, key))) for key in crops]
        if [words for _, words in offered] != [self.choice.itemText(n) for n in range(self.choice.count())]:
            self.choice.offer(offered)
        self._crop = self._crop if self._crop in crops else ""
        self.choice.show_value(self._crop)
        shown = years_side_by_side(plan, self._crop)
        self.maps.show_maps(year_maps(plan, shown), self._place)
        self.strip.setFixedHeight(
            self.maps.sizeHint().height() + self.strip.horizontalScrollBar().sizeHint().height() + 4
        )
        self.strip.setVisible(bool(shown))
        there = years_side_by_side(plan, self._crop, at=self._place) if self._place is not None else shown
        self.table.show_rows(year_table(plan, there))
        self.table.setVisible(bool(there))
        self.whole.setEnabled(self._place is not None)
        self.words.setText(self._sentence(plan, shown, there))

    def _sentence(self, plan: Plan, shown: tuple[Stood, ...], there: tuple[Stood, ...]) -> str:
        if not shown:
            return say("Nothing stood there in any year.")
        if self._place is None:
            return say("Click a place on a map to see what stood there in all years.")
        place = capital(place_words(plan, self._place))
        if not there:
            return say("{place}: nothing stood there in any year.", place=place)
        return say_count("{place}: {count} planting.", "{place}: {count} plantings.", len(there), place=place)


def year_maps(plan: Plan, shown: tuple[Stood, ...]) -> list[YearMap]:
    """The map of each growing year in which something stood, the latest first.

    Parameters
    ----------
    plan : Plan
    shown : tuple of Stood
    """
    found = []
    for year in sorted({one.year for one in shown}, reverse=True):
        plots = []
        for one in sorted((each for each in shown if each.year == year), key=lambda each: each.span.first):
            crop = plan.catalogue.get(one.planting.crop)
            words = [crop_name(plan, one.planting.crop), one.planting.variety]
            name = say("{crop} {variety}", crop=words[0], variety=words[1]) if words[1] else words[0]
            family = crop.family if crop is not None else ""
            plots.append(MappedPlot(plan.plot_on_plan(one.planting), family, name))
        beds = tuple(plan_polygon(bed.outline) for bed in plan.garden.beds if bed.in_use(year))
        found.append(YearMap(year, beds, tuple(plots)))
    return found


def year_table(plan: Plan, found: tuple[Stood, ...]) -> list[Row]:
    """Lines of the table: a growing year, and in it its plantings; the latest first.

    Parameters
    ----------
    plan : Plan
    found : tuple of Stood
    """
    units, rows = plan.garden.site.units, []
    for year in sorted({one.year for one in found}, reverse=True):
        of_year = [one for one in found if one.year == year]
        grams, lost = sum(one.grams for one in of_year), sum(one.lost for one in of_year)
        told = say_count("{count} planting", "{count} plantings", len(of_year))
        ended = say_count("{count} lost", "{count} lost", lost) if lost else ""
        picked = weight_words(grams, units) if grams else ""
        parts = tuple(_part(plan, one) for one in of_year)
        rows.append(Row((str(year), told, "", "", picked, "", ended, ""), str(year), parts=parts))
    return rows


def _part(plan: Plan, one: Stood) -> Row:
    units, year = plan.garden.site.units, one.span.first.year
    name = capital(crop_name(plan, one.planting.crop))
    if one.planting.variety:
        name = say("{crop} {variety}", crop=name, variety=one.planting.variety)

    def amounts(found: tuple[tuple[float, str], ...]) -> list[str]:
        return [amount_words(Amount.model_validate({"value": v, "unit": u}), units) for v, u in found]

    picked = [weight_words(one.grams, units)] if one.grams else []
    picked += amounts(one.other_amounts)
    days = [day_words(day, year) for day in (one.first, one.last) if day is not None]
    cells = (
        name,
        one.bed.name,
        say("{first} to {last}", first=day_words(one.span.first, year), last=day_words(one.span.last, year)),
        say("{first} to {last}", first=days[0], last=days[1]) if len(days) == 2 else "".join(days),
        join_list(picked) if picked else "",
        join_list(amounts(one.seed)) if one.seed else "",
        ended_words(one, year),
        join_list([say(HARM_WORDS[harm]) for harm in one.harms]) if one.harms else "",
    )
    return Row(cells, f"{one.year} {one.planting.id}", one.planting.id)
