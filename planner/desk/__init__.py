"""The desk: the window. The only room that imports Qt."""
