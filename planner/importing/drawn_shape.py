"""A closed shape of a drawing, whatever kind of file it comes from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

#: Most shapes that are read of a drawing.
MOST_SHAPES = 5_000
#: Corners farther out than this are not read. [units of the drawing]
MOST_UNITS = 1e9

Ring = NDArray[np.float64]


@dataclass(frozen=True)
class DrawnShape:
    """A shape as drawn.

    Attributes
    ----------
    where : str
        Its line, or its layer and kind, in words.
    name : str
        What the drawing calls it; may be empty.
    rings : tuple of numpy.ndarray
        Closed rings (n, 2), the first corner not repeated, in the drawing's units.
    error : str
        Why it cannot be read; empty for a good one.
    count : int
        Shapes that this speaks of: of those that cannot be read, all of a kind may be one.
    """

    where: str
    name: str
    rings: tuple[Ring, ...] = ()
    error: str = ""
    count: int = 1
