"""What the commands write as JSON: one object a report, each with a published JSON Schema."""
