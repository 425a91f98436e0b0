"""How much of a wish is met, in words, and why the rest of it is not."""

from __future__ import annotations

from collections.abc import Iterator

from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length, show_mass
from planner.garden.wishes import Wish
from planner.proposal.in_part import Met
from planner.words import say, say_count


def met_words(wish: Wish, met: Met, units: UnitSystem) -> str:
    """How much of a wish is met: ``12 of 20 plants``.

    Parameters
    ----------
    wish : Wish
    met : Met
    units : str
        Of the garden.
    """
    if wish.unit == "plants" or wish.amount is None:
        return say_count(
            "{there} of {count} plant", "{there} of {count} plants", round(met.wanted), there=round(met.there)
        )
    show = {"m": show_length, "m2": show_area}.get(wish.unit, show_mass)
    words = say("{there} of {all}", there=show(met.there, units), all=show(met.wanted, units))
    return say("{lengths} of row", lengths=words) if wish.unit == "m" else words


def part_line(wish: Wish, met: Met, units: UnitSystem) -> Iterator[str]:
    """That a wish is met in part only; nothing where all of it turns out to be there.

    Parameters
    ----------
    wish : Wish
    met : Met
    units : str
    """
    if met.share < 1 - 1e-9:
        yield say("{amount}: there is no room for more beside the others", amount=met_words(wish, met, units))
