"""Rows counted one by one, for comparison with the layout."""

from __future__ import annotations


def rows_counted(width: float, r: float) -> int:
    """Rows one by one, as long as the next still fits; one more where rows a fiftieth closer leave room for it."""
    um = 1_000_000
    rows = 0
    while (rows + 1) * round(r * um) <= round(width * um) + round(0.04 * r * um) + 2:
        rows += 1
    closer = (rows + 1) * 0.98 * r * um <= round(width * um) + 1e-3
    return rows + 1 if closer and 1 <= rows < 10 else rows
