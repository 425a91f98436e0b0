"""Read the catalogue from ``resources/crops/*.toml`` and look crops up by key or name."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from planner import resources
from planner.crops.crop import Crop, English
from planner.crops.figures import ESTIMATE, PRACTICE, THIS_GARDEN, Figure, Origin
from planner.crops.parsed_files import Tables, digest_of, keep_tables, kept_tables
from planner.crops.reading import (
    CatalogueError,
    fault_lines,
    many_values,
    names_given,
    parse_toml,
    read_bytes,
    refuse,
)
from planner.crops.sources import Source
from planner.words import later, say, spoken_language, translated

__all__ = ["Catalogue", "CatalogueError", "load_catalogue"]


#: Titles of what is no publication, as the table of sources has them.
_NO_PUBLICATION = (
    later("Common practice among growers, without a published source"),
    later("Our own estimate, or a figure from memory"),
    later("Plain geometry, no outside source"),
)


@dataclass(frozen=True)
class Catalogue:
    """All crops and all sources.

    Attributes
    ----------
    crops : mapping of str to Crop
        By key, in alphabetical order of the names, whatever their case.
    sources : mapping of str to Source
        By key.
    files : mapping of str to str
        Name of the file that holds each crop, by the crop's key; empty if not read from files.
    folder : Path or None
        Folder it was read from.
    own, by_words : list, dict
        Kept for :mod:`planner.garden.own_catalogue`: this catalogue with the crops of gardens, and crops with the words
        of varieties.
    """

    crops: Mapping[str, Crop]
    sources: Mapping[str, Source]
    files: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    folder: Path | None = field(default=None, repr=False, compare=False)
    _by_name: dict[str, str] = field(default_factory=dict, repr=False, compare=False)
    _british: Catalogue | None = field(default=None, repr=False, compare=False)
    _grown: dict[tuple[str, str], Crop] = field(default_factory=dict, repr=False, compare=False)
    _in_others: dict[str, Catalogue] = field(default_factory=dict, repr=False, compare=False)
    own: list[tuple[Any, Catalogue]] = field(default_factory=list, repr=False, compare=False)
    by_words: dict[Any, tuple[Crop, Crop]] = field(default_factory=dict, repr=False, compare=False)

    def __post_init__(self) -> None:
        for crop in self.crops.values():
            for name in (crop.key, crop.name, crop.latin, *crop.also):
                self._by_name.setdefault(name.casefold(), crop.key)

    def get(self, key: str) -> Crop | None:
        """The crop of this key, or None."""
        return self.crops.get(key)

    def grown_for(self, key: str, product: str) -> Crop | None:
        """The crop of a key with the figures of one of its products, the same value every time; None if there is none.

        Parameters
        ----------
        key : str
        product : str
            Empty for the crop's own.
        """
        crop = self.crops.get(key)
        if crop is None or not product:
            return crop
        return self._grown.setdefault((key, product), crop.grown_for(product))

    def name_of(self, key: str) -> str:
        """The name of the crop of this key; the key itself where there is none."""
        crop = self.crops.get(key)
        return crop.name if crop is not None else key

    def named(self, name: str) -> Crop | None:
        """The crop with exactly this key, common or Latin name, whatever its case; None if there is none."""
        key = self._by_name.get(name.strip().casefold())
        return self.crops[key] if key else None

    def in_english(self, english: English) -> Catalogue:
        """This catalogue with the names of one English, the same one every time.

        Parameters
        ----------
        english : {"british", "american"}
        """
        british = self._british or self
        return british if english == "british" else british._with_names("american")

    def in_words(self, english: English) -> Catalogue:
        """This catalogue with the names of the language that the program speaks, the same one every time.

        Parameters
        ----------
        english : {"british", "american"}
            Which English, where it speaks that.
        """
        british = self._british or self
        return british._with_names("german") if spoken_language() == "de" else self.in_english(english)

    def _with_names(self, field: str) -> Catalogue:
        """This catalogue with the names of a field of its crops, ``american`` or ``german``."""
        if field not in self._in_others:
            crops = (crop.under_name(field) for crop in self.crops.values())
            by_name = _in_order_of_names({crop.key: crop for crop in crops})
            made = Catalogue(by_name, self.sources, self.files, self.folder, _british=self)
            self._in_others.setdefault(field, made)
        return self._in_others[field]  # the first, where two threads made one

    def with_own(self, crops: Mapping[str, Crop], sources: Mapping[str, Source]) -> Catalogue:
        """This catalogue and some more crops and sources; its own come first where keys are the same.

        Parameters
        ----------
        crops : mapping of str to Crop
        sources : mapping of str to Source
        """
        merged = _in_order_of_names({**crops, **self.crops})
        british = self._british or self
        return Catalogue(merged, {**sources, **self.sources}, self.files, self.folder, _british=british)

    def source_line(self, key: str) -> str:
        """Citation of the source with this key."""
        line = self.sources[key].citation if key in self.sources else key
        return translated(line) if line in _NO_PUBLICATION else line

    def source_in_brief(self, key: str) -> str:
        """The source with this key in a few words, to stand behind a sentence; empty where it is not known."""
        if key in (PRACTICE, ESTIMATE):
            return say("common practice") if key == PRACTICE else say("estimate")
        if key.startswith(THIS_GARDEN):
            years = key.removeprefix(THIS_GARDEN).lstrip(", ")
            return say("this garden, {years}", years=years) if years else say("this garden")
        return self.sources[key].in_brief if key in self.sources else ""


def _in_order_of_names(crops: Mapping[str, Crop]) -> dict[str, Crop]:
    return dict(sorted(crops.items(), key=lambda item: item[1].name.casefold()))


def load_catalogue(folder: Path | None = None) -> Catalogue:
    """Read the catalogue; each folder is read once a process.

    Parameters
    ----------
    folder : Path, optional
        A folder with ``sources.toml`` and ``crops/*.toml``; the shipped one by default.

    Raises
    ------
    CatalogueError
        Names every fault by file, crop and field, in one line.
    """
    return _load(folder if folder is not None else resources.resource())


@lru_cache(maxsize=8)
def _load(folder: Path) -> Catalogue:
    shipped = folder == resources.resource()
    with many_values(keep=shipped):
        return _read(folder, keep=shipped)


def _read(folder: Path, *, keep: bool) -> Catalogue:
    faults: list[str] = []
    tables, doubtful = _tables(folder, faults, keep=keep)
    sources: dict[str, Source] = {}
    for key, table in tables.pop(_SOURCES, {}).items():
        try:
            sources[key] = Source.model_validate(table)
        except ValidationError as error:
            faults.extend(fault_lines(_SOURCES, key, error, "the source"))
    if faults:  # a source that cannot be made is one that is not there
        doubtful = set(tables)
    source_keys = {*sources, PRACTICE, ESTIMATE}
    crops: dict[str, Crop] = {}
    files: dict[str, str] = {}
    if not tables:
        faults.append("crops: the folder is missing or holds no file of a family")
    for name, found in tables.items():
        family = found.get("family")
        if not isinstance(family, str):
            if found:
                faults.append(f'{name}: has no family = "..." at its top')
            continue
        for key, table in found.items():
            if key == "family":
                continue
            crop = _one_crop(name, key, table, family, faults)
            if crop is None:
                continue
            if key in crops:
                faults.append(f"{name}, {key}: the key stands in {crops[key].family} too")
            crops[key] = crop
            files[key] = name
            if name in doubtful:  # which of the file's crops it is
                faults.extend(_unknown_sources(name, crop, source_keys))
    refuse(faults, folder)
    return Catalogue(_in_order_of_names(crops), sources, files, folder)


_SOURCES = "sources.toml"


def _tables(folder: Path, faults: list[str], *, keep: bool) -> tuple[Tables, set[str]]:
    """Tables of the files of a catalogue, and the files that name a source which is not among its sources."""
    contents: dict[str, bytes] = {}
    for path in (folder / _SOURCES, *sorted((folder / "crops").glob("*.toml"))):
        content = read_bytes(path, faults)
        if content is not None:
            contents[path.name] = content
    digest = digest_of(contents) if keep else ""
    kept = kept_tables(digest, list(contents)) if keep else None
    if kept is not None:
        return {name: kept[name] for name in contents}, set()
    tables = {name: parse_toml(name, content, faults) for name, content in contents.items()}
    keys = {*tables.get(_SOURCES, ()), PRACTICE, ESTIMATE}
    doubtful = {name for name, content in contents.items() if not names_given(content, "source") <= keys}
    if keep and not faults and not doubtful:
        keep_tables(digest, tables)
    return tables, doubtful


def _one_crop(file: str, key: str, table: object, family: str, faults: list[str]) -> Crop | None:
    if not isinstance(table, dict):
        faults.append(f"{file}, {key}: must be a table of a crop's fields")
        return None
    try:
        return Crop.model_validate({"key": key, "family": family, **table})
    except ValidationError as error:
        faults.extend(fault_lines(file, key, error, "the crop"))
        return None


def _unknown_sources(file: str, crop: Crop, source_keys: Set[str]) -> list[str]:
    lines = [
        f"{file}, {crop.key}, aftercare '{care.task}': unknown source key '{care.source}'"
        for care in crop.aftercare
        if care.source not in source_keys
    ]
    own = [(name, entry) for name, entry in vars(crop).items() if isinstance(entry, Origin)]
    further = [
        (f"{one.product}.{name}", entry) for one in crop.further_products for name, entry in one.entries()
    ]
    toxic = [(f"toxic '{one.part}'", one) for one in crop.toxic]
    for name, entry in (*own, *further, *toxic):
        keys = [entry.source] if entry.source and entry.source not in source_keys else []
        if isinstance(entry, Figure) and entry.other:
            keys += [reading.source for reading in entry.other if reading.source not in source_keys]
        if keys:
            lines += [f"{file}, {crop.key}, {name}: unknown source key '{key}'" for key in keys]
    return lines
