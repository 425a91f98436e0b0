"""Forms at the right: everything of the selection, numbers live."""
