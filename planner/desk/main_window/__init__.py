"""The main window: its actions, files, exports and the drawing under the hand."""
