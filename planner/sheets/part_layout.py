"""How a drawing is laid out on paper: title and tags above the bed, tape and dimension lines below it."""

from __future__ import annotations

#: Room left of a drawing for its upright dimension line, and right of it. [mm]
LEFT_ROOM, RIGHT_ROOM = 11.0, 5.0
#: Heights of a title and of one level of tags. [mm]
TITLE_ROW, TAG_ROW = 5.5, 6.0
#: Heights of the tape and of a dimension line. [mm]
TAPE_ROW, DIMENSION_ROW = 6.5, 5.5
#: Room between the bed and its first level of tags. [mm]
ABOVE_BED = 1.5
#: Height that a drawing usually needs besides the bed. [mm]
AROUND = TITLE_ROW + TAG_ROW + TAPE_ROW + 2 * DIMENSION_ROW + 4.0
