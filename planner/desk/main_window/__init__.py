"""The main window: its parts, menus and commands, and the sheet."""
