"""Everything that leaves on paper or as a file."""
