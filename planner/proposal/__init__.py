"""Next year: the turn of the year, and what follows from the one before."""
