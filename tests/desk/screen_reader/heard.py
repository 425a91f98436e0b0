"""What a screen reader finds of the window: run by a Python that has ``gi``, prints one line of JSON, then what is announced.

Speaks AT-SPI alone, as any screen reader of Linux, and knows nothing of the program.
"""

from __future__ import annotations

import json
import sys
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402  # after the version is chosen

#: Longest wait for the program, and for announcements. [s]
PATIENCE = 40
#: So many children of a list or a table are looked at.
MOST = 40
STATES = {
    "focusable": Atspi.StateType.FOCUSABLE,
    "showing": Atspi.StateType.SHOWING,
    "checkable": Atspi.StateType.CHECKABLE,
    "checked": Atspi.StateType.CHECKED,
    "editable": Atspi.StateType.EDITABLE,
    "enabled": Atspi.StateType.ENABLED,
}


def program() -> Atspi.Accessible:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        desktop = Atspi.get_desktop(0)
        for number in range(desktop.get_child_count()):
            found = desktop.get_child_at_index(number)
            if found is not None and found.get_name() == "Bedwright" and found.get_child_count():
                return found
        time.sleep(0.1)
    sys.exit("the program did not come")


def told(node: Atspi.Accessible) -> dict[str, object]:
    states = node.get_state_set()
    role = node.get_role_name()
    found: dict[str, object] = {
        "role": role,
        "name": node.get_name(),
        "description": node.get_description(),
        "states": [name for name, state in STATES.items() if states.contains(state)],
    }
    if role in ("text", "combo box", "label") and node.get_text_iface() is not None:
        text = node.get_text_iface()
        found["text"] = Atspi.Text.get_text(text, 0, Atspi.Text.get_character_count(text))
    if role == "spin button" and node.get_value_iface() is not None:
        found["value"] = node.get_value_iface().get_current_value()
    return found


def walk(node: Atspi.Accessible | None, into: list[dict[str, object]], depth: int = 0) -> None:
    if node is None:
        return
    found = told(node)
    into.append({**found, "depth": depth})
    if depth and "showing" not in found["states"] and found["role"] not in ("application", "frame"):
        return
    for number in range(min(node.get_child_count(), MOST)):
        walk(node.get_child_at_index(number), into, depth + 1)


def main() -> None:
    last = sys.argv[1]  # words of the announcement that is waited for
    Atspi.init()
    found: list[dict[str, object]] = []
    heard: list[str] = []

    def hear(event: Atspi.Event) -> None:
        heard.append(event.any_data)
        if last in event.any_data:
            Atspi.event_quit()

    listener = Atspi.EventListener.new(hear)
    Atspi.EventListener.register(listener, "object:announcement")
    walk(program(), found)
    print(json.dumps(found), flush=True)
    GLib.timeout_add_seconds(PATIENCE, Atspi.event_quit)
    Atspi.event_main()
    print(json.dumps(heard), flush=True)


main()
