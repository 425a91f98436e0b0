"""The menus of the window: what each entry is called, its keys, and the command it runs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import get_args

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

from planner.desk.main_window.actions import LINE, Actions, Entry, Item, Made, Submenu, Switch
from planner.desk.main_window.draw_commands import DrawCommands
from planner.desk.main_window.edit_commands import SIDES, EditCommands
from planner.desk.main_window.exports import Exports
from planner.desk.main_window.file_commands import FileCommands
from planner.desk.main_window.help_commands import HelpCommands
from planner.desk.main_window.navigation import Navigation
from planner.desk.main_window.row_commands import RowCommands
from planner.desk.main_window.season_commands import SeasonCommands
from planner.desk.main_window.start import Start
from planner.desk.main_window.view_commands import ViewCommands
from planner.desk.model import clipboard
from planner.desk.model.colouring import SCALES_OFFERED, TITLES
from planner.desk.model.document import Document
from planner.garden.beds import StructureKind
from planner.words import LANGUAGES, capital, key_words, later, say

_KEYS = QKeySequence.StandardKey
_SAMPLES = {
    "balcony_boxes": later("Balcony boxes"),
    "hollow_lane": later("Hollow lane"),
    "red_mesa": later("Red mesa"),
    "wattle_bank": later("Wattle bank"),
}
_ALIGN = {
    "left": later("By the left edges"),
    "right": later("By the right edges"),
    "top": later("By the top edges"),
    "bottom": later("By the bottom edges"),
}
STRUCTURES: tuple[StructureKind, ...] = get_args(StructureKind)


@dataclass(frozen=True)
class Commands:
    """What the menus run, by subject.

    Attributes
    ----------
    window : QWidget
        The window, for dialogs and for closing it.
    """

    window: QWidget
    file: FileCommands
    start: Start
    exports: Exports
    edit: EditCommands
    draw: DrawCommands
    view: ViewCommands
    navigation: Navigation
    season: SeasonCommands
    help: HelpCommands
    rows: RowCommands


#: Actions about the rows and the plants of one planting.
ROWS = (
    "more rows",
    "fewer rows",
    "wider in row",
    "nearer in row",
    "wider between",
    "nearer between",
    "turn rows",
    "split rows",
    "single plants",
    "next plant",
    "plant before",
)


def fill_menu_bar(
    bar: QMenuBar, actions: Actions, commands: Commands, undo: tuple[QAction, QAction], docks: Sequence[Item]
) -> None:
    """Fill the menu bar.

    Parameters
    ----------
    bar : QMenuBar
    actions : Actions
        Gets the actions made.
    commands : Commands
    undo : tuple of QAction
        Undo and redo.
    docks : sequence of Made
        Actions that show and hide the docks.
    """
    for name, title, items in (
        ("menu.file", say("&File"), _file(commands)),
        ("menu.edit", say("&Edit"), _edit(commands, undo)),
        ("menu.draw", say("&Draw"), _draw(commands)),
        ("menu.view", say("&View"), _view(commands, docks)),
        ("menu.help", say("&Help"), _help(commands)),
    ):
        menu = bar.addMenu(title)
        menu.menuAction().setObjectName(name)
        actions.fill(menu, items)


def _sample_title(name: str) -> str:
    return say(_SAMPLES[name]) if name in _SAMPLES else name.replace("_", " ").capitalize()


def _file(commands: Commands) -> tuple[Item, ...]:
    file, exports = commands.file, commands.exports
    samples = tuple(
        Entry(f"sample {name}", _sample_title(name), partial(file.open_sample, name))
        for name in file.samples()
    )
    return (
        Entry("new", say("&New garden…"), commands.start.begin_anew, _KEYS.New),
        Entry("open", say("&Open…"), file.open, _KEYS.Open),
        Submenu("recent", say("Open &recent")),
        Submenu("samples", say("Open a sa&mple"), samples),
        LINE,
        Entry("save", say("&Save"), file.save, _KEYS.Save),
        Entry("save as", say("Save &as…"), file.save_as, "Ctrl+Shift+S"),
        Entry("versions", say("Earlier &versions…"), file.show_versions),
        LINE,
        Entry("bring in", say("Bring &in beds and plantings…"), file.bring_in),
        LINE,
        Entry("bed sheets", say("&Bed sheets as PDF…"), exports.bed_sheets, "Ctrl+Shift+P", "paper"),
        Entry("bed sheet", say("Sheet of the selected be&ds as PDF…"), exports.sheets_of_selected_beds),
        Entry("print", say("&Print bed sheets…"), exports.print_sheets, _KEYS.Print),
        Entry("week sheets", say("&Week sheets as PDF…"), exports.week_sheets),
        Entry("calendar", say("Work as calendar &file…"), exports.calendar_file),
        Entry("amounts", say("Quan&tities as table…"), exports.amounts_table),
        Entry("everything", say("&Everything into a folder…"), exports.everything),
        LINE,
        Entry("weather picture", say("Weather of a year as picture…"), exports.weather_picture),
        Entry("copy without weather", say("Copy without its weather…"), exports.copy_without_weather),
        Entry("pocket page", say("Pocket pa&ge for a phone…"), exports.pocket_page),
        Entry("take notes", say("Ta&ke notes from outside…"), file.take_notes),
        LINE,
        Entry("quit", say("&Quit"), commands.window.close, "Ctrl+Q"),
    )


def _edit(commands: Commands, undo: tuple[QAction, QAction]) -> tuple[Item, ...]:
    edit = commands.edit
    return (
        Made("undo", undo[0], _KEYS.Undo, "undo"),
        Made("redo", undo[1], (_KEYS.Redo, "Ctrl+Y"), "redo"),
        LINE,
        Entry("cut", say("Cu&t"), edit.cut, _KEYS.Cut),
        Entry("copy", say("&Copy"), edit.copy, _KEYS.Copy),
        Entry("paste", say("&Paste at the pointer"), edit.paste_at_pointer, _KEYS.Paste),
        Entry("paste here", say("Paste in p&lace"), edit.paste_in_place, "Ctrl+Shift+V"),
        Entry("duplicate", say("D&uplicate"), edit.duplicate, "Ctrl+D"),
        Entry("delete", say("&Delete"), edit.delete, _KEYS.Delete),
        LINE,
        Entry("find crop", say("&Find a crop"), commands.navigation.find_crop, _KEYS.Find),
        Entry("place", say("Pla&nt the chosen crop…"), commands.navigation.place_chosen_crop, "Ctrl+Return"),
        LINE,
        Entry("write record", say("&Enter what happened…"), commands.navigation.write_record, "E"),
        Entry(
            "enter walk", say("Enter a &walk, bed after bed"), commands.navigation.enter_walk, "Ctrl+Shift+E"
        ),
        LINE,
        Entry("select all", say("Select &all beds"), edit.select_all, _KEYS.SelectAll),
        Entry("select none", say("Select n&othing"), edit.select_nothing, "Ctrl+Shift+A"),
        LINE,
        Entry("turn left", say("Turn by 15° to the left"), partial(edit.turn, 15.0), "Ctrl+["),
        Entry("turn right", say("Turn by 15° to the right"), partial(edit.turn, -15.0), "Ctrl+]"),
        Submenu(
            "align",
            say("Ali&gn"),
            tuple(Entry(f"align {side}", say(_ALIGN[side]), partial(edit.align, side)) for side in SIDES),
        ),
        Submenu(
            "order",
            say("Arrange"),
            (
                Entry("mirror across", say("&Mirror left to right"), partial(edit.mirror, "left to right")),
                Entry("mirror up", say("Mirror &top to bottom"), partial(edit.mirror, "top to bottom")),
                LINE,
                Entry("space across", say("Space evenly a&cross"), partial(edit.space, "across")),
                Entry("space up", say("Space evenly &up and down"), partial(edit.space, "up")),
                LINE,
                Entry("match size", say("Match the &size of the first"), edit.match_size),
                Entry("array", say("&Array along a line or an arc…"), edit.make_array, "Ctrl+Alt+D"),
            ),
        ),
        Entry("lock", say("Loc&k or unlock"), edit.toggle_lock, "Ctrl+L"),
        LINE,
        Submenu("rows", say("Rows and single plants"), _rows(commands)),
        Entry("ended", say("Plant&ing ended…"), commands.season.end_selected),
        Entry("sow anew", say("&Sow anew…"), commands.season.sow_anew),
        Entry("turn year", say("Turn the &year…"), commands.season.turn_year),
        Entry("copy year", say("Copy a year's plantings to another…"), commands.season.copy_year),
        LINE,
        Entry("propose layout", say("P&ropose a layout…"), commands.navigation.show_proposed_layout),
        Entry("fill ground", say("What could still go in &here…"), commands.season.fill_ground, "F"),
        LINE,
        Entry(
            "settings",
            say("Settings…"),
            partial(commands.view.show_settings, commands.window),
            "Ctrl+F9",
        ),
    )


def _rows(commands: Commands) -> tuple[Item, ...]:
    rows = commands.rows
    return (
        Entry("more rows", say("One row &more"), partial(rows.change_number, 1), "Ctrl+Alt+Up"),
        Entry("fewer rows", say("One row &fewer"), partial(rows.change_number, -1), "Ctrl+Alt+Down"),
        Entry("wider in row", say("&Wider in the row"), partial(rows.change_in_row, 1), "Ctrl+Alt+Right"),
        Entry("nearer in row", say("&Nearer in the row"), partial(rows.change_in_row, -1), "Ctrl+Alt+Left"),
        Entry(
            "wider between",
            say("Rows further &apart"),
            partial(rows.change_between, 1),
            "Ctrl+Alt+Shift+Right",
        ),
        Entry("nearer between", say("Rows n&earer"), partial(rows.change_between, -1), "Ctrl+Alt+Shift+Left"),
        Entry("turn rows", say("&Turn the rows by 15°"), partial(rows.turn, 15.0), "Ctrl+Alt+T"),
        LINE,
        Entry("split rows", say("&Split into rows of varieties"), rows.split, "Ctrl+Alt+S"),
        Entry("single plants", say("Make single &plants of it"), rows.make_single, "Ctrl+Alt+P"),
        Entry("next plant", say("Pick the ne&xt plant"), partial(rows.pick_next, 1), "Ctrl+."),
        Entry("plant before", say("Pick the plant &before"), partial(rows.pick_next, -1), "Ctrl+,"),
    )


def _draw(commands: Commands) -> tuple[Item, ...]:
    draw = commands.draw
    tools = tuple(
        Entry(
            f"tool {tool}", text, partial(draw.take_tool, tool), key, tool, "tools", checked=tool == "select"
        )
        for tool, text, key in (
            ("select", say("&Select and move"), "V"),
            ("rectangle", say("&Rectangular bed"), "R"),
            ("polygon", say("&Polygon bed"), "P"),
            ("circle", say("Roun&d bed"), "O"),
            ("measure", say("&Measure"), "M"),
        )
    )
    structures = tuple(
        Entry(
            f"tool structure:{kind}",
            capital(key_words(kind)),
            partial(draw.take_tool, f"structure:{kind}"),
        )
        for kind in STRUCTURES
    )
    return (
        *tools,
        Submenu("structures", say("S&tructure"), structures, "structure"),
        Entry("tool plot edge", say("&Edge of the plot"), partial(draw.take_tool, "plot edge")),
        Entry(
            "tool support", say("S&upport of the selected planting"), partial(draw.take_tool, "support"), "U"
        ),
        LINE,
        Entry("tool walk", say("&Walking order"), commands.navigation.show_walk, "W", "walk", "tools"),
        LINE,
        Submenu(
            "underlay",
            say("U&nderlay"),
            (
                Entry("lay under", say("&Lay a picture under the plan…"), draw.lay_under),
                Entry("underlay details", say("Its &details"), draw.show_underlay),
                Entry("hide underlay", say("&Hide or show it"), draw.hide_underlay),
            ),
        ),
        LINE,
        Entry("new beds", say("New beds by &size…"), draw.new_beds, "Ctrl+B", "beds"),
    )


def _view(commands: Commands, docks: Sequence[Item]) -> tuple[Item, ...]:
    view, navigation = commands.view, commands.navigation
    looks = tuple(
        Entry(f"look {wish}", text, partial(view.choose_look, wish), group="looks")
        for wish, text in (
            ("system", say("Light or dark &by the system")),
            ("light", say("&Light")),
            ("dark", say("&Dark")),
            ("contrast", say("High &contrast")),
        )
    )
    colours = tuple(
        Entry(
            f"colour {scale}",
            say(TITLES[scale]),
            partial(view.colour_by, scale),
            group="colours",
            checked=scale == "family",
        )
        for scale in SCALES_OFFERED
    )
    languages = (
        Entry("language system", say("As the &system"), partial(view.choose_language, ""), group="languages"),
        *(
            Entry(f"language {code}", name, partial(view.choose_language, code), group="languages")
            for code, name in LANGUAGES.items()
        ),
    )
    pages = tuple(
        Entry(
            f"page {number}",
            say("Page “{title}”", title=title),
            partial(navigation.show_page, number),
            f"Ctrl+{number + 1}",
        )
        for number, title in enumerate(navigation.page_titles())
    )
    return (
        Entry("zoom in", say("Zoom &in"), view.zoom_in, ("Ctrl++", "Ctrl+=")),
        Entry("zoom out", say("Zoom &out"), view.zoom_out, _KEYS.ZoomOut),
        Entry("show all", say("Show &all"), view.show_all, "Ctrl+0", "all"),
        Entry("show selection", say("Show the &selection"), view.show_selection, "Ctrl+Shift+0"),
        LINE,
        Switch("grid", say("&Grid"), view.show_grid, "G", "grid", on=True),
        Switch("snap", say("S&nap to grid and edges"), view.snap, "N", "snap", on=True),
        Switch("zoom at pointer", say("The wheel zooms at the &pointer"), view.zoom_at_pointer, on=True),
        Switch("shadow", say("&Shadows at this hour"), view.show_shadow, "H", "shadow"),
        Switch("light map", say("&Map of direct sun"), view.show_light_map, "L", "sun"),
        Switch("access", say("&Reach and narrow paths"), view.show_access),
        Switch("light span", say("Map over the whole growing year"), view.map_over_year),
        LINE,
        Switch("whole year", say("All plantings of the &year"), view.show_whole_year, "Y"),
        Entry("play year", say("Play the year"), view.play_year, "T"),
        Switch("less motion", say("Less motion: jumps of a week"), view.less_motion),
        Switch("two days", say("Two days side by side"), view.two_days, "D"),
        Entry("assume", say("As if it were &warmer…"), view.assume),
        Submenu("colours", say("&Colours of the plantings"), colours),
        LINE,
        *looks,
        Submenu("languages", say("Lan&guage"), languages),
        LINE,
        *pages,
        LINE,
        *docks,
        Entry("reset layout", say("&Reset the layout"), view.reset_layout),
    )


def _help(commands: Commands) -> tuple[Item, ...]:
    on = commands.help
    return (
        Entry("manual", say("&Manual: what is this?"), on.open_here, ("F1", _KEYS.HelpContents)),
        Entry("manual contents", say("&Contents of the manual"), on.show_contents, "Shift+F1"),
        Entry("keys", say("&Keys and gestures"), partial(on.open_at, "gestures")),
        LINE,
        Entry("guide", say("A guided &first plan"), on.guide.start),
        Entry("news", say("What is &new"), on.show_news),
        LINE,
        Entry("about", say("&About Bedwright"), on.show_about),
    )


def context_menu(parent: QWidget, actions: Actions) -> QMenu:
    """The menu of what is selected on the sheet."""
    menu = QMenu(parent)
    actions.watch_keys(menu)
    for names in (
        ("cut", "copy", "paste", "duplicate", "delete"),
        ("write record", "fill ground"),
        ("turn left", "turn right", "lock"),
        ("split rows", "single plants"),
        ("ended", "sow anew"),
        ("bed sheet", "show selection"),
    ):
        if not menu.isEmpty():
            menu.addSeparator()
        menu.addActions([actions[name] for name in names])
    return menu


def enable_for_selection(actions: Actions, document: Document) -> None:
    """Make those actions possible that can do something with what is selected, or with the clipboard."""
    things = len(document.selected_things)
    actions.enable(("cut", "copy", "duplicate", "delete", "show selection"), bool(document.selection))
    actions.enable(("ended",), bool(document.selected_plantings))
    actions.enable(("sow anew",), len(document.selected_plantings) == 1)
    actions.enable(ROWS, len(document.selection) == len(document.selected_plantings) == 1)
    actions.enable(("tool support",), len(document.selected_plantings) == 1)
    actions.enable(("turn left", "turn right"), things > 0)
    actions.enable([f"align {side}" for side in SIDES], things > 1)
    actions.enable(("mirror across", "mirror up", "array", "lock"), things > 0)
    actions.enable(("space across", "space up"), things > 2)
    actions.enable(("match size",), things > 1)
    actions.enable(("bed sheet",), bool(document.selected_beds or document.selected_plantings))
    actions.enable(("paste", "paste here"), clipboard.holds_things())
