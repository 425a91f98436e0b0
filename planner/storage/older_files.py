"""Fields that files of earlier versions hold, turned into those of today."""

from __future__ import annotations

from typing import Any


def as_of_today(fields: dict[str, Any]) -> dict[str, Any]:
    """The fields of a garden file without those that are no more, and with today's names for others.

    - ``climate.by_heat`` chose whether ripening follows the warmth: it always does.
    - A variety's ``heat`` is its ``heat_to_harvest``.

    What is not of the expected shape is left as it is; the models say what is wrong with it.

    Parameters
    ----------
    fields : dict
        Fields of a garden as JSON holds them.
    """
    climate, varieties = fields.get("climate"), fields.get("varieties")
    if isinstance(climate, dict) and "by_heat" in climate:
        fields = {**fields, "climate": {name: value for name, value in climate.items() if name != "by_heat"}}
    if isinstance(varieties, list):
        fields = {**fields, "varieties": [_renamed(variety) for variety in varieties]}
    return fields


def _renamed(variety: Any) -> Any:
    figures = variety.get("figures") if isinstance(variety, dict) else None
    if not isinstance(figures, list):
        return variety
    old = [isinstance(one, dict) and one.get("field") == "heat" for one in figures]
    if not any(old):
        return variety
    new = [
        {**one, "field": "heat_to_harvest"} if is_old else one
        for one, is_old in zip(figures, old, strict=True)
    ]
    return {**variety, "figures": new}
