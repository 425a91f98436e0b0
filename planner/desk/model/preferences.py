"""What the person prefers, remembered from one session to the next: each with the value it has at first."""

from __future__ import annotations

from PySide6.QtCore import QLocale, QObject, QSettings, Signal

from planner.garden import Garden
from planner.garden.site import Site, UnitSystem
from planner.words.languages import LANGUAGES

#: Values that can be chosen of each preference, the first of them where nothing was chosen.
CHOICES: dict[str, tuple[str, ...]] = {
    "look": ("system", "light", "dark", "contrast"),
    "language": ("", *LANGUAGES),
    "units": ("system", "metric", "feet_inches"),
}
#: Preferences that are on or off, and what they are at first; each is a switch of the View menu as well.
SWITCHES: dict[str, bool] = {"grid": True, "snap": True, "zoom at pointer": True, "less motion": False}


class Preferences(QObject):
    """Reads and remembers preferences; a value that nobody could have chosen counts as none.

    Signals
    -------
    changed : str
        Name of the preference that has another value.
    """

    changed = Signal(str)

    def __init__(self, settings: QSettings, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._settings = settings

    def choice(self, name: str) -> str:
        """The value chosen of a preference in :data:`CHOICES`."""
        value, choices = str(self._settings.value(name, "")), CHOICES[name]
        return value if value in choices else choices[0]

    def is_on(self, name: str) -> bool:
        """Whether a preference in :data:`SWITCHES` is on."""
        value = str(self._settings.value(name, "")).casefold()  # a file of settings holds words
        return {"true": True, "false": False}.get(value, SWITCHES[name])

    def choose(self, name: str, value: str) -> None:
        """Remember a choice."""
        if value != self.choice(name):
            self._settings.setValue(name, value)
            self.changed.emit(name)

    def switch(self, name: str, on: bool) -> None:
        """Remember that a preference is on or off."""
        if on != self.is_on(name):
            self._settings.setValue(name, on)
            self.changed.emit(name)

    def reset(self) -> None:
        """Give every preference its first value."""
        for name in CHOICES:
            self.choose(name, CHOICES[name][0])
            self._settings.remove(name)
        for name, first in SWITCHES.items():
            self.switch(name, first)
            self._settings.remove(name)

    @property
    def units(self) -> UnitSystem:
        """The units in which a new garden is measured: those chosen, else the usual ones of the system's country."""
        chosen = self.choice("units")
        if chosen == "metric":
            return "metric"
        return "feet_inches" if chosen == "feet_inches" else usual_units()

    def new_garden(self) -> Garden:
        """An empty garden in the units chosen; metric where none were."""
        chosen = self.choice("units")
        return Garden() if chosen == "system" else Garden(site=Site(units=self.units))


def usual_units() -> UnitSystem:
    """The units in which who sits here measures, by the system's locale."""
    american = QLocale.MeasurementSystem.ImperialUSSystem
    return "feet_inches" if QLocale.system().measurementSystem() == american else "metric"
