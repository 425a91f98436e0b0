"""Climate, dates, growth and tasks: what happens when."""
