"""A long form shown short: what is asked of everything first, the rest on request or where it differs from what is usual."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from planner.desk.forms.fields import ChoiceField, NotesField, TypedField
from planner.desk.forms.form import Form, FormPart
from planner.words import say


def differs(field: QWidget) -> bool:
    """Whether a field shows something else than what is usual: a text, or another choice than the first."""
    if isinstance(field, TypedField):
        return bool(field.text()) or field.draft is not None
    if isinstance(field, ChoiceField):
        return field.currentIndex() != 0
    return isinstance(field, NotesField) and bool(field.toPlainText())


class ShortForm:
    """Hides the parts of a form that are not asked of everything, until ``more`` is pressed.

    A part is shown all the same where a field of it differs from what is usual, and stays as long as the form shows the same
    thing: no field goes while it is worked in.

    Parameters
    ----------
    form : Form
        With all its parts.
    always : collection of QWidget
        Fields and words that are shown even when the form is short.
    differing : mapping of QWidget to callable
        Whether a field differs, for fields of which :func:`differs` does not know it.
    beside : mapping of QWidget to QWidget
        Words and buttons, each with the field that it goes with.

    Attributes
    ----------
    more : QPushButton
        Stays pressed as it was chosen.
    """

    def __init__(
        self,
        form: Form,
        always: Collection[QWidget],
        differing: Mapping[QWidget, Callable[[], bool]],
        beside: Mapping[QWidget, QWidget],
    ) -> None:
        self._form = form
        self._always, self._differing, self._beside = set(always), differing, beside
        self._hidden: list[QWidget] = []
        self._key = ""
        self._kept: set[QWidget] = set()
        self._parts = tuple(form.form_parts)
        self.more = QPushButton(say("More"))
        self.more.setCheckable(True)
        explanation = say("Shows every field of the planting, or only those most asked for; stays as chosen.")
        self.more.setToolTip(explanation)
        self.more.setAccessibleDescription(explanation)
        self.more.toggled.connect(self._follow)
        form.widget(self.more)

    def _follow(self, more: bool) -> None:
        self.more.setText(say("Less") if more else say("More"))
        self._kept.clear()
        self._form.refresh()

    def show_all(self) -> None:
        """Show what was hidden: what the form itself hides afterwards stays hidden."""
        for widget in self._hidden:
            widget.setVisible(True)
        self._hidden.clear()

    def shorten(self) -> None:
        """Hide what the form shows only on request."""
        if self._form.key != self._key:
            self._key = self._form.key
            self._kept.clear()
        if not self.more.isChecked():
            self._kept |= {field for part in self._parts for field in part.fields if self._differs(field)}
            for part in self._parts:
                if not self._is_asked_of_all(part):
                    self._hide(part.shown)
        self._hide_empty_sections()

    def _differs(self, field: QWidget) -> bool:
        if field.isHidden():
            return False
        known = self._differing.get(field)
        return known() if known is not None else differs(field)

    def _is_asked_of_all(self, part: FormPart) -> bool:
        wanted = self._always | self._kept
        if any(widget in wanted or widget.hasFocus() for widget in part.shown):
            return True
        return any(self._beside.get(widget) in wanted for widget in part.shown)

    def _hide(self, widgets: Collection[QWidget]) -> None:
        for widget in widgets:
            if not widget.isHidden():
                widget.hide()
                self._hidden.append(widget)

    def _hide_empty_sections(self) -> None:
        sections: dict[QLabel, bool] = {}
        for part in self._parts:
            if part.section is not None:
                shown = any(not widget.isHidden() for widget in part.shown)
                sections[part.section] = sections.get(part.section, False) or shown
        self._hide([section for section, shown in sections.items() if not shown])
