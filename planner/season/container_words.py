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


#: Eighths of a tray.
_EIGHTHS = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")


def filled_words(container: Container, number: int, units: UnitSystem) -> str:
    """What plants or seeds take of their containers.

    ``18 cells of a tray of 392``, ``67 cells of 2 trays of 50``, ``¼ of a seed tray``, ``15 pots of 9 cm``; a tray that is
    filled by them alone is ``1 tray of 128``.

    Parameters
    ----------
    container : Container
    number : int
        Plants, or seeds that are sown.
    units : {"metric", "feet_inches"}
    """
    if container.kind == "seed tray":
        whole, eighths = divmod(-(-8 * number // container.per_tray), 8)
        if not eighths:
            return say_count("{count} seed tray", "{count} seed trays", whole)
        part = _EIGHTHS[eighths]
        if not whole:
            return say("{part} of a seed tray", part=part)
        return say("{count}{part} seed trays", count=whole, part=part)
    if container.kind == "cells":
        each = container.per_tray
        if number % each:
            return say_count(
                "{used} of a tray of {cells}",
                "{used} of {count} trays of {cells}",
                container.trays(number),
                used=say_count("{count} cell", "{count} cells", number),
                cells=each,
            )
        return say_count("{count} tray of {cells}", "{count} trays of {cells}", number // each, cells=each)
    width = show_spacing(container.width, units)
    return (
        say_count("{count} pot of {width}", "{count} pots of {width}", number, width=width)
        if container.kind == "pots"
        else say_count("{count} block of {width}", "{count} blocks of {width}", number, width=width)
    )


def number_in_use_words(container: Container, number: int, units: UnitSystem) -> str:
    """So many trays of a container: ``3 trays of 128``, ``2 seed trays``, ``4 trays with pots of 9 cm``.

    Parameters
    ----------
    container : Container
    number : int
        Trays.
    units : {"metric", "feet_inches"}
    """
    if container.kind in ("seed tray", "cells"):
        return filled_words(container, number * container.per_tray, units)
    return say_count(
        "{count} tray with {containers}",
        "{count} trays with {containers}",
        number,
        containers=container_words(container, units),
    )
