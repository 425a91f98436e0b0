"""Colours and fonts of the window, in a light and a dark look, and in one of high contrast."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from planner import resources

#: No text in the window is smaller. [pt]
LEAST_POINTS = 9.0
#: What Qt moves or fades by itself where the system lets it.
MOVING = (
    Qt.UIEffect.UI_AnimateMenu,
    Qt.UIEffect.UI_FadeMenu,
    Qt.UIEffect.UI_AnimateCombo,
    Qt.UIEffect.UI_AnimateTooltip,
    Qt.UIEffect.UI_FadeTooltip,
    Qt.UIEffect.UI_AnimateToolBox,
)
#: Looks that can be chosen.
WISHES = ("system", "light", "dark", "contrast")


@dataclass(frozen=True)
class Look:
    """Colours by what they are for."""

    dark: bool
    sheet: QColor  # the paper
    grid: QColor
    grid_major: QColor
    ink: QColor  # outlines and names
    pencil: QColor  # dimensions and second words
    soil: QColor  # ground of a bed
    soil_inside: QColor  # ground of a bed under glass
    built: QColor  # structures
    glass: QColor
    accent: QColor  # what is selected or about to happen
    on_accent: QColor  # words on it
    warn: QColor
    chip: QColor  # ground behind a label
    panel: QColor
    panel_ink: QColor
    field: QColor
    edge: QColor  # around fields, buttons and lists
    strong: bool = False  # whether contrast comes before everything


LIGHT = Look(
    dark=False,
    sheet=QColor("#fbf8ef"),
    grid=QColor("#efebdd"),
    grid_major=QColor("#e2dcc8"),
    ink=QColor("#22211e"),
    pencil=QColor("#68645a"),
    soil=QColor("#efe5d4"),
    soil_inside=QColor("#e9e6dc"),
    built=QColor("#b9b2a1"),
    glass=QColor("#8aa9b5"),
    accent=QColor("#1463b8"),
    on_accent=QColor("#ffffff"),
    warn=QColor("#a33c00"),
    chip=QColor(251, 248, 239, 225),
    panel=QColor("#f3efe3"),
    panel_ink=QColor("#22211e"),
    field=QColor("#fffdf7"),
    edge=QColor("#e2dcc8"),
)

DARK = Look(
    dark=True,
    sheet=QColor("#1e1f1d"),
    grid=QColor("#282925"),
    grid_major=QColor("#34352f"),
    ink=QColor("#e9e4d6"),
    pencil=QColor("#a39d8c"),
    soil=QColor("#322d26"),
    soil_inside=QColor("#2f3130"),
    built=QColor("#6b665a"),
    glass=QColor("#53707c"),
    accent=QColor("#6fb1f5"),
    on_accent=QColor("#101010"),
    warn=QColor("#f0a060"),
    chip=QColor(30, 31, 29, 225),
    panel=QColor("#262723"),
    panel_ink=QColor("#e9e4d6"),
    field=QColor("#1a1b19"),
    edge=QColor("#34352f"),
)

#: High contrast: words at 7 to 1 (WCAG 2.2, 1.4.6), edges of what can be used at 3 to 1 (1.4.11), no soft grounds.
CONTRAST = Look(
    dark=True,
    strong=True,
    sheet=QColor("#000000"),
    grid=QColor("#242424"),
    grid_major=QColor("#3c3c3c"),
    ink=QColor("#ffffff"),
    pencil=QColor("#d8d8d8"),
    soil=QColor("#1c1710"),
    soil_inside=QColor("#14181a"),
    built=QColor("#303030"),
    glass=QColor("#7fb2c8"),
    accent=QColor("#ffd400"),
    on_accent=QColor("#000000"),
    warn=QColor("#ffa26b"),
    chip=QColor(0, 0, 0, 255),
    panel=QColor("#000000"),
    panel_ink=QColor("#ffffff"),
    field=QColor("#000000"),
    edge=QColor("#a8a8a8"),
)

#: Grounds on which words of each colour are written; all pairs have a contrast of 4.5 to 1 (WCAG 2.2, 1.4.3), in the
#: look of high contrast of 7 to 1 (1.4.6).
GROUNDS = {
    "ink": ("sheet", "grid", "grid_major", "panel", "field", "soil", "soil_inside", "chip", "built"),
    "panel_ink": ("panel", "field"),
    "pencil": ("sheet", "grid", "panel", "field", "soil", "soil_inside", "chip"),
    "accent": ("sheet", "panel", "field", "soil"),
    "warn": ("sheet", "panel", "field", "soil"),
    "on_accent": ("accent",),
}


class LookSwitch(QObject):
    """The look in force.

    Attributes
    ----------
    now : Look
    wish : str
        What was chosen: one of :data:`WISHES`.
    still : bool
        Whether nothing is to move by itself.

    Signals
    -------
    changed
    """

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.now = LIGHT
        self.wish = "system"
        self.still = False

    def rest(self, still: bool) -> None:
        """Let nothing move by itself, or let it: opening menus and lists, the blinking of the text cursor."""
        self.still = still
        for effect in MOVING:
            QApplication.setEffectEnabled(effect, not still)
        hints = QGuiApplication.styleHints()
        usual = _flash_time()  # asked before it is changed
        hints.setCursorFlashTime(0 if still else usual)

    def choose(self, wish: str) -> None:
        """Take the ``light`` or the ``dark`` look, that of high ``contrast``, or that of the ``system``."""
        self.wish = wish
        self.now = {"light": LIGHT, "dark": DARK, "contrast": CONTRAST}.get(wish) or _look_of_system()
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setPalette(palette(self.now))
        self.changed.emit()


@cache
def _flash_time() -> int:
    """How fast the system's text cursor blinks. [ms]"""
    return QGuiApplication.styleHints().cursorFlashTime()


def _look_of_system() -> Look:
    hints = QGuiApplication.styleHints()
    # Qt tells of a wish for contrast since 6.10.
    told = getattr(hints, "accessibility", None)
    if told is not None and told().contrastPreference() == Qt.ContrastPreference.HighContrast:
        return CONTRAST
    return DARK if hints.colorScheme() == Qt.ColorScheme.Dark else LIGHT


def palette(look: Look) -> QPalette:
    """A widget palette of the look's colours."""
    result = QPalette()
    roles = QPalette.ColorRole
    for role, colour in (
        (roles.Window, look.panel),
        (roles.WindowText, look.panel_ink),
        (roles.Base, look.field),
        (roles.AlternateBase, look.panel),
        (roles.Text, look.panel_ink),
        (roles.PlaceholderText, look.pencil),
        (roles.Button, look.panel),
        (roles.ButtonText, look.panel_ink),
        (roles.ToolTipBase, look.field),
        (roles.ToolTipText, look.panel_ink),
        (roles.Highlight, look.accent),
        (roles.HighlightedText, look.on_accent),
        (roles.Link, look.accent),
        (roles.LinkVisited, look.accent),
        (roles.BrightText, look.field),
        (roles.Mid, look.edge),
        (roles.Midlight, look.grid),
        (roles.Dark, look.pencil),
        (roles.Light, look.field),
        (roles.Accent, look.accent),
    ):
        result.setColor(role, colour)
    for role in (roles.WindowText, roles.Text, roles.ButtonText):
        result.setColor(QPalette.ColorGroup.Disabled, role, look.pencil)
    return result


def load_fonts() -> str:
    """Load the letters that ship with the program; returns the family's name."""
    family = "IBM Plex Sans"
    for path in sorted(resources.resource("fonts").glob("IBMPlexSans-*.ttf")):
        QFontDatabase.addApplicationFont(str(path))
    if family not in QFontDatabase.families():
        return QFont().defaultFamily()
    return family


def letters(points: float = LEAST_POINTS, *, bold: bool = False, italic: bool = False) -> QFont:
    """The application's letters at a size."""
    font = QFont(QApplication.font())
    font.setPointSizeF(max(points, LEAST_POINTS))
    font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    font.setItalic(italic)
    return font
