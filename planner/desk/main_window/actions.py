"""Actions of a window: entries of a table become menus, with their keys and icons."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QAction, QActionGroup, QCursor, QIcon, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QMenu, QWidget
from typing_extensions import override

from planner.desk.theme.icons import icon
from planner.desk.theme.palette import LookSwitch

#: A key that the system knows, or one written out.
Key = QKeySequence.StandardKey | str
#: Keys of an action.
Keys = Key | tuple[Key, ...] | None


def standard_bindings(key: QKeySequence.StandardKey) -> list[QKeySequence]:
    """What the system binds to a standard key; it differs from one system to another."""
    return QKeySequence.keyBindings(key)


@dataclass(frozen=True)
class Entry:
    """An action in a menu that does something when it is chosen.

    Attributes
    ----------
    name : str
        By which the action is found.
    text : str
        In the menu; the letter after ``&`` is its mnemonic.
    run : callable
        What it does.
    keys : optional
    icon : str
        Name of its icon (:mod:`planner.desk.theme.icons`); empty for none.
    group : str
        Name of the group of which one action is checked at a time; empty for an action without a check.
    checked : bool
        Whether it is the one that is checked at first.
    """

    name: str
    text: str
    run: Callable[[], object]
    keys: Keys = None
    icon: str = ""
    group: str = ""
    checked: bool = False


@dataclass(frozen=True)
class Switch:
    """An action in a menu that is on or off; the other fields are those of :class:`Entry`.

    Attributes
    ----------
    switch : callable
        Called with whether it is on, also once at first where it is on then.
    """

    name: str
    text: str
    switch: Callable[[bool], object]
    keys: Keys = None
    icon: str = ""
    on: bool = False


@dataclass(frozen=True)
class Made:
    """An action that another part of the window has made, with the keys and icon it gets."""

    name: str
    action: QAction
    keys: Keys = None
    icon: str = ""


@dataclass(frozen=True)
class Submenu:
    """A menu in a menu."""

    name: str
    text: str
    items: tuple[Item, ...] = ()
    icon: str = ""


@dataclass(frozen=True)
class Separator:
    """A line between actions."""


Item = Entry | Switch | Made | Submenu | Separator
LINE = Separator()


class _MenuKeys(QObject):
    """Keys while a menu is open: a letter chooses among its entries, and no tool that has it as its key; F1 asks for help.

    Signals
    -------
    help_wanted : QAction
        F1 was pressed at an entry, or at none of a menu; the menus are closed.
    """

    help_wanted = Signal(object)

    def begin(self) -> None:
        """A menu opens: look at the keys, which go by whatever has the focus."""
        app = QApplication.instance()
        if app is not None:
            app.installEventFilter(self)

    def end(self) -> None:
        """A menu closes, as soon as this is told; others may be open still."""
        QTimer.singleShot(0, self, self._stop_when_closed)

    def _stop_when_closed(self) -> None:
        app = QApplication.instance()
        if app is not None and not isinstance(QApplication.activePopupWidget(), QMenu):
            app.removeEventFilter(self)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() not in (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress):
            return False
        menu = QApplication.activePopupWidget()
        if not isinstance(event, QKeyEvent) or not isinstance(menu, QMenu):
            return False
        if event.type() == QEvent.Type.ShortcutOverride:
            if event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier == Qt.KeyboardModifier.NoModifier:
                event.accept()
                return True
        elif event.key() == Qt.Key.Key_F1:
            self._ask_for_help(menu)
            return True
        return False

    def _ask_for_help(self, menu: QMenu) -> None:
        # One that is not possible now is never the active one, but can be pointed at.
        pointed = menu.actionAt(menu.mapFromGlobal(QCursor.pos()))
        action = menu.activeAction() or pointed or menu.menuAction()
        while (popup := QApplication.activePopupWidget()) is not None:
            popup.close()
        self.help_wanted.emit(action)


class Actions:
    """The actions of a window by name, and the menus made of them.

    Parameters
    ----------
    owner : QWidget
        The window, in which the keys of the actions hold.
    look : LookSwitch
        Colours of the icons.

    Signals
    -------
    help_wanted : QAction
        F1 was pressed at an entry of an open menu.
    """

    def __init__(self, owner: QWidget, look: LookSwitch) -> None:
        self._owner, self._look = owner, look
        self._actions: dict[str, QAction] = {}
        self._menus: dict[str, QMenu] = {}
        self._groups: dict[str, QActionGroup] = {}
        self._menu_keys = _MenuKeys(owner)
        self.help_wanted = self._menu_keys.help_wanted
        # Who has each key, and whether it is written out.
        self._keys: dict[str, tuple[QAction, bool]] = {}

    def __getitem__(self, name: str) -> QAction:
        return self._actions[name]

    def get(self, name: str) -> QAction | None:
        """The action of a name; None where there is none."""
        return self._actions.get(name)

    @property
    def by_name(self) -> dict[str, QAction]:
        """All actions by their names."""
        return dict(self._actions)

    def menu(self, name: str) -> QMenu:
        """A submenu by its name."""
        return self._menus[name]

    def enable(self, names: Iterable[str], enabled: bool) -> None:
        """Make actions possible, or not."""
        for name in names:
            self._actions[name].setEnabled(enabled)

    def keep_letters_to(self, widget: QWidget) -> None:
        """Let keys that are a letter alone act only while a widget has the focus: elsewhere letters are typed."""
        for action in self._actions.values():
            keys = [key.toString(QKeySequence.SequenceFormat.PortableText) for key in action.shortcuts()]
            if any(len(key) == 1 and key.isalpha() for key in keys):
                action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
                widget.addAction(action)

    def watch_keys(self, menu: QMenu) -> None:
        """Let letters choose in a menu while it is open, and F1 tell of its entries."""
        menu.aboutToShow.connect(self._menu_keys.begin)
        menu.aboutToHide.connect(self._menu_keys.end)

    def fill(self, menu: QMenu, items: Iterable[Item]) -> None:
        """Add actions, submenus and lines to a menu."""
        self.watch_keys(menu)
        for item in items:
            if isinstance(item, Separator):
                menu.addSeparator()
            elif isinstance(item, Submenu):
                self._add_submenu(menu, item)
            else:
                menu.addAction(self._action(item))

    def _add_submenu(self, menu: QMenu, item: Submenu) -> None:
        made = menu.addMenu(item.text)
        made.menuAction().setObjectName(item.name)
        if item.icon:
            made.setIcon(icon(item.icon, self._look))
        self._menus[item.name] = made
        self.fill(made, item.items)

    def _action(self, item: Entry | Switch | Made) -> QAction:
        action = item.action if isinstance(item, Made) else QAction(item.text, self._owner)
        action.setObjectName(item.name)
        self._actions[item.name] = action
        self._set_keys(action, item.keys)
        if item.icon:
            action.setIcon(icon(item.icon, self._look))
        if isinstance(item, Entry):
            self._connect_entry(action, item)
        elif isinstance(item, Switch):
            action.setCheckable(True)
            action.toggled.connect(item.switch)
            action.setChecked(item.on)
        return action

    def _set_keys(self, action: QAction, keys: Keys) -> None:
        """Give an action its keys, each of which is one action's alone.

        A key written out goes before those that a system binds besides: X11 binds Ctrl+D to Delete.
        """
        mine: list[QKeySequence] = []
        for key in () if keys is None else keys if isinstance(keys, tuple) else (keys,):
            written = isinstance(key, str)
            for sequence in [QKeySequence(key)] if isinstance(key, str) else standard_bindings(key):
                if sequence not in mine and self._claim(sequence, action, written=written):
                    mine.append(sequence)
        action.setShortcuts(mine)

    def _claim(self, sequence: QKeySequence, action: QAction, *, written: bool) -> bool:
        """Take a key for an action; False where it is another's already."""
        name = sequence.toString(QKeySequence.SequenceFormat.PortableText)
        if name in self._keys:
            owner, owner_wrote = self._keys[name]
            if not written:
                return False
            if owner_wrote:
                raise ValueError(f"{name} is given to {owner.objectName()} and to {action.objectName()}")
            owner.setShortcuts([each for each in owner.shortcuts() if each != sequence])
        self._keys[name] = (action, written)
        return True

    def _connect_entry(self, action: QAction, entry: Entry) -> None:
        action.triggered.connect(lambda _checked=False: entry.run())
        if entry.group:
            action.setCheckable(True)
            self._group(entry.group).addAction(action)
            action.setChecked(entry.checked)

    def _group(self, name: str) -> QActionGroup:
        if name not in self._groups:
            self._groups[name] = QActionGroup(self._owner)
        return self._groups[name]

    def check_in_group(self, group: str, name: str) -> None:
        """Check the action of a name, or none of the group where the name is not in it."""
        actions, wanted = self._group(group), self._actions.get(name)
        if wanted is not None and wanted in actions.actions():
            wanted.setChecked(True)
        elif (checked := actions.checkedAction()) is not None:
            actions.setExclusionPolicy(QActionGroup.ExclusionPolicy.None_)
            checked.setChecked(False)
            actions.setExclusionPolicy(QActionGroup.ExclusionPolicy.Exclusive)

    def redraw_icons(self) -> None:
        """Draw all icons again, in the colours of another look."""
        for action in self._actions.values():
            if not action.icon().isNull():
                action.setIcon(QIcon(action.icon()))
