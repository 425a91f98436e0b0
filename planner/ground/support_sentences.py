"""Sentences about the place of each kind of support."""

from __future__ import annotations

from planner.garden.planting import SupportKind
from planner.words import later

ACROSS: dict[SupportKind, str] = {
    "sticks": later("The row of sticks stands across a path; end it at the bed's edge, or use an arch"),
    "stake": later("The stake stands across a path; end it at the bed's edge, or use an arch"),
    "cage": later("The cage stands across a path; end it at the bed's edge, or use an arch"),
    "net": later("The net stands across a path; end it at the bed's edge, or use an arch"),
    "frame": later("The A-frame stands across a path; end it at the bed's edge, or use an arch"),
    "tower": later("The tower stands across a path; end it at the bed's edge, or use an arch"),
    "wire": later("The row of wires stands across a path; end it at the bed's edge, or use an arch"),
    "strings": later("The rail with strings stands across a path; end it at the bed's edge, or use an arch"),
    "panel": later("The panel stands across a path; end it at the bed's edge, or use an arch"),
}
LONGER: dict[SupportKind, str] = {
    "sticks": later("The row of sticks is {length} long and its bed {room}; shorten it by {excess}"),
    "stake": later("The stake is {length} long and its bed {room}; shorten it by {excess}"),
    "cage": later("The cage is {length} long and its bed {room}; shorten it by {excess}"),
    "net": later("The net is {length} long and its bed {room}; shorten it by {excess}"),
    "frame": later("The A-frame is {length} long and its bed {room}; shorten it by {excess}"),
    "tower": later("The tower is {length} long and its bed {room}; shorten it by {excess}"),
    "wire": later("The row of wires is {length} long and its bed {room}; shorten it by {excess}"),
    "strings": later("The rail with strings is {length} long and its bed {room}; shorten it by {excess}"),
    "panel": later("The panel is {length} long and its bed {room}; shorten it by {excess}"),
}
OUTSIDE: dict[SupportKind, str] = {
    "sticks": later("{area} of the row of sticks stand outside its bed; move or narrow it"),
    "stake": later("{area} of the stake stand outside its bed; move or narrow it"),
    "cage": later("{area} of the cage stand outside its bed; move or narrow it"),
    "net": later("{area} of the net stand outside its bed; move or narrow it"),
    "frame": later("{area} of the A-frame stand outside its bed; move or narrow it"),
    "arch": later("{area} of the arch stand outside its bed; move or narrow it"),
    "tower": later("{area} of the tower stand outside its bed; move or narrow it"),
    "wire": later("{area} of the row of wires stand outside its bed; move or narrow it"),
    "strings": later("{area} of the rail with strings stand outside its bed; move or narrow it"),
    "panel": later("{area} of the panel stand outside its bed; move or narrow it"),
}
BESIDE: dict[SupportKind, str] = {
    "sticks": later("The row of sticks leaves {width} of path beside it; {wanted} are wanted"),
    "stake": later("The stake leaves {width} of path beside it; {wanted} are wanted"),
    "cage": later("The cage leaves {width} of path beside it; {wanted} are wanted"),
    "net": later("The net leaves {width} of path beside it; {wanted} are wanted"),
    "frame": later("The A-frame leaves {width} of path beside it; {wanted} are wanted"),
    "arch": later("The arch leaves {width} of path beside it; {wanted} are wanted"),
    "tower": later("The tower leaves {width} of path beside it; {wanted} are wanted"),
    "wire": later("The row of wires leaves {width} of path beside it; {wanted} are wanted"),
    "strings": later("The rail with strings leaves {width} of path beside it; {wanted} are wanted"),
    "panel": later("The panel leaves {width} of path beside it; {wanted} are wanted"),
}
