"""The catalogue of sentences a user sees, and numbers and dates in the words of a language."""
