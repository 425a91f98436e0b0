"""The manual: chapters in Markdown, what the program itself fills in, and the book that is made of both."""
