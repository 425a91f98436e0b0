"""Climates of the scenes, like those of real places but rounded and from memory (``estimate``)."""

from __future__ import annotations

from proposal.hand_made.scene import climate

#: By the sea in the west, mild winters and cool summers.
MILD = climate(
    "05-05 04-20 04-05",
    "10-15 11-01 11-15",
    (2, 2, 3.5, 5, 8, 11, 13, 13, 10.5, 8, 4.5, 2.5),
    (8, 8.5, 11, 14.5, 18, 21, 23, 22.5, 19.5, 15, 11, 8.5),
    "9a",
)
#: Inland, cold winters and warm summers.
INLAND = climate(
    "05-18 05-06 04-24",
    "09-28 10-10 10-24",
    (-3, -2.5, 0.5, 4, 8.5, 12, 13.5, 13, 9.5, 5.5, 1, -2),
    (2.5, 4.5, 9.5, 14.5, 19.5, 22.5, 24.5, 24.5, 19.5, 13.5, 7, 3.5),
    "7a",
)
#: Hills of the north, short cool summers.
UPLAND = climate(
    "05-28 05-14 05-01",
    "09-25 10-08 10-20",
    (1, 1, 2, 3.5, 6, 9, 11, 11, 9, 6.5, 3.5, 1.5),
    (6.5, 7, 9, 12, 15.5, 18, 20, 19.5, 17, 13, 9, 7),
    "8a",
)
#: High dry land with hot summers.
DRY = climate(
    "04-20 04-05 03-20",
    "10-25 11-05 11-18",
    (-2, 0, 3, 7, 12, 17, 20, 19, 15, 8, 2, -2),
    (9, 12, 17, 22, 27, 33, 35, 34, 29, 23, 15, 9),
    "7b",
)
#: Southern hills by the sea: the warm months are December to March.
SOUTHERN = climate(
    "10-25 10-08 09-20",
    "04-20 05-08 05-25",
    (12.5, 12.5, 11, 8.5, 6.5, 4, 3.5, 4, 5.5, 7.5, 9, 11.5),
    (22, 22.5, 20.5, 17.5, 14.5, 12, 11.5, 12.5, 14.5, 16.5, 18.5, 20.5),
    "9b",
)
