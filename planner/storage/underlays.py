"""The file of the picture under the plan: referred to and found, within limits; never copied or changed."""

from __future__ import annotations

import os
from pathlib import Path

from planner.garden.records import Photograph
from planner.garden.underlay import Underlay
from planner.storage.photographs import SUFFIXES, PhotographError, PhotographFinder, file_digest, path_from
from planner.words import say

#: What is read, by the end of its name.
PICTURES, DRAWINGS, DOCUMENTS = (".png", ".jpg", ".jpeg"), (".svg",), (".pdf",)


def refer_to_underlay(garden_file: Path, path: Path) -> dict[str, str]:
    """Path and hash of a file to lay under the plan.

    Raises
    ------
    PhotographError
        Where it lies outside of the garden file's folder, is of another kind, or is too large.
    """
    if path.suffix.casefold() not in (*PICTURES, *DRAWINGS, *DOCUMENTS):
        raise PhotographError(
            say("{file} cannot be laid under the plan", file=path.name),
            str(path.parent),
            say("Choose a PNG, JPEG, SVG or PDF"),
        )
    return {"path": path_from(garden_file, path), "sha256": file_digest(path)}


def find_underlay(garden_file: Path, underlay: Underlay) -> tuple[Path | None, str]:
    """Where the file of an underlay is, and in a line what is not as the garden has it.

    Parameters
    ----------
    garden_file : Path
    underlay : Underlay
    """
    at = Path(os.path.abspath(garden_file)).parent.joinpath(*underlay.path.split("/"))
    if at.suffix.casefold() in SUFFIXES:
        return PhotographFinder(garden_file).find(Photograph(path=underlay.path, sha256=underlay.sha256))
    if ".." in underlay.path.split("/") or not at.is_file():
        return None, say("{file} is missing", file=underlay.path)
    if file_digest(at) != underlay.sha256:
        return at, say("{file} was changed since it was added", file=at.name)
    return at, ""
