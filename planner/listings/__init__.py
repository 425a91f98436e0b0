"""Text and tables out: for the terminal, JSON, CSV and iCalendar."""
