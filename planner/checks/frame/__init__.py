"""What the rules share: their context, the planting as they see it, findings, phrases and fixes."""
