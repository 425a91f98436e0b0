"""Garden files changed by bytes and by structure: each is read, or refused in one line that names the file."""

from __future__ import annotations

import json
from random import Random
from typing import Any

from fire.gardens import random_garden

from planner.storage import FileError, dump, parse

#: Values that stand where another was.
ODD_VALUES: tuple[Any, ...] = (
    None, True, False, 0, -1, 1e308, 1e-320, 2**63, "", "x" * 300, "\u0000", "\u202e", [], {}, [[]], [None],
    {"": ""}, "2026-02-30", "b1", [0, 0], [[0, 0], [1, 0], [0, 1]], -0.0,
)  # fmt: skip


def bytes_changed(rng: Random) -> str:
    """Change, remove, double or swap bytes of a file."""
    data = bytearray(dump(random_garden(rng, 8)).encode())
    for _ in range(rng.choice((1, 1, 2, 5, 40))):
        at = rng.randrange(len(data))
        match rng.randrange(5):
            case 0:
                data[at] = rng.randrange(256)
            case 1:
                del data[at : at + rng.choice((1, 3, 100))]
            case 2:
                data[at:at] = data[at : at + rng.choice((1, 5, 200))]
            case 3:
                data[at:at] = bytes(rng.randrange(256) for _ in range(3))
            case _:
                del data[at:]
        if not data:
            break
    return read_or_refused(bytes(data))


def structure_changed(rng: Random) -> str:
    """Put odd values, other keys and further copies into a file's tables and lists."""
    document = json.loads(dump(random_garden(rng, 12)))
    change_structure(rng, document)
    return read_or_refused(json.dumps(document).encode("utf-8", "surrogatepass"))


def change_structure(rng: Random, document: Any) -> None:
    """Change tables and lists within what JSON holds, one or a few at random.

    Parameters
    ----------
    rng : Random
    document
        A table or list, not empty; it is changed.
    """
    for _ in range(rng.choice((1, 1, 2, 4))):
        spots = list(_spots(document))
        holder, key = rng.choice(spots)
        match rng.randrange(4):
            case 0:
                holder[key] = rng.choice(ODD_VALUES)
            case 1:
                del holder[key]
            case 2 if isinstance(holder, list):
                holder.append(holder[key])
            case 3:
                other, spot = rng.choice(spots)
                holder[key] = json.loads(json.dumps(other[spot]))
            case _:
                holder[key] = [holder[key]]
        if not list(_spots(document)):
            break


def _spots(value: Any) -> Any:
    keys = list(value) if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ()
    for key in keys:
        yield value, key
        yield from _spots(value[key])


def read_or_refused(data: bytes) -> str:
    """Read a garden file; what went wrong, empty where it was read or refused in one line.

    Parameters
    ----------
    data : bytes
    """
    try:
        garden = parse(data, "plot.bedwright")
    except FileError as error:
        line = str(error)
        if "\n" in line or not line.startswith("plot.bedwright: "):
            return f"an error that is no line: {line!r}"
        if len(line) > 2_500:
            return f"an error of {len(line)} signs"
        line.encode()
        return ""
    if parse(dump(garden)) != garden:
        return "what was read is another garden when it is saved"
    return ""


ATTACKS = {"files changed by bytes": bytes_changed, "files changed by structure": structure_changed}
