"""The plan lived through every recorded year: what would have become of each planting, and its odds."""
