"""Work on a crop between its start and its end: when it falls due, of which plantings, and what it is called."""

from __future__ import annotations

from typing import Annotated, NamedTuple, Self

from pydantic import AfterValidator, Field, model_validator

from planner.crops.figures import Origin
from planner.words import later

#: Kinds of aftercare; each has one record a planting, and of what stays for years one a year.
CARE_WORDS = (
    "chit", "mulch", "earth up", "earth up again", "tie in", "pinch out", "stop", "feed", "cut back", "prune",
    "divide", "renew", "lift and store",
)  # fmt: skip
#: Days from which aftercare is counted.
ANCHOR_WORDS = (
    "start",  # the day it takes its plot
    "emergence",
    "flowering",
    "first harvest",
    "last harvest",
    "last frost",
    "first frost",
    "clearing",
)
#: Parts of the year in which something is planted.
PLANTED_WORDS = ("before winter", "before summer")
#: Halves of the season in which a fruit ripens: before or after the height of summer.
RIPENING_WORDS = ("summer", "autumn")


class CareTask(NamedTuple):
    """A task of the list of work.

    Attributes
    ----------
    kind : str
        One of :data:`CARE_WORDS`.
    words : str
        Its sentence, of ``crop`` and ``bed``.
    without_bed : str
        The same of ``crop`` alone.
    """

    kind: str
    words: str
    without_bed: str


#: What is done, by the name that the crops' data use; each kind has a task of its own name.
TASKS: dict[str, CareTask] = {
    "chit": CareTask("chit", words=later("Set the tubers of {crop} for {bed} to sprout, cool and in the light"), without_bed=later("Set the tubers of {crop} to sprout, cool and in the light")),
    "mulch": CareTask("mulch", words=later("Mulch {crop} in {bed}"), without_bed=later("Mulch {crop}")),
    "straw": CareTask("mulch", words=later("Lay straw under the fruit of {crop} in {bed}"), without_bed=later("Lay straw under the fruit of {crop}")),
    "earth up": CareTask("earth up", words=later("Earth up {crop} in {bed}"), without_bed=later("Earth up {crop}")),
    "draw up soil": CareTask("earth up", words=later("Draw soil up to the stems of {crop} in {bed}"), without_bed=later("Draw soil up to the stems of {crop}")),
    "earth up again": CareTask("earth up again", words=later("Earth up {crop} in {bed} a second time"), without_bed=later("Earth up {crop} a second time")),
    "tie in": CareTask("tie in", words=later("Tie in {crop} in {bed}"), without_bed=later("Tie in {crop}")),
    "canes to wires": CareTask("tie in", words=later("Tie the new canes of {crop} in {bed} to their wires"), without_bed=later("Tie the new canes of {crop} to their wires")),
    "pinch out": CareTask("pinch out", words=later("Pinch out the side shoots of {crop} in {bed}"), without_bed=later("Pinch out the side shoots of {crop}")),
    "side shoots of the vine": CareTask(
        "pinch out", words=later("Shorten the side shoots of {crop} in {bed} beyond their fruit"), without_bed=later("Shorten the side shoots of {crop} beyond their fruit")
    ),
    "stop": CareTask("stop", words=later("Stop {crop} in {bed}: pinch out the growing tips"), without_bed=later("Stop {crop}: pinch out the growing tips")),
    "tips with aphids": CareTask("stop", words=later("Pinch out the tips of {crop} in {bed} as the first pods set"), without_bed=later("Pinch out the tips of {crop} as the first pods set")),
    "top of the poles": CareTask("stop", words=later("Pinch out {crop} in {bed} at the top of the poles"), without_bed=later("Pinch out {crop} at the top of the poles")),
    "top of the sprouts": CareTask("stop", words=later("Pinch out the tops of {crop} in {bed} to fill the sprouts"), without_bed=later("Pinch out the tops of {crop} to fill the sprouts")),
    "young plants": CareTask("stop", words=later("Pinch out the tips of {crop} in {bed} so that it branches"), without_bed=later("Pinch out the tips of {crop} so that it branches")),
    "feed": CareTask("feed", words=later("Feed {crop} in {bed}"), without_bed=later("Feed {crop}")),
    "cut back": CareTask("cut back", words=later("Cut back {crop} in {bed}"), without_bed=later("Cut back {crop}")),
    "yellow fern": CareTask("cut back", words=later("Cut down the yellow fern of {crop} in {bed}"), without_bed=later("Cut down the yellow fern of {crop}")),
    "leaves after fruit": CareTask(
        "cut back", words=later("Cut off the old leaves and spare runners of {crop} in {bed}"), without_bed=later("Cut off the old leaves and spare runners of {crop}")
    ),
    "after flowering": CareTask("cut back", words=later("Clip {crop} in {bed} after its flowers"), without_bed=later("Clip {crop} after its flowers")),
    "flower stalks": CareTask("cut back", words=later("Cut out the flower stalks of {crop} in {bed}"), without_bed=later("Cut out the flower stalks of {crop}")),
    "prune": CareTask("prune", words=later("Prune {crop} in {bed}"), without_bed=later("Prune {crop}")),
    "fruited canes": CareTask("prune", words=later("Cut out the canes of {crop} in {bed} that have fruited"), without_bed=later("Cut out the canes of {crop} that have fruited")),
    "all canes": CareTask("prune", words=later("Cut all canes of {crop} in {bed} to the ground"), without_bed=later("Cut all canes of {crop} to the ground")),
    "old wood": CareTask("prune", words=later("Cut out the oldest branches of {crop} in {bed} at the ground"), without_bed=later("Cut out the oldest branches of {crop} at the ground")),
    "spurs": CareTask("prune", words=later("Prune {crop} in {bed} to a few strong branches with short spurs"), without_bed=later("Prune {crop} to a few strong branches with short spurs")),
    "divide": CareTask("divide", words=later("Lift and divide {crop} in {bed}"), without_bed=later("Lift and divide {crop}")),
    "renew": CareTask("renew", words=later("Renew {crop} in {bed} with young plants, best on other ground"), without_bed=later("Renew {crop} with young plants, best on other ground")),
    "lift and store": CareTask("lift and store", words=later("Lift the tubers of {crop} in {bed} and store them free of frost"), without_bed=later("Lift the tubers of {crop} and store them free of frost")),
}  # fmt: skip
#: The same beside a box to tick, without crop and bed.
IN_SHORT: dict[str, str] = {
    "chit": later("set to sprout"),
    "mulch": later("mulch"),
    "straw": later("lay straw under the fruit"),
    "earth up": later("earth up"),
    "draw up soil": later("draw soil up to the stems"),
    "earth up again": later("earth up again"),
    "tie in": later("tie in"),
    "canes to wires": later("tie new canes to wires"),
    "pinch out": later("pinch out side shoots"),
    "side shoots of the vine": later("shorten side shoots"),
    "stop": later("pinch out growing tips"),
    "tips with aphids": later("pinch out tips"),
    "top of the poles": later("pinch out at the top of the poles"),
    "top of the sprouts": later("pinch out the tops"),
    "young plants": later("pinch out tips"),
    "feed": later("feed"),
    "cut back": later("cut back"),
    "yellow fern": later("cut down yellow fern"),
    "leaves after fruit": later("cut off old leaves"),
    "after flowering": later("clip after the flowers"),
    "flower stalks": later("cut out flower stalks"),
    "prune": later("prune"),
    "fruited canes": later("cut out fruited canes"),
    "all canes": later("cut all canes to the ground"),
    "old wood": later("cut out the oldest branches"),
    "spurs": later("prune to short spurs"),
    "divide": later("lift and divide"),
    "renew": later("renew with young plants"),
    "lift and store": later("lift and store"),
}


def _of(words: tuple[str, ...] | dict[str, CareTask]) -> AfterValidator:
    def check(word: str | None) -> str | None:
        if word is not None and word not in words:
            raise ValueError(f"'{word}' is none of {', '.join(words)}")
        return word

    return AfterValidator(check)


_Anchor = Annotated[str | None, _of(ANCHOR_WORDS)]
_Month = Annotated[int | None, Field(ge=1, le=12)]


class Care(Origin):
    """A piece of work that a crop usually needs, with its source.

    It is due ``days`` after an anchor, or in a month.  It is one day's work unless it has an end.

    Attributes
    ----------
    task : str
        What is done, one of :data:`TASKS`.
    after : str or None
        The day it is counted from, one of :data:`ANCHOR_WORDS`.
    days : int
        Days after that; before it where negative. [days]
    month, to_month : int or None
        First and last month for it, north of the equator; half a year later in the south.
    every_days : int or None
        It is done again after so many days, until its end. [days]
    until : str or None
        What ends it, one of :data:`ANCHOR_WORDS`.
    until_days : int
        Days from that to its end; before it where negative. [days]
    from_year : int
        Of what stays for years: the least years since it was planted. [years]
    every_years : int
        Of what stays for years: it comes back after so many years, for the first time in ``from_year``. [years]
    starts, supports : tuple of str
        Only of plantings that start so, or that have such a support; of all where empty.
    planted : str or None
        Only of what is planted then, one of :data:`PLANTED_WORDS`.
    ripens : str or None
        Only of fruit that ripens in this half of the season, one of :data:`RIPENING_WORDS`.
    """

    task: Annotated[str, _of(TASKS)]
    after: _Anchor = None
    days: int = Field(default=0, ge=-400, le=400)
    month: _Month = None
    to_month: _Month = None
    every_days: int | None = Field(default=None, ge=1, le=100)
    until: _Anchor = None
    until_days: int = Field(default=0, ge=-400, le=400)
    from_year: int = Field(default=0, ge=0, le=30)
    every_years: int = Field(default=1, ge=1, le=30)
    starts: tuple[str, ...] = ()
    supports: tuple[str, ...] = ()
    planted: Annotated[str | None, _of(PLANTED_WORDS)] = None
    ripens: Annotated[str | None, _of(RIPENING_WORDS)] = None

    def _has_value(self) -> bool:
        return True

    @property
    def kind(self) -> str:
        """Its kind, one of :data:`CARE_WORDS`."""
        return TASKS[self.task].kind

    @model_validator(mode="after")
    def _is_dated(self) -> Self:
        if (self.after is None) == (self.month is None):
            raise ValueError("is due after a day or in a month: give one of 'after' and 'month'")
        if self.month is None and self.to_month is not None:
            raise ValueError("has a last month but no first one")
        if self.month is not None and self.days:
            raise ValueError("is due in a month, not days after it")
        if self.every_days is not None and self.until is None and self.to_month is None:
            raise ValueError("is done again and again without an end: give 'until' or 'to_month'")
        return self
