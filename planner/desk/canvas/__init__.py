"""What the drawing is made of: items, layers, labels, rulers, and the camera that shows them."""
