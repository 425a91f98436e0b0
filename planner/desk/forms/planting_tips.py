"""What each field of a planting means, said on hover and to a screen reader."""

from __future__ import annotations

from collections.abc import Iterable
from operator import attrgetter
from typing import Protocol

from planner.words import later, say


class Explained(Protocol):
    """A field that can say what is meant."""

    def explain(self, text: str) -> None:
        """Say what is meant."""
        ...


#: Explanations by the name of the field within the form.
TIPS = {
    "variety": later(
        "The sort you sow, as on its packet. Figures that your own varieties give come before those of the crop."
    ),
    "start": later(
        "Whether it is sown where it grows, raised in pots first, or comes as plants, sets, tubers or crowns. "
        "The dates and what you have to buy follow from it."
    ),
    "product": later(
        "Some crops are grown for one part or another. Days and yield are those of the part chosen here."
    ),
    "purpose": later("What becomes of the harvest: eaten fresh, stored, or left to feed the ground."),
    "raising.way": later(
        "Where the young plants stand until they are set out. Trays, pots and mix are counted by it."
    ),
    "raising.cells": later("How many cells the tray has: more cells, smaller plants."),
    "raising.width": later("How wide a pot or a block of earth is. Left empty, the usual width."),
    "arrangement": later(
        "Rows; rows of which every other one is shifted by half a space; seed thrown over the whole plot; "
        "or single plants, each at its own place."
    ),
    "spacing": later(
        "Plants in a bed that you reach from its sides can be nearer to each other than in field rows with paths between them."
    ),
    "in_row": later("From one plant to the next along the row. Left empty, the crop's usual distance."),
    "between": later("From one row to the next. Left empty, the crop's usual distance."),
    "rows": later("Fewer rows than would fit; they share the width. Left empty, as many as fit."),
    "edge": later(
        "How far the outer rows are from the edge of the plot. Left empty, half the distance between rows."
    ),
    "turn": later("0° runs along the bed, 90° across it."),
    "density": later("How many plants are to come up on each square metre that is sown."),
    "plot_start": later("Where its ground begins, from the left end of the bed along its length."),
    "plot_end": later("Where its ground ends, from the left end of the bed along its length."),
    "first": later(
        "The day from which it takes the ground: sowing, or setting out. Left empty, it is worked out."
    ),
    "last": later("The day on which the ground is cleared. Left empty, it is worked out."),
    "sown": later("The day on which it is sown into pots or trays. Left empty, it is worked out."),
    "picked": later(
        "The first day on which you pick. Left empty, it is worked out from the warmth of your place."
    ),
    "timing": later("When a crop can be begun in spring or in autumn: which of the two is meant."),
    "soil.waits": later(
        "By the calendar, or when the soil has been warm enough for some days: what many gardeners go by for beans and maize. "
        "In the plan the usual year decides, in each recorded year that year's own soil."
    ),
    "soil.warmth": later("How warm the soil must be at sowing depth, on the mean of the day."),
    "soil.days": later("On how many days in a row it must be so warm. It is begun on the last of them."),
    "soil.after": later("The first day that counts: warm days before it do not begin it."),
    "series": later(
        "Plants the same again some days later, as often as you say, so that there is something to pick for longer."
    ),
    "course.came_from": later(
        "For plants that you neither sowed nor bought: they came up by themselves, or were given to you."
    ),
    "course.ended": later(
        "Say that it failed or was cleared, and on which day: its ground is free from then."
    ),
    "course.anew": later("It failed and is sown again: the first sowing stays in your records."),
    "covers.which": later(
        "A planting can have several covers, one after the other. The fields below are of this one."
    ),
    "covers.kind": later(
        "What lies over it or stands around it: against cold, against insects, against the sun."
    ),
    "covers.first": later("The day on which the cover is laid. Left empty, it is worked out."),
    "covers.last": later("The day on which the cover comes off. Left empty, it is worked out."),
    "covers.held": later(
        "On hoops it needs more cloth and stays off the leaves; flat it lies on the plants."
    ),
    "covers.height": later("How high the hoops are. Left empty, as high as the plants grow."),
    "covers.weight": later("Heavier fleece keeps off more frost and takes more light."),
    "covers.mesh": later("How wide the holes of the net are: what it keeps off depends on it."),
    "covers.add": later("One more cover for the same plants, on other days."),
    "support": later("What it climbs on or is tied to. What you have to buy and build is counted."),
    "support_height": later("How high it is above the ground."),
    "lines": later("How many lines of posts, netting or wire there are. Left empty, one a row."),
    "lines_apart": later("From one line of the support to the next."),
    "sides": later("Whether plants grow on one side of the support, or on both."),
    "offset": later("From the line of the support to the plants beside it."),
    "tended": later("Who looks after it. The work of the week can be printed for each person."),
    "notes": later("Whatever you want to remember. It is printed on the sheet of the bed."),
}
#: Of the states in which something is planted: what all of them have in common.
STATE = later("How far on it is when it goes into the ground: further on, it is picked earlier.")


def explain_planting_fields(form: object, states: Iterable[Explained]) -> None:
    """Let every field of the form of a planting say what it means.

    Parameters
    ----------
    form : object
        Has the fields of :data:`TIPS` by their names.
    states : iterable of Explained
        Its fields for the state in which something is planted.
    """
    for name in TIPS:
        field: Explained = attrgetter(name)(form)
        field.explain(say(TIPS[name]))
    for field in states:
        field.explain(say(STATE))
