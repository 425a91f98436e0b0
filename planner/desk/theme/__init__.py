"""Colours, letters, icons and plant symbols of the desk."""
