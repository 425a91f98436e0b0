"""Gestures on the sheet: objects with a start, moves, an end, and a way back."""
