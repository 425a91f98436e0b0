"""What plants are raised in, in words."""

from __future__ import annotations

from planner.crops.containers import Container
from planner.garden.site import UnitSystem
from planner.garden.units import show_spacing
from planner.words import say, say_count


def container_words(container: Container, units: UnitSystem) -> str:
    """Name a container: ``tray of 128``, ``pots of 9 cm``, ``blocks of 2 in``, ``seed tray``."""
    if container.kind == "seed tray":
        return say("seed tray")
    if container.kind == "cells":
        return say("tray of {cells}", cells=container.per_tray)
    width = show_spacing(container.width, units)
    return (
        say("pots of {width}", width=width)
        if container.kind == "pots"
        else say("blocks of {width}", width=width)
    )


def filled_words(container: Container, number: int, units: UnitSystem) -> str:
    """As many containers as plants or seeds need: ``1 tray of 128``, ``2 seed trays``, ``15 pots of 9 cm``.

    Parameters
    ----------
    container : Container
    number : int
        Plants, or seeds that are sown.
    units : {"metric", "feet_inches"}
    """
    if container.kind == "seed tray":
        return say_count("{count} seed tray", "{count} seed trays", container.trays(number))
    if container.kind == "cells":
        return say_count(
            "{count} tray of {cells}",
            "{count} trays of {cells}",
            container.trays(number),
            cells=container.per_tray,
        )
    width = show_spacing(container.width, units)
    return (
        say_count("{count} pot of {width}", "{count} pots of {width}", number, width=width)
        if container.kind == "pots"
        else say_count("{count} block of {width}", "{count} blocks of {width}", number, width=width)
    )
