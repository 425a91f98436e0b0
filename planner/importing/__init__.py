"""Tables in: stock and daily weather."""
