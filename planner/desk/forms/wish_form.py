"""A wish as a form: how much it matters, when and where it is wanted, and how it is planted."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any, get_args

from PySide6.QtWidgets import QPushButton

from planner.desk.forms import fields
from planner.desk.forms.fields import ChoiceField, TypedField
from planner.desk.forms.form import Form
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import Garden, Planting, edits
from planner.garden.named_beds import beds_called
from planner.garden.planting import Start
from planner.garden.units import month_first
from planner.garden.wishes import Wish
from planner.importing.stock_cells import crop_of_cell
from planner.listings.phrases import START_SENTENCES
from planner.listings.wish_words import GROUND_WORDS, IMPORTANCE_WORDS
from planner.proposal.wishes import published_words
from planner.words import capital, later, say, say_count
from planner.words.typed_days import date_as_typed

#: Most plantings that a wish can be said to be like.
_MOST_ALIKE = 40
#: What a list of names is parted by.
_BETWEEN = later("Part names by commas")


class WishForm(Form):
    """The wish that is chosen in the table above.

    Attributes
    ----------
    more : QPushButton
        Shows what is seldom needed.
    """

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.setAccessibleName(say("The wish that is chosen"))
        self._more: list[Any] = []
        self.section("")
        self.published = WrappedButton(say("As published for a person and year"))
        self.published.setAutoDefault(False)
        self.published.clicked.connect(self._take_published)
        self.widget(self.published)
        self.importance = ChoiceField(
            say("How much it matters"), [(one, say(IMPORTANCE_WORDS[one])) for one in IMPORTANCE_WORDS]
        )
        self.row(say("How much it matters"), self.importance)
        self.earliest = self._day(say("First harvest not before"))
        self.latest = self._day(say("First harvest by"))
        self.row(say("First harvest from, by"), self.earliest, self.latest)
        self.until = self._day(say("They eat of it until"))
        self._until_label = self.row(say("They eat of it until"), self.until)
        self.beds = self._names(say("Only in these beds"), self._read_beds, self._bed_names)
        self.selected = QPushButton(say("Those selected on the plan"))
        self.selected.setAutoDefault(False)
        self.row(say("Only in these beds"), self.beds, self.selected)
        self.more = QPushButton(say("More"))
        self.more.setCheckable(True)
        self.more.setAutoDefault(False)
        self.more.toggled.connect(self._show_more)
        self.widget(self.more)
        self._make_more()
        self._connect()
        self.finish()
        self._show_more(False)

    def _make_more(self) -> None:
        self._seldom(self.section(say("Where")))
        self.parts = ChoiceField(
            say("Over how many beds it may be divided"),
            [
                (1, say("stays in one bed")),
                *((n, say_count("{count} bed at most", "{count} beds at most", n)) for n in (2, 3)),
            ],
        )
        self._seldom_row(say("Divided over"), self.parts)
        self.in_part = ChoiceField(
            say("Where there is no room for all of it"),
            [(True, say("less of it will do")), (False, say("all of it or nothing"))],
        )
        self._seldom_row(say("Without room for all"), self.in_part)
        self.ground = ChoiceField(
            say("Kind of ground"),
            [(None, say("whatever suits it")), *((one, say(GROUND_WORDS[one])) for one in GROUND_WORDS)],
        )
        self._seldom_row(say("Kind of ground"), self.ground)
        self.beside = self._names(say("Rather beside these crops"), self._read_crops, self._crop_names)
        self._seldom_row(say("Rather beside"), self.beside)
        self.apart = self._names(say("Never in a bed with these crops"), self._read_crops, self._crop_names)
        self._seldom_row(say("Never beside"), self.apart)
        self.back_after = fields.number_field(
            say("Years after which its family may come back"), may_be_empty=True
        )
        self._seldom_row(say("Family back after years"), self.back_after)
        self._seldom(self.section(say("How it is planted")))
        self.start = ChoiceField(
            say("How it starts"),
            [
                (None, say("the usual way")),
                *((one, say(START_SENTENCES[one])) for one in get_args(Start) if one != "standing"),
            ],
        )
        self._seldom_row(say("Start"), self.start)
        self.like = ChoiceField(say("Planted like"), [(None, say("as usual"))])
        self._seldom_row(say("Planted like"), self.like)

    def _seldom(self, *widgets: Any) -> None:
        self._more += widgets

    def _seldom_row(self, words: str, field: Any) -> None:
        self._seldom(self.row(words, field), field)

    def _show_more(self, on: bool) -> None:
        for widget in self._more:
            widget.setVisible(on)
        self.more.setText(say("Less about this wish") if on else say("More about this wish"))

    def _connect(self) -> None:
        for name in ("importance", "parts", "in_part", "ground", "start", "like"):
            getattr(self, name).chosen.connect(self._changes(name))
        for name in ("earliest", "latest", "until", "beds", "beside", "apart", "back_after"):
            getattr(self, name).typed.connect(self._changes(name))
        self.selected.clicked.connect(lambda: self._change("beds", tuple(self.document.selected_beds)))
        self.document.selection_changed.connect(self._follow_selection)

    def _changes(self, name: str) -> Callable[[object], None]:
        return lambda value: self._change(name, value)

    # -- fields -----------------------------------------------------------------------------

    def _day(self, name: str) -> TypedField:
        """A day; one typed without a year is the first such day from the start of the wish's year on."""

        def read(text: str) -> dt.date:
            wish = self.wish
            first = self.document.plan.span.first
            if wish is not None:
                first = first.replace(year=wish.year)
            return date_as_typed(text, first, month_first=month_first(self.units))

        return fields.date_field(name, read)

    def _names(
        self, name: str, read: Callable[[str], tuple[str, ...]], show: Callable[[Any], str]
    ) -> TypedField:
        field = TypedField(name, read, show, may_be_empty=True)
        field.setToolTip(say(_BETWEEN))
        return field

    def _read_beds(self, text: str) -> tuple[str, ...]:
        found: list[str] = []
        for name in _parted(text):
            beds = beds_called(self.document.garden.beds, name)
            if not beds:
                raise BedwrightError(
                    say("there is no bed '{name}'", name=name), fix=say("Write names as on the plan")
                )
            found += [bed.id for bed in beds]
        return tuple(dict.fromkeys(found))

    def _bed_names(self, keys: tuple[str, ...]) -> str:
        beds = self.document.garden.beds_by_id
        return ", ".join(beds[key].name for key in keys if key in beds)

    def _read_crops(self, text: str) -> tuple[str, ...]:
        catalogue = self.document.catalogue
        return tuple(dict.fromkeys(crop_of_cell(name, catalogue, []) for name in _parted(text)))

    def _crop_names(self, keys: tuple[str, ...]) -> str:
        return ", ".join(self.document.catalogue.name_of(key) for key in keys)

    # -- showing and changing ---------------------------------------------------------------

    @property
    def wish(self) -> Wish | None:
        """The wish that is shown."""
        return next((one for one in self.document.garden.wishes if one.id == self.key), None)

    def refresh(self) -> None:
        """Show the wish as it is now."""
        wish = self.wish
        self.setEnabled(wish is not None)
        if wish is None:
            self.heading.setText("")
            self.under.setText("")
            return
        self.heading.setText(capital(self.document.catalogue.name_of(wish.crop)))
        self.under.setText(wish.variety)
        self.under.setVisible(bool(wish.variety))
        self._show_published(wish)
        self.importance.show_value(wish.importance)
        self.earliest.show_value(wish.earliest, say("from any day"))
        self.latest.show_value(wish.latest, say("by any day"))
        self.until.show_value(wish.until, say("all year"))
        for widget in (self.until, self._until_label):
            widget.setVisible(wish.unit == "people")
        self.beds.show_value(wish.beds or None, say("any bed that suits it"))
        self.parts.show_value(wish.parts)
        self.in_part.show_value(wish.in_part)
        self.ground.show_value(wish.ground)
        self.beside.show_value(wish.beside or None, say("none"))
        self.apart.show_value(wish.apart or None, say("none"))
        self.back_after.show_value(wish.back_after, say("as its crop needs"))
        self.start.show_value(wish.start)
        self._offer_alike(wish)
        self._follow_selection()

    def _show_published(self, wish: Wish) -> None:
        """Offer the published amount where none is given, or only a number of people without a reason."""
        words = published_words(self.document.garden, self.document.catalogue, wish.crop)
        self.published.setVisible(wish.amount is None and bool(words))
        self.published.set_words(say("Take {amount}", amount=words))

    def _take_published(self) -> None:
        wish, persons = self.wish, self.document.garden.household.persons
        if wish is not None and persons:
            words = published_words(self.document.garden, self.document.catalogue, wish.crop)
            self._change_all(unit="people", amount=float(persons), reason=words)

    def _follow_selection(self) -> None:
        self.selected.setEnabled(self.wish is not None and bool(self.document.selected_beds))

    def _offer_alike(self, wish: Wish) -> None:
        garden = self.document.garden
        alike = [one for one in garden.plantings if one.crop == wish.crop and one.wish != wish.id]
        alike.sort(key=lambda one: (-one.year, one.id))
        offered = [(one.id, self._planting_words(garden, one)) for one in alike[:_MOST_ALIKE]]
        choices = [(None, say("as usual")), *offered]
        if self.like.values != tuple(key for key, _ in choices):
            self.like.offer(choices)
        self.like.show_value(wish.like if wish.like in dict(offered) else None)

    @staticmethod
    def _planting_words(garden: Garden, one: Planting) -> str:
        bed = garden.beds_by_id[one.bed].name
        if one.variety:
            return say("{variety} in {bed}, {year}", variety=one.variety, bed=bed, year=one.year)
        return say("that in {bed}, {year}", bed=bed, year=one.year)

    def _change(self, name: str, value: object) -> None:
        if name in ("beds", "beside", "apart"):
            value = value or ()
        self._change_all(**{name: value})

    def _change_all(self, **fields: Any) -> None:
        self.edit(
            say("Change a wish"),
            lambda garden, key, **new: edits.put_wish(garden, key, **new)[0],
            **fields,
        )


def _parted(text: str) -> list[str]:
    return [name.strip() for name in text.replace(";", ",").split(",") if name.strip()]
