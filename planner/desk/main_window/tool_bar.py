"""The bar of tools above the sheet, with the growing year at its end."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLabel, QSizePolicy, QToolBar, QToolButton, QWidget

from planner.desk.main_window.actions import Actions
from planner.desk.model.document import Document
from planner.desk.theme.choice_names import name_choice
from planner.season.spans import growing_year
from planner.words import say

#: Names of the actions in the bar, in groups; ``structures`` is a menu.
_GROUPS = (
    ("undo", "redo"),
    (
        "tool select",
        "tool rectangle",
        "tool polygon",
        "tool circle",
        "structures",
        "new beds",
        "tool measure",
    ),
    ("shadow", "light map"),
    ("grid", "snap", "show all"),
    ("bed sheets",),
)


class YearChoice(QComboBox):
    """Chooses the growing year: one with plantings, the present one or the next, the one shown or the one after it."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        name_choice(self, say("Growing year"))
        self.activated.connect(lambda _index: document.show_year(self.currentData()))
        document.garden_settled.connect(self.refresh)
        document.year_changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Offer the years of the garden, and show the document's."""
        now, garden = self._document.year, self._document.garden
        present = growing_year(garden.site, dt.date.today())
        years = sorted({*garden.years(), present, present + 1, now, now + 1})
        if [self.itemData(index) for index in range(self.count())] != years:
            self.clear()
            for year in years:
                self.addItem(str(year), year)
        self.setCurrentIndex(years.index(now))


def make_tool_bar(actions: Actions, document: Document) -> QToolBar:
    """Make the bar of tools.

    Parameters
    ----------
    actions : Actions
        Those of the menus; the bar shows some of them as icons.
    document : Document
    """
    bar = QToolBar(say("Tools"))
    bar.setObjectName("tools")
    bar.setMovable(False)
    bar.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonIconOnly)
    for number, names in enumerate(_GROUPS):
        if number:
            bar.addSeparator()
        for name in names:
            if name == "structures":
                bar.addWidget(_structure_button(actions))
            else:
                bar.addAction(actions[name])
    spacer = QWidget()
    spacer.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    bar.addWidget(spacer)
    label, years = QLabel(say("Growing year ")), YearChoice(document)
    label.setBuddy(years)
    bar.addWidget(label)
    bar.addWidget(years)
    return bar


def _structure_button(actions: Actions) -> QToolButton:
    menu = actions.menu("structures")
    button = QToolButton()
    button.setIcon(menu.icon())
    button.setToolTip(say("Draw a structure"))
    button.setAccessibleName(say("Draw a structure"))
    button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
    button.setMenu(menu)
    return button
