"""A garden with a climate and dated plantings for tests of the command line."""

from __future__ import annotations

import datetime as dt

from planner.garden import Bed, Climate, FrostDates, Garden, Planting, Rectangle, Site

D = dt.date
BED = Rectangle(length=4.8, width=1.2)
GARDEN = Garden(
    site=Site(name="Plot", latitude=52, time_zone="Europe/London"),
    climate=Climate(
        last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
        first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
    ),
    beds=(Bed(id="b1", name="North", outline=BED), Bed(id="b2", name="South", outline=BED)),
    plantings=(
        Planting(id="p1", bed="b1", crop="carrot", variety="Long", year=2025, first=D(2025, 4, 10)),
        Planting(id="p2", bed="b2", crop="garlic", year=2025, start="cloves", first=D(2025, 10, 15)),
        Planting(id="p3", bed="b1", crop="carrot", year=2026),
    ),
)
