"""What is said where a year of a garden holds nothing that could be drawn."""

from __future__ import annotations

from planner.errors import BedwrightError
from planner.listings.phrases import season
from planner.plan import Plan
from planner.words import say


class NothingToDrawError(BedwrightError):
    """A garden, or a year of it, in which there is nothing to draw."""

    @classmethod
    def of(cls, plan: Plan) -> NothingToDrawError:
        """The error of a plan."""
        site = plan.garden.site
        return cls(
            say("there is no bed, structure or outline in {year} to draw", year=season(site, plan.year)),
            site.name,
            say("Draw a bed first, or choose another year"),
        )
