"""Everything the window says comes from the catalogue of sentences, and has room in German."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QAbstractItemModel, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QTabWidget,
    QWidget,
)
from words.extract import FUNCTIONS, TOP
from words.pseudo import pseudo_language, untranslated

from planner.crops import load_catalogue
from planner.garden import Garden
from planner.plan.lore import rules
from planner.storage.files import load

SAMPLE = TOP / "sample_gardens" / "hollow_lane.bedwright"
WINDOW = TOP / "planner" / "desk"
#: Texts that look like sentences and are none a user reads, by file.
_NO_SENTENCES = {
    "app.py": {"Bedwright", "Fusion"},
    "main_window/window.py": {"Bedwright"},
    "main_window/prompts.py": {"Bedwright"},
    "canvas/guarded.py": {"Owner", "Recovering"},
    "theme/palette.py": {"IBM Plex Sans"},
    "model/layout_process.py": {"from planner.desk.model.layout_process import serve; serve()"},
}
#: Parts of mark-up, of a sheet of styles, and keys of garden files: of lower case, with spaces, in a table or a comparison.
_MARKUP = re.compile(r"[<>{};]|\bpx\b")
_SENTENCE = re.compile(r"[A-Za-z]{2,} [A-Za-z]{2,}|&?[A-Z][a-z&]{2,}…?")
