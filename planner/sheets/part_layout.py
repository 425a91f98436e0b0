"""How a drawing is laid out on paper: title and labels above the bed, tape, labels and dimension lines below it."""

from __future__ import annotations

#: Room left of a drawing for its upright dimension line, and right of it. [mm]
LEFT_ROOM, RIGHT_ROOM = 8.0, 2.0
#: Heights of a line of a title, and of a line below a drawing. [mm]
TITLE_ROW, CAPTION_ROW = 4.6, 3.7
#: Heights of the tape and of a dimension line. [mm]
TAPE_ROW, DIMENSION_ROW = 5.8, 4.8
#: Room between the bed and its first level of labels. [mm]
ABOVE_BED = 1.5
#: Height that a drawing usually needs besides the bed. [mm]
AROUND = TITLE_ROW + CAPTION_ROW + TAPE_ROW + 2 * DIMENSION_ROW + 4.0
#: Size of titles, and of figures and captions. [points]
TITLE_SIZE, FIGURE_SIZE = 9.0, 8.0
