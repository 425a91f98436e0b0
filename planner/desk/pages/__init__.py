"""The other pages of the desk, beside the sheet."""
