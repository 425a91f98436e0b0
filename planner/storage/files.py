"""Reading and writing garden files.

A garden file is JSON in UTF-8: ``"format": "bedwright garden"``, the schema's number, and the
fields of :class:`planner.garden.Garden`; what is left at its default is left out.
"""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from planner.errors import BedwrightError
from planner.garden import Garden
from planner.storage.text import readable

FORMAT = "bedwright garden"
SCHEMA = 1
#: Largest file that is read. [bytes]
LARGEST = 64 * 1024 * 1024
#: Most faults named in one message.
MOST_FAULTS = 5


class FileError(BedwrightError):
    """A garden file that cannot be read or written."""


def load(path: str | os.PathLike[str]) -> Garden:
    """Read a garden file.

    Raises
    ------
    FileError
        Missing, unreadable, too large, damaged, of a newer program, or not a garden.
    """
    file = Path(path)
    try:
        size = file.stat().st_size
        if file.is_dir():
            raise FileError("is a folder, not a garden file", str(file), "Name a file in it")
        if size > LARGEST:
            raise FileError(
                f"has {size / 1e6:.0f} MB; garden files are read up to {LARGEST / 1e6:.0f} MB",
                str(file),
                "Check that it is a garden file",
            )
        data = file.read_bytes()
    except FileNotFoundError:
        raise FileError("there is no such file", str(file), "Check the name and the folder") from None
    except OSError as error:
        raise FileError(f"cannot be read: {error.strerror}", str(file), "Check its permissions") from None
    return parse(data, str(file))


def parse(data: bytes | str, where: str = "garden") -> Garden:
    """The garden of a file's content.

    Raises
    ------
    FileError
        Names the place of every fault, up to a few.
    """
    document = _json(data, where)
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise FileError("is not a garden file", where, f'A garden file begins with "format": "{FORMAT}"')
    number = document.get("schema")
    if not isinstance(number, int) or isinstance(number, bool) or number < 1:
        raise FileError("has no schema number", where, f'Write "schema": {SCHEMA}')
    if number > SCHEMA:
        raise FileError(
            f"was written by a newer Bedwright (schema {number}; this one reads up to {SCHEMA})",
            where,
            "Open it with that version, or update this one",
        )
    fields = {key: value for key, value in document.items() if key not in ("format", "schema", "$schema")}
    try:
        return Garden.model_validate_json(json.dumps(fields))
    except (ValidationError, ValueError) as error:
        raise FileError(
            _faults(error), where, "Mend it in a text editor; the file is left as it is"
        ) from None


def _json(data: bytes | str, where: str) -> Any:
    try:
        text = data.decode("utf-8-sig") if isinstance(data, bytes) else data
        return json.loads(text, parse_constant=_no_constant)
    except UnicodeDecodeError as error:
        raise FileError(f"is not UTF-8 text (byte {error.start})", where, "Use an undamaged copy") from None
    except json.JSONDecodeError as error:
        raise FileError(
            f"is damaged at line {error.lineno}, column {error.colno}: {error.msg}",
            where,
            "Use an undamaged copy; the file is left as it is",
        ) from None
    except ValueError as error:
        raise FileError(str(error), where, "Write a finite number") from None
    except RecursionError:
        raise FileError("is nested too deeply", where, "Use an undamaged copy") from None


def _no_constant(name: str) -> float:
    raise ValueError(f"holds {name}, which is no number")


def _faults(error: ValidationError | ValueError) -> str:
    if not isinstance(error, ValidationError):
        return str(error)
    faults = error.errors(include_url=False, include_context=False)
    lines = [f"{place(fault['loc'])}: {fault['msg'].removeprefix('Value error, ')}" for fault in faults]
    more = f"; and {len(lines) - MOST_FAULTS} more" if len(lines) > MOST_FAULTS else ""
    return "; ".join(lines[:MOST_FAULTS]) + more


def place(location: tuple[int | str, ...]) -> str:
    """A fault's place as ``beds[3].outline.length``."""
    text = ""
    for part in location:
        text += f"[{part}]" if isinstance(part, int) else f".{part}"
    return text.lstrip(".") or "the garden"


def dump(garden: Garden) -> str:
    """The text of a garden's file."""
    fields = garden.model_dump(mode="json", exclude_defaults=True)
    _keep_tags(garden, fields)
    return readable({"format": FORMAT, "schema": SCHEMA, **fields})


def _keep_tags(garden: Garden, fields: dict[str, Any]) -> None:
    """Put back the words that tell one shape from another, which are defaults of their models."""
    if garden.site.outline is not None:
        fields["site"]["outline"]["shape"] = garden.site.outline.shape
    for name in ("beds", "structures"):
        for thing, table in zip(getattr(garden, name), fields.get(name, ()), strict=True):
            table["outline"]["shape"] = thing.outline.shape
    for planting, table in zip(garden.plantings, fields.get("plantings", ()), strict=True):
        for name in ("plot", "arrangement"):
            if name in table:
                table[name]["kind"] = getattr(planting, name).kind


def save(garden: Garden, path: str | os.PathLike[str]) -> None:
    """Write a garden file so that at every moment either the old or the new one is there.

    A temporary file in the same folder is written, flushed and synced, then put in the place of
    the old one, and the folder is synced.

    Raises
    ------
    FileError
        When it cannot be written; the old file is untouched.
    """
    file = Path(path)
    target = file.resolve() if file.is_symlink() else file
    text = dump(garden).encode("utf-8")
    temporary = None
    try:
        if target.is_dir():
            raise FileError("is a folder", str(file), "Name a file in it")
        mode = target.stat().st_mode & 0o777 if target.exists() else None
        handle, temporary = tempfile.mkstemp(
            prefix=f".{target.name[:60]}.", suffix=".part", dir=target.parent
        )
        with os.fdopen(handle, "wb") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(temporary, mode if mode is not None else 0o666 & ~_umask())
        os.replace(temporary, target)
        temporary = None
        _sync_folder(target.parent)
    except OSError as error:
        raise FileError(
            f"could not be saved: {error.strerror or error}", str(file), "Save it under another name or place"
        ) from None
    finally:
        if temporary is not None:
            with contextlib.suppress(OSError):
                os.unlink(temporary)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _sync_folder(folder: Path) -> None:
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def garden_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of a garden file."""
    schema = Garden.model_json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "Bedwright garden file"
    schema["properties"] = {
        "$schema": {"type": "string"},
        "format": {"const": FORMAT},
        "schema": {"type": "integer", "minimum": 1, "maximum": SCHEMA},
        **schema["properties"],
    }
    schema["required"] = ["format", "schema"]
    for model in schema["$defs"].values():  # the word that tells one shape from another must be there
        tags = [name for name, field in model.get("properties", {}).items() if "const" in field]
        model["required"] = sorted({*model.get("required", ()), *tags})
    return schema
