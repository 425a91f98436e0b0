"""A garden of four beds for tests of the command line."""

from __future__ import annotations

from planner.garden import Bed, Garden, Places, Planting, Rectangle, Rows, Site, Stretch

BED = Rectangle(length=4.8, width=1.2)
GARDEN = Garden(
    site=Site(name="Plot"),
    beds=(
        Bed(id="b1", name="North", outline=BED),
        Bed(id="b2", name="South", outline=BED),
        Bed(id="b3", name="south", outline=BED),
        Bed(id="b4", name="Old", outline=BED, last_year=2024),
    ),
    plantings=(
        Planting(
            id="p1",
            bed="b1",
            crop="cabbage",
            variety="Drum",
            year=2025,
            start="raised",
            arrangement=Rows(in_row_spacing=0.4, row_spacing=0.4),
        ),
        Planting(id="p2", bed="b2", crop="carot", variety="=1+1", year=2025),
        Planting(
            id="p3",
            bed="b3",
            crop="garlic",
            year=2025,
            start="cloves",
            plot=Stretch(start=0, end=1.2),
            arrangement=Places(points=((-2.0, 0.0), (-1.8, 0.0), (9.0, 9.0))),
        ),
        Planting(id="p4", bed="b1", crop="kale", year=2023),
    ),
)
