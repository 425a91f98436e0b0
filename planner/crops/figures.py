"""Figures of the catalogue, each with its source.

There are six kinds: a number (:class:`Figure`), a word (:class:`Fact`), a yes or no (:class:`Flag`), several
words (:class:`Words`), several numbers (:class:`Numbers`) and a table over temperature (:class:`Series`).  A figure without meaning for a crop
has ``applies = false`` and a note; an unknown one is absent from the crop.
"""

from __future__ import annotations

from typing import Literal, Self

from pydantic import BaseModel, ConfigDict, model_validator

#: Source keys without a publication: common practice, and our own estimate.
PRACTICE = "practice"
ESTIMATE = "estimate"
#: With its years, the key of the source of figures that follow from a garden's own records.
THIS_GARDEN = "this garden"


#: How a figure came about: its source prints it; it was chosen inside a printed range; it was reckoned from print, with
#: the reckoning in the note; or it is one of the two kinds without a publication.
Basis = Literal["printed", "chosen", "derived", "practice", "estimate"]
#: The same of a figure as it stands in the catalogue: one from memory is an estimate.
Provenance = Literal["printed", "chosen", "derived", "practice", "estimate", "missing", "does not apply"]


class Value(BaseModel):
    """Base class of all catalogue values: frozen, without unknown fields."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Origin(Value):
    """Base class of all figures: source, note, and whether the field applies.

    Attributes
    ----------
    source : str or None
        Key into ``resources/sources.toml``; ``practice`` for common practice without a source,
        ``estimate`` for our own.  None only if the field does not apply.
    recalled : bool
        The figure was recalled from memory and not looked up in the source.
    basis : str or None
        How it came about; where it is None, a publication prints it.
    note : str or None
        Reason for the value, if the source gives a range or the value is outside of it; the reckoning of a derived one.
    applies : bool
        False if the field has no meaning for the crop; ``note`` then gives the reason.
    """

    source: str | None = None
    recalled: bool = False
    basis: Basis | None = None
    note: str | None = None
    applies: bool = True

    def _has_value(self) -> bool:
        raise NotImplementedError

    @model_validator(mode="after")
    def _checked(self) -> Self:
        self._check()
        return self

    def _check(self) -> None:
        """Refuse what does not go together; one call a figure, because the catalogue has ten thousand."""
        source, basis = self.source, self.basis
        if self.applies:
            if not self._has_value():
                raise ValueError("has no value; give one, or applies = false with a note")
            if not source:
                raise ValueError("has no source key")
        elif self._has_value():
            raise ValueError("says it does not apply, yet has a value")
        elif not self.note:
            raise ValueError("says it does not apply without a note that says why")
        if basis is not None and basis != "printed" and basis != "chosen":
            if basis == "derived":
                if not self.note:
                    raise ValueError("is derived without a note that gives the reckoning")
            elif source != basis:
                raise ValueError(f"its basis is {basis}, yet it names a source")

    @property
    def provenance(self) -> Provenance:
        """How the figure came about; one from memory is an estimate, whatever its source."""
        if not self.applies:
            return "does not apply"
        if self.source == PRACTICE:
            return "practice"
        if self.source == ESTIMATE or self.recalled:
            return "estimate"
        return self.basis or "printed"


class Reading(Value):
    """Value of the same figure in a second source."""

    value: float | None = None
    low: float | None = None
    high: float | None = None
    source: str
    recalled: bool = False
    note: str | None = None


class Figure(Origin):
    """A number in SI units, with the range its source prints.

    Attributes
    ----------
    value : float or None
    low, high : float or None
        Range of the source; None if it prints a single number.
    other : tuple of Reading
        Values of further sources.
    """

    value: float | None = None
    low: float | None = None
    high: float | None = None
    other: tuple[Reading, ...] = ()

    def _has_value(self) -> bool:
        return self.value is not None

    @property
    def least(self) -> float | None:
        """Least number that any of its sources gives; None if the field does not apply.

        Examples
        --------
        >>> Figure(value=80, low=78, source="a", other=(Reading(low=60, high=90, source="b"),)).least
        60.0
        """
        numbers = [self.value, self.low, *(number for one in self.other for number in (one.value, one.low))]
        return min((number for number in numbers if number is not None), default=None)

    def _check(self) -> None:
        super()._check()
        value, low, high = self.value, self.low, self.high
        if low is None and high is None:
            return
        if low is not None and high is not None and low > high:
            raise ValueError(f"impossible range: low {low:g} is above high {high:g}")
        outside = value is not None and (
            (low is not None and value < low - 1e-9 * max(1.0, abs(low)))
            or (high is not None and value > high + 1e-9 * max(1.0, abs(high)))
        )
        if outside and not self.note:
            raise ValueError(f"value {value:g} leaves its source's range without a note that says why")


class Fact(Origin):
    """A word."""

    value: str | None = None

    def _has_value(self) -> bool:
        return self.value is not None


class Flag(Origin):
    """A yes or no."""

    value: bool | None = None

    def _has_value(self) -> bool:
        return self.value is not None


class Words(Origin):
    """Several words."""

    value: tuple[str, ...] = ()

    def _has_value(self) -> bool:
        return bool(self.value)


class Numbers(Origin):
    """Several numbers in a given order."""

    values: tuple[float, ...] = ()

    def _has_value(self) -> bool:
        return bool(self.values)


class Series(Origin):
    """Values over soil temperature.

    Attributes
    ----------
    at : tuple of (float, float)
        Pairs of temperature [deg C] and value, rising in temperature.
    none_at : tuple of float
        Temperatures at which the source found no germination. [deg C]
    """

    at: tuple[tuple[float, float], ...] = ()
    none_at: tuple[float, ...] = ()

    def _has_value(self) -> bool:
        return bool(self.at)

    @model_validator(mode="after")
    def _rising(self) -> Self:
        temperatures = [t for t, _ in self.at]
        if temperatures != sorted(set(temperatures)):
            raise ValueError("temperatures must rise from entry to entry")
        return self
