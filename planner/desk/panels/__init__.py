"""Panels around the drawing: crops, contents, details, findings, the ribbon of the year."""
