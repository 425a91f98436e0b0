"""The style sheet of the widgets, from the look's colours."""

from __future__ import annotations

from planner.desk.theme.palette import Look
from planner.resources import resource


def style_sheet(look: Look) -> str:
    """Qt style sheet for a look."""
    n = {
        name: getattr(look, name).name()
        for name in (
            "panel",
            "panel_ink",
            "field",
            "pencil",
            "accent",
            "on_accent",
            "warn",
            "grid_major",
            "sheet",
            "edge",
        )
    }
    tick, down = (
        resource("icons", f"{name}_{'dark' if look.dark else 'light'}.svg").as_posix()
        for name in ("tick", "down")
    )
    return f"""
    QMainWindow, QDialog {{ background: {n["panel"]}; }}
    QToolBar {{ background: {n["panel"]}; border: 0; border-bottom: 1px solid {n["edge"]}; padding: 3px 6px; spacing: 2px; }}
    QToolButton {{ border: 1px solid transparent; border-radius: 4px; padding: 4px; }}
    QToolButton:hover {{ border-color: {n["edge"]}; background: {n["field"]}; }}
    QToolButton:checked {{ border-color: {n["accent"]}; background: {n["field"]}; }}
    QToolButton:focus {{ border-color: {n["accent"]}; }}
    QToolButton::menu-indicator {{ image: none; }}
    QMenuBar {{ background: {n["panel"]}; color: {n["panel_ink"]}; }}
    QStatusBar {{ background: {n["panel"]}; border-top: 1px solid {n["edge"]}; }}
    QStatusBar::item {{ border: 0; }}
    QDockWidget {{ titlebar-close-icon: none; }}
    QDockWidget::title {{ background: {n["panel"]}; padding: 5px 8px; border-bottom: 1px solid {n["edge"]}; }}
    QScrollArea, QStackedWidget {{ background: {n["panel"]}; }}
    QAbstractItemView {{ selection-background-color: {n["accent"]}; selection-color: {n["on_accent"]}; }}
    QListView, QTreeView, QTableView {{ background: {n["field"]}; border: 1px solid {n["edge"]}; }}
    QLineEdit, QComboBox, QPlainTextEdit {{
        background: {n["field"]}; color: {n["panel_ink"]}; border: 1px solid {n["edge"]};
        border-radius: 3px; padding: 2px 5px; selection-background-color: {n["accent"]};
        selection-color: {n["on_accent"]}; min-height: 18px; }}
    QComboBox::drop-down {{ border: 0; width: 20px; }}
    QComboBox::down-arrow {{ image: url("{down}"); width: 11px; height: 11px; }}
    QLineEdit {{ placeholder-text-color: {n["pencil"]}; }}
    QLineEdit:focus, QComboBox:focus, QPlainTextEdit:focus,
    QListView:focus, QTreeView:focus, QTableView:focus {{ border-color: {n["accent"]}; }}
    QLineEdit[wrong="true"] {{ border: 2px solid {n["warn"]}; }}
    QLabel[warn="true"] {{ color: {n["warn"]}; }}
    QLabel[second="true"] {{ color: {n["pencil"]}; }}
    QAbstractScrollArea::corner {{ background: {n["panel"]}; border: 0; }}
    QTabWidget::pane {{ border: 0; }}
    QTabBar::tab {{ background: {n["panel"]}; color: {n["panel_ink"]}; border: 1px solid {n["edge"]}; border-bottom: 0;
        padding: 5px 10px; }}
    QTabBar::tab:selected {{ background: {n["field"]}; border-top: 2px solid {n["accent"]}; padding-top: 4px; }}
    QTabBar::tab:hover:!selected {{ background: {n["field"]}; }}
    QTreeView::indicator, QTableView::indicator, QCheckBox::indicator {{
        width: 11px; height: 11px; border: 1px solid {n["pencil"]}; border-radius: 2px; background: {n["field"]}; }}
    QTreeView::indicator:checked, QCheckBox::indicator:checked {{
        background: {n["accent"]}; border: 1px solid {n["panel_ink"]}; image: url("{tick}"); }}
    QTreeView::indicator:indeterminate {{ background: qlineargradient(x1: 0, y1: 1, x2: 0, y2: 0, stop: 0 {n["accent"]},
        stop: 0.5 {n["accent"]}, stop: 0.51 {n["field"]}, stop: 1 {n["field"]}); border: 1px solid {n["panel_ink"]}; }}
    QTableView::indicator:checked {{
        background: {n["panel_ink"]}; border: 1px solid {n["panel_ink"]}; image: url("{tick}"); }}
    QCheckBox::indicator:focus {{ border-color: {n["accent"]}; }}
    QRadioButton::indicator {{ width: 11px; height: 11px; border: 1px solid {n["pencil"]}; border-radius: 6px; background: {n["field"]}; }}
    QRadioButton::indicator:checked {{ background: qradialgradient(cx: 0.5, cy: 0.5, radius: 0.5, fx: 0.5, fy: 0.5,
        stop: 0 {n["accent"]}, stop: 0.55 {n["accent"]}, stop: 0.6 {n["field"]}, stop: 1 {n["field"]}); }}
    QRadioButton::indicator:focus {{ border-color: {n["accent"]}; }}
    QScrollBar {{ background: transparent; border: 0; margin: 0; }}
    QScrollBar:vertical {{ width: 11px; }}
    QScrollBar:horizontal {{ height: 11px; }}
    QScrollBar::handle {{ background: {n["edge"]}; border-radius: 4px; margin: 2px; }}
    QScrollBar::handle:hover {{ background: {n["pencil"]}; }}
    QScrollBar::handle:vertical {{ min-height: 28px; }}
    QScrollBar::handle:horizontal {{ min-width: 28px; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
    QFocusFrame {{ border: 3px solid {n["accent"]}; border-radius: 3px; }}
    QFrame#card {{ background: {n["panel"]}; border: 1px solid {n["edge"]}; border-radius: 6px; }}
    QMainWindow::separator {{ background: {n["edge"]}; width: 1px; height: 1px; }}
    QMainWindow::separator:hover {{ background: {n["accent"]}; }}
    """ + (_strong(look) if look.strong else "")


def _strong(look: Look) -> str:
    """Rules of the look of high contrast: everything that can be used has an edge, and the focus a broad one."""
    edge, accent, panel, ink = (
        colour.name() for colour in (look.edge, look.accent, look.panel, look.panel_ink)
    )
    return f"""
    QPushButton {{ background: {panel}; color: {ink}; border: 1px solid {edge}; border-radius: 3px; padding: 4px 12px; }}
    QPushButton:disabled {{ border-style: dashed; }}
    QPushButton:hover, QPushButton:pressed, QPushButton:checked {{ border: 2px solid {accent}; padding: 3px 11px; }}
    QPushButton:focus {{ border: 2px solid {accent}; padding: 3px 11px; }}
    QToolButton:focus, QToolButton:checked {{ border: 2px solid {accent}; padding: 3px; }}
    QLineEdit:focus, QComboBox:focus, QPlainTextEdit:focus {{ border: 2px solid {accent}; padding: 1px 4px; }}
    QFocusFrame {{ border: 4px solid {accent}; }}
    QMenu {{ background: {panel}; color: {ink}; border: 1px solid {edge}; }}
    QMenu::item:selected {{ background: {accent}; color: {look.on_accent.name()}; }}
    QMenu::separator {{ background: {edge}; height: 1px; margin: 4px 8px; }}
    QTabBar::tab {{ background: {panel}; color: {ink}; border: 1px solid {edge}; border-bottom: 0; padding: 5px 10px; }}
    QTabBar::tab:selected {{ border: 2px solid {accent}; border-bottom: 0; padding: 4px 9px; }}
    QHeaderView::section {{ background: {panel}; color: {ink}; border: 1px solid {edge}; padding: 3px 6px; }}
    QToolTip {{ background: {panel}; color: {ink}; border: 1px solid {edge}; }}
    """
