"""Sentences about each kind of support."""

from __future__ import annotations

from planner.garden.planting import SupportKind
from planner.words import later

#: What would hold a planting without a support.
WOULD_HOLD: dict[SupportKind, str] = {
    "sticks": later("pea sticks would hold it"),
    "stake": later("a stake each would hold it"),
    "cage": later("a cage each would hold it"),
    "net": later("a net would hold it"),
    "frame": later("a frame would hold it"),
    "arch": later("an arch would hold it"),
    "tower": later("a tower would hold it"),
    "wire": later("wires would hold it"),
    "strings": later("strings from a rail would hold it"),
    "panel": later("a panel would hold it"),
}
#: Supports that some climbers cannot hold on to.
CANNOT_HOLD_ON: dict[SupportKind, str] = {
    "stake": later("{planting} cannot hold on to a stake"),
    "cage": later("{planting} cannot hold on to a cage"),
    "tower": later("{planting} cannot hold on to a tower"),
}
#: What such a climber holds on to.
CLIMBS: dict[SupportKind, str] = {
    "sticks": later("it climbs pea sticks"),
    "stake": later("it climbs a stake each"),
    "cage": later("it climbs a cage each"),
    "net": later("it climbs a net"),
    "frame": later("it climbs a frame"),
    "arch": later("it climbs an arch"),
    "tower": later("it climbs a tower"),
    "wire": later("it climbs wires"),
    "strings": later("it climbs strings from a rail"),
    "panel": later("it climbs a panel"),
}
#: Supports that are lower than their plants.
TOO_LOW: dict[SupportKind, str] = {
    "sticks": later("{planting} grows {height} high and its pea sticks only reach {support}"),
    "stake": later("{planting} grows {height} high and its stake only reaches {support}"),
    "cage": later("{planting} grows {height} high and its cage only reaches {support}"),
    "net": later("{planting} grows {height} high and its net only reaches {support}"),
    "frame": later("{planting} grows {height} high and its A-frame only reaches {support}"),
    "arch": later("{planting} grows {height} high and its arch only reaches {support}"),
    "tower": later("{planting} grows {height} high and its tower only reaches {support}"),
    "wire": later("{planting} grows {height} high and its wires only reaches {support}"),
    "strings": later("{planting} grows {height} high and its strings only reach {support}"),
    "panel": later("{planting} grows {height} high and its panel only reaches {support}"),
}
#: Fixes that give a planting a support.
GIVE: dict[SupportKind, str] = {
    "sticks": later("Give it pea sticks, {height} high"),
    "stake": later("Give it a stake each, {height} high"),
    "cage": later("Give it a cage each, {height} high"),
    "net": later("Give it a net, {height} high"),
    "frame": later("Give it a frame, {height} high"),
    "arch": later("Give it an arch, {height} high"),
    "tower": later("Give it a tower, {height} high"),
    "wire": later("Give it wires, {height} high"),
    "strings": later("Give it strings from a rail, {height} high"),
    "panel": later("Give it a panel, {height} high"),
}
#: Fixes that change the kind of support.
PUT_UP: dict[SupportKind, str] = {
    "sticks": later("Put up pea sticks instead"),
    "stake": later("Put up a stake each instead"),
    "cage": later("Put up a cage each instead"),
    "net": later("Put up a net instead"),
    "frame": later("Put up a frame instead"),
    "arch": later("Put up an arch instead"),
    "tower": later("Put up a tower instead"),
    "wire": later("Put up wires instead"),
    "strings": later("Put up strings from a rail instead"),
    "panel": later("Put up a panel instead"),
}
