"""Plantings with their dates, covers and supports."""

from __future__ import annotations

import datetime as dt
import itertools
from typing import Literal, Self, get_args

from pydantic import Field, field_validator, model_validator

from planner.garden.arrangements import Arrangement, Rows
from planner.garden.materials import Mesh, SheetMass
from planner.garden.model import Distance, Height, Id, Label, Model, Name, Notes, Point, Spacing, Year
from planner.garden.plots import Plot, Whole
from planner.garden.raising import Raising
from planner.garden.soil_rule import SoilRule
from planner.words import later, say

Start = Literal["sown", "raised", "bought", "sets", "tubers", "cloves", "crowns", "standing"]
Sowing = Literal["drill", "stations"]
#: State of tubers, or of plants bought in, in which they are planted.
State = Literal["unsprouted", "plugs", "large plants", "cuttings"]
#: Those of plants bought in.
BOUGHT_STATES: tuple[State, ...] = ("plugs", "large plants", "cuttings")
Purpose = Literal[
    "kitchen", "store", "bottling", "drying", "freezing", "seed", "cutting", "green manure", "trial"
]
#: What keeps birds, slugs, voles and root flies off without covering: twiggy sticks over sown ground, discs about stems, rings about
#: plants, baskets of wire mesh in which they are set.
GuardKind = Literal["brushwood", "collar", "slug ring", "vole basket"]
GUARDS: tuple[GuardKind, ...] = get_args(GuardKind)
CoverKind = Literal["fleece", "netting", "film", "cloche", "low tunnel", GuardKind]
#: How a sheet is held over its plants.
CoverHeld = Literal["hoops", "flat"]
SupportKind = Literal["sticks", "stake", "cage", "net", "frame", "arch", "tower", "wire", "strings", "panel"]

#: Start of a planting: in the crop's spring window, in its autumn window, or counted back from the first autumn
#: frost, as late as it still ripens.
Timing = Literal["spring", "autumn", "count back"]
#: A planting that nobody sowed or bought: it came up by itself, or its plants were given.
CameFrom = Literal["self-sown", "given"]
#: Kinds of dated work on a planting.
Work = Literal[
    "chit",
    "sow",
    "prick out",
    "pot on",
    "harden off",
    "spread",
    "film down",
    "set out",
    "support up",
    "cover on",
    "vent",
    "thin",
    "mulch",
    "earth up",
    "earth up again",
    "tie in",
    "pinch out",
    "stop",
    "feed",
    "cover off",
    "film up",
    "pick",
    "lift and cure",
    "cut back",
    "prune",
    "divide",
    "renew",
    "lift and store",
    "clear",
    "sow the next",
]

#: Work on a planting's covers: its record may name the cover.
COVER_WORK: tuple[Work, ...] = ("film down", "cover on", "vent", "cover off", "film up")

#: Ways to start a planting without seed.
SEEDLESS = ("bought", "sets", "tubers", "cloves", "crowns", "standing")


def work_on(kind: str, cover: str | None) -> str:
    """A kind of work, with the cover it is on: ``cover on fleece``."""
    return f"{kind} {cover}" if cover else kind


class Cover(Model):
    """A cover over a planting, from a first to a last day.

    Without a first day it is laid when the planting starts.  Without a last day it stays until the planting is
    cleared, until a crop that must be pollinated flowers, or, over tender plants, for the weeks of shelter they need.
    """

    kind: CoverKind
    first: dt.date | None = None
    last: dt.date | None = None
    held: CoverHeld | None = Field(
        default=None,
        description="On hoops, or flat on the plants. If not given a low tunnel and netting are on hoops, fleece lies flat.",
    )
    height: Height | None = Field(
        default=None, description="Of the hoops above the ground; as high as the plants if not given. [m]"
    )
    weight: SheetMass | None = Field(default=None, description="Of fleece; light fleece if not given. [g/m2]")
    mesh: Mesh | None = Field(default=None, description="Of netting; any if not given. [m]")

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.first and self.last and self.last < self.first:
            raise ValueError(
                say(
                    "the cover's last day {last} is before its first {first}",
                    last=self.last,
                    first=self.first,
                )
            )
        return self


class Support(Model):
    """A support that a planting climbs or leans on."""

    kind: SupportKind
    height: Height = Field(default=1.8, description="[m]")
    spacing: Distance | None = Field(default=None, description="Post to post. [m]")
    line: tuple[Point, ...] = Field(
        default=(),
        max_length=200,
        description="Line of the support in the bed's coordinates; along the rows if not drawn. [m]",
    )
    lines: int | None = Field(
        default=None,
        ge=1,
        le=100,
        description="Parallel lines: about the drawn line, else over the plot, along the rows. If not given one along the drawn "
        "line, else one along every row.",
    )
    line_spacing: Spacing | None = Field(
        default=None,
        description="Line to line. If not given half a metre beside a drawn line, else what shares the plot evenly. [m]",
    )
    sides: Literal[1, 2] = Field(default=2, description="Sides of a drawn line that are planted.")
    offset: Distance = Field(default=0.1, description="Of the plants from a drawn line. [m]")

    @field_validator("spacing")
    @classmethod
    def _no_spacing(cls, spacing: float | None) -> float | None:
        return spacing or None  # posts 0 m apart mean nothing: the usual spacing

    @model_validator(mode="after")
    def _a_line(self) -> Self:
        if len(self.line) == 1 or (len(self.line) > 1 and len(set(self.line)) == 1):
            raise ValueError(say("the support's line needs two places that differ"))
        return self


class PinnedDates(Model):
    """Dates of a planting given by hand instead of the computed ones.

    The first and last day on its plot are fields of the planting.
    """

    sow: dt.date | None = None
    prick_out: dt.date | None = None
    pot_on: dt.date | None = None
    harden_off: dt.date | None = None
    set_out: dt.date | None = None
    first_harvest: dt.date | None = None
    last_harvest: dt.date | None = None
    thin: dt.date | None = None
    support_up: dt.date | None = None

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        order = ("sow", "prick_out", "pot_on", "harden_off", "set_out", "first_harvest", "last_harvest")
        given = [(name, day) for name in order if (day := getattr(self, name)) is not None]
        given_thin = [(name, day) for name in ("sow", "thin", "last_harvest") if (day := getattr(self, name))]
        for steps in (given, given_thin):
            for (before, early), (after, late) in itertools.pairwise(steps):
                if late < early:
                    raise ValueError(
                        say(
                            "{step} {late} is before {step_before} {early}",
                            step=say(_STEP_NAMES[after]),
                            late=late,
                            step_before=say(_STEP_NAMES[before]),
                            early=early,
                        )
                    )
        return self


_STEP_NAMES = {
    "sow": later("the sowing"),
    "prick_out": later("the pricking out"),
    "pot_on": later("the potting on"),
    "harden_off": later("the hardening off"),
    "set_out": later("the setting out"),
    "thin": later("the thinning"),
    "first_harvest": later("the first harvest"),
    "last_harvest": later("the last harvest"),
}


class Planting(Model):
    """A variety in a plot of one bed for a span of days.

    ``crop`` is a key of the catalogue; ``variety`` is the name of a variety, perhaps one of the garden's own.
    ``year`` is the growing year it belongs to; ``first`` and ``last`` are the first and last day on its plot, if
    given by hand.
    """

    id: Id
    bed: Id
    crop: Name
    variety: Label = ""
    product: Label = Field(
        default="", description="Which of the crop's products it is grown for; its own where not given."
    )
    plot: Plot = Whole()
    arrangement: Arrangement = Rows()
    year: Year
    first: dt.date | None = Field(default=None, description="First day on its plot, given by hand.")
    last: dt.date | None = Field(default=None, description="Last day on its plot, given by hand.")
    pinned_dates: PinnedDates = Field(default=PinnedDates(), description="Further dates given by hand.")
    timing: Timing | None = Field(default=None, description="The crop's usual season where not given.")
    replaces: Id | None = Field(
        default=None, description="The planting that failed and was sown or planted anew as this one."
    )
    wish: Id | None = Field(
        default=None,
        description="The wish that it meets, as it was proposed; one that is gone counts as none.",
    )
    repeats: Id | None = Field(
        default=None, description="The planting of the year before that was repeated as this one."
    )
    came_from: CameFrom | None = Field(
        default=None,
        description="Where it came from when it was neither sown nor bought: nothing is needed for it.",
    )
    series: Id | None = Field(default=None, description="Shared by plantings made as a succession.")
    start: Start | None = Field(default=None, description="The crop's usual way where not given.")
    state: State | None = Field(
        default=None,
        description="Of tubers, or of plants bought in: the state in which they are planted; sprouted tubers and plants of the "
        "usual size where not given.",
    )
    soil_rule: SoilRule | None = Field(
        default=None,
        description="The warmth of the soil by which it is begun; a day that is given by hand counts before it.",
    )
    sowing: Sowing | None = Field(
        default=None,
        description="Of a sown planting: a drill, thinned, or seeds to each station. The crop's way.",
    )
    raising: Raising | None = Field(
        default=None, description="How raised plants are raised; the crop's usual way where not given."
    )
    covers: tuple[Cover, ...] = ()
    support: Support | None = None
    purpose: Purpose = "kitchen"
    tended_by: Label = ""
    shares_ground: bool = Field(
        default=False, description="Planned to grow between other plantings at the same time."
    )
    notes: Notes = ""
    pinned: bool = Field(default=False, description="A proposed layout leaves it where it is.")

    def bought_as(self, usual: str) -> str:
        """In what state its plants are bought in, in words; ``usual`` where it does not say."""
        return self.state if self.state in BOUGHT_STATES else usual

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.first and self.last and self.last < self.first:
            raise ValueError(
                say("the last day {last} is before the first {first}", last=self.last, first=self.first)
            )
        if self.replaces == self.id:
            raise ValueError(say("a planting cannot replace itself"))
        if self.repeats == self.id:
            raise ValueError(say("a planting cannot repeat itself"))
        pins = self.pinned_dates
        if self.first and pins.first_harvest and pins.first_harvest < self.first:
            raise ValueError(
                say(
                    "the first harvest {first_harvest} is before the first day on its plot {first}",
                    first_harvest=pins.first_harvest,
                    first=self.first,
                )
            )
        for day in (pins.set_out, pins.sow):
            if self.last and day and self.last < day:
                raise ValueError(
                    say("the last day {last} is before its start {day}", last=self.last, day=day)
                )
        return self
