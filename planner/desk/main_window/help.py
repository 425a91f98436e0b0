"""The dialogs of the Help menu: keys and gestures, and what the program is."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QMessageBox, QTextBrowser, QVBoxLayout, QWidget

from planner import __version__
from planner.garden.gazetteer import CREDIT
from planner.words import say

KEYS = """
<h3>On the plan</h3>
<table cellpadding="3">
<tr><td><b>Wheel</b></td><td>zoom at the pointer; two fingers on a pad move the plan, a pinch zooms</td></tr>
<tr><td><b>Space + drag</b>, middle button</td><td>move the plan</td></tr>
<tr><td><b>Click</b></td><td>select a planting; on the rim, the name or free ground: the bed. <b>Alt + click</b>: the bed beneath</td></tr>
<tr><td><b>Shift / Ctrl + click</b></td><td>add to the selection, take from it</td></tr>
<tr><td><b>Drag</b></td><td>move; handles resize and turn. <b>Alt</b> holds the snapping off, <b>Escape</b> puts back</td></tr>
<tr><td><b>Drag</b> one of several</td><td>move all that is selected; where one may not land, none moves</td></tr>
<tr><td><b>Ctrl + D</b></td><td>copy what is selected beside it, a path away</td></tr>
<tr><td><b>Tab, Shift + Tab</b></td><td>go through beds and plantings</td></tr>
<tr><td><b>Arrows</b></td><td>move what is selected by a grid step; with <b>Shift</b> finely</td></tr>
<tr><td><b>Enter</b></td><td>to the details of what is selected</td></tr>
<tr><td><b>E</b></td><td>enter what happened to what is selected: type “sown yesterday”, “slugs, half of it”, <b>Enter</b></td></tr>
<tr><td><b>F</b></td><td>what could still go into the selected bed from the day shown on; <b>Plant it</b> plants the crop that is chosen</td></tr>
<tr><td><b>Ctrl + Shift + E</b></td><td>enter a walk: <b>Enter</b> in an empty line goes to the next bed, <b>Shift + Enter</b> back; a number ticks off work</td></tr>
<tr><td><b>Escape, Ctrl + 1</b></td><td>from anywhere back to the plan</td></tr>
</table>
<h3>Planting a crop</h3>
<table cellpadding="3">
<tr><td><b>Drag</b> from the list</td><td>the free ground under the pointer</td></tr>
<tr><td>with <b>Shift</b></td><td>a stretch, from the nearer end to the pointer</td></tr>
<tr><td>with <b>Ctrl</b></td><td>the whole bed</td></tr>
<tr><td>with <b>Alt</b></td><td>a single plant</td></tr>
<tr><td><b>Ctrl + F</b>, Enter</td><td>find a crop and take it; arrows choose the bed, <b>Tab</b> the piece of ground, <b>Enter</b> plants</td></tr>
</table>
<h3>Drawing</h3>
<table cellpadding="3">
<tr><td><b>R, P, O</b></td><td>rectangular, polygon, round bed</td></tr>
<tr><td><b>Ctrl + B</b></td><td>beds by typing their size, or a whole range of them</td></tr>
<tr><td><b>M</b></td><td>measure</td></tr>
<tr><td><b>W</b></td><td>the walk along the beds: drag a bed's number onto another bed, or a line of the list; <b>Alt + up, down</b> moves it</td></tr>
<tr><td><b>V</b>, Escape</td><td>back to selecting</td></tr>
</table>
"""


def show_keys(parent: QWidget) -> None:
    """Show the list of keys and gestures, beside the window."""
    dialog = QDialog(parent)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.setWindowTitle(say("Keys and gestures"))
    text = QTextBrowser()
    text.setHtml(KEYS)
    text.setAccessibleName(say("Keys and gestures"))
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
    buttons.rejected.connect(dialog.close)
    layout = QVBoxLayout(dialog)
    layout.addWidget(text)
    layout.addWidget(buttons)
    dialog.resize(620, 560)
    dialog.show()


def show_about(parent: QWidget) -> None:
    """Show what the program is."""
    box = QMessageBox(parent)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.setWindowTitle(say("About Bedwright"))
    box.setText(f"<b>Bedwright {__version__}</b>")
    box.setInformativeText(
        "Plan what grows in which bed, how much of it, and when.\n\n"
        "Letters: IBM Plex Sans (SIL Open Font License 1.1).\n" + say(CREDIT)
    )
    box.open()
