"""The garden: the whole document."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Annotated, Any, Self

from pydantic import AfterValidator, Field, TypeAdapter, ValidationError, model_validator

from planner.garden.beds import Bed, Structure
from planner.garden.conflicts import PARTS_WITH_IDS, Conflict
from planner.garden.household import Household, StorePlace
from planner.garden.materials import Dressing, ShedItem
from planner.garden.model import Model, Notes, Year, lines
from planner.garden.offers import Offer, PlantingStock
from planner.garden.planting import Planting
from planner.garden.pocket_notes import MOST_REMOVED_NOTES, NOTE_ID
from planner.garden.raising import Bench
from planner.garden.record_index import index_of
from planner.garden.records import Done, Observed, Outcome, Record, RecordBase
from planner.garden.references_after import new_ids
from planner.garden.site import Climate, Site
from planner.garden.soil import Soil
from planner.garden.trials import Trial
from planner.garden.underlay import Underlay
from planner.garden.varieties import Lot, OwnCrop, OwnSource, Variety
from planner.garden.weather_years import WeatherYears
from planner.garden.wishes import Wish
from planner.lazy import lazy_property
from planner.words import say

#: Limits to the number of parts of a document.
MOST_BEDS = 20_000
MOST_STRUCTURES = 5_000
MOST_PLANTINGS = 200_000
MOST_RECORDS = 1_000_000
MOST_BENCHES = 100
MOST_WAIVERS = 10_000
MOST_CONFLICTS = 10_000
MOST_DRESSINGS = 100_000
MOST_OFFERS = 20_000

#: Key of a finding: check, subject, digest of its facts.
FindingKey = Annotated[str, Field(pattern=r"^[a-z ]{1,40}/[A-Za-z0-9_.\-]{1,64}/[0-9a-f]{12}$")]
#: Id of a note from the pocket page.
NoteKey = Annotated[str, Field(pattern=rf"^{NOTE_ID.pattern}$")]


class YearNote(Model):
    """A note on a growing year."""

    year: Year
    text: Notes


def _reason(text: str) -> str:
    return lines(text) or "-"  # of a reason that was nothing but control characters


class Waiver(Model):
    """A finding that was waived, with the reason."""

    finding: FindingKey
    reason: Annotated[str, Field(min_length=1, max_length=2_000), AfterValidator(_reason)]


class Garden(Model):
    """The document: site, climate, beds, structures, plantings of all years, own varieties, stock and records."""

    site: Site = Site()
    climate: Climate = Climate()
    weather: WeatherYears = Field(default=WeatherYears(), description="Recorded years of daily weather.")
    beds: tuple[Bed, ...] = Field(default=(), max_length=MOST_BEDS)
    structures: tuple[Structure, ...] = Field(default=(), max_length=MOST_STRUCTURES)
    plantings: tuple[Planting, ...] = Field(default=(), max_length=MOST_PLANTINGS)
    sources: tuple[OwnSource, ...] = Field(default=(), max_length=10_000)
    crops: tuple[OwnCrop, ...] = Field(
        default=(), max_length=2_000, description="Crops that the catalogue does not have."
    )
    varieties: tuple[Variety, ...] = Field(default=(), max_length=10_000)
    stock: tuple[Lot, ...] = Field(default=(), max_length=10_000)
    planting_stock: tuple[PlantingStock, ...] = Field(
        default=(), max_length=10_000, description="Sets, tubers, cloves, crowns and plants got for a year."
    )
    offers: tuple[Offer, ...] = Field(
        default=(),
        max_length=MOST_OFFERS,
        description="Packets of seed and packs of planting stock that can be bought.",
    )
    benches: tuple[Bench, ...] = Field(
        default=(), max_length=MOST_BENCHES, description="Benches on which plants are raised."
    )
    dressings: tuple[Dressing, ...] = Field(
        default=(), max_length=MOST_DRESSINGS, description="Compost, mulch, feed and lime spread on beds."
    )
    shed: tuple[ShedItem, ...] = Field(
        default=(), max_length=10_000, description="Material on hand, and sizes in which it is sold."
    )
    household: Household = Household()
    underlay: Underlay = Field(default=Underlay(), description="A picture under the plan.")
    store_places: tuple[StorePlace, ...] = Field(
        default=(), max_length=1_000, description="Where what is harvested is kept."
    )
    notes: tuple[YearNote, ...] = Field(default=(), max_length=1_000)
    records: tuple[Record, ...] = Field(
        default=(),
        max_length=MOST_RECORDS,
        description="What really happened, in the order it was written down.",
    )
    removed_notes: tuple[NoteKey, ...] = Field(
        default=(),
        max_length=MOST_REMOVED_NOTES,
        description="Ids of notes from the pocket page whose records were removed, the latest last.",
    )
    trials: tuple[Trial, ...] = Field(
        default=(), max_length=1_000, description="Plantings that are compared, each trial with its question."
    )
    wishes: tuple[Wish, ...] = Field(
        default=(), max_length=10_000, description="What a growing year should bring."
    )
    waived: tuple[Waiver, ...] = Field(
        default=(), max_length=MOST_WAIVERS, description="Accepted findings, each with its reason."
    )
    conflicts: tuple[Conflict, ...] = Field(
        default=(), max_length=MOST_CONFLICTS, description="Differences of joined gardens, not yet settled."
    )

    def with_(self, **changes: Any) -> Self:
        """Return a copy with some fields changed; those that are not changed are not validated again.

        Raises
        ------
        pydantic.ValidationError
            If a new value is not allowed.
        """
        try:
            new = {name: _adapter(name).validate_python(value) for name, value in changes.items()}
            fields = {name: getattr(self, name) for name in type(self).model_fields}
            made: Self = type(self).model_construct(**{**fields, **new})  # type: ignore[assignment]  # of its own class
            added = new_ids(self, made, changes.keys())
            if added is None:
                made._check_references()
            else:
                self._hand_on(made, added)
        except (ValidationError, ValueError, KeyError):
            return super().with_(**changes)  # which says where the fault is
        return made

    def _hand_on(self, made: Garden, added: set[str]) -> None:
        """Give an edited garden what was looked up of the ids, where none has gone and some were added."""
        if "every_id" in self.__dict__:
            made.__dict__["every_id"] = self.every_id | added if added else self.every_id
        if "highest_numbers" in self.__dict__:
            more = _highest_numbers(added)
            highest = {
                letter: max(number, more.get(letter, 0)) for letter, number in self.highest_numbers.items()
            }
            made.__dict__["highest_numbers"] = {**more, **highest}
        if "positions" in self.__dict__ and not added:
            made.__dict__["positions"] = self.positions

    @model_validator(mode="after")
    def _references_resolve(self) -> Self:
        self._check_references()
        return self

    def _check_references(self) -> None:
        ids = list(self._ids_but_of_records())
        index = index_of(self.records)
        if len(set(ids)) < len(ids) or index.twice or not index.by_id.keys().isdisjoint(ids):
            ids += [record.id for record in self.records]
            seen: set[str] = set()
            for key in ids:
                if key in seen:
                    break
                seen.add(key)
            first, second, *_ = self._places_of(key)
            raise ValueError(
                say(
                    "the id '{key}' is given twice, in {first} and {second}; every id must be its own",
                    key=key,
                    first=first,
                    second=second,
                )
            )
        beds = {bed.id for bed in self.beds}
        if not {planting.bed for planting in self.plantings} <= beds:
            lost = next(planting for planting in self.plantings if planting.bed not in beds)
            raise ValueError(
                say(
                    "planting '{planting}' stands in bed '{bed}', which is not in the garden",
                    planting=lost.id,
                    bed=lost.bed,
                )
            )
        if not {dressing.bed for dressing in self.dressings} <= beds:
            bare = next(dressing for dressing in self.dressings if dressing.bed not in beds)
            raise ValueError(
                say(
                    "dressing '{dressing}' is spread on bed '{bed}', which is not in the garden",
                    dressing=bare.id,
                    bed=bare.bed,
                )
            )
        if any(dressing.planting is not None for dressing in self.dressings):
            plantings = {None, *(planting.id for planting in self.plantings)}
            for dressing in self.dressings:
                if dressing.planting not in plantings:
                    raise ValueError(
                        say(
                            "dressing '{dressing}' is of planting '{planting}', which is not in the garden",
                            dressing=dressing.id,
                            planting=dressing.planting,
                        )
                    )
        if self.records:
            self._check_records()
        if self.trials or any(one.replaces or one.repeats for one in self.plantings):
            self._check_linked()
        for part in ("sources", "crops"):
            keys = [one.key for one in getattr(self, part)]
            if len(set(keys)) < len(keys):
                twice = next(key for key in keys if keys.count(key) > 1)
                raise ValueError(
                    say("'{twice}' stands in {part} twice; every key must be its own", twice=twice, part=part)
                )
        waived = [waiver.finding for waiver in self.waived]
        if len(set(waived)) < len(waived):
            twice = next(key for key in waived if waived.count(key) > 1)
            raise ValueError(say("the finding '{twice}' is accepted twice; give it once", twice=twice))

    def _check_records(self) -> None:
        index = index_of(self.records)
        for names, part, what in (
            (index.of_planting.keys(), self.plantings, "planting"),
            (index.of_bed.keys(), self.beds, "bed"),
            (index.lots, self.stock, "seed"),
        ):
            lost = names - {thing.id for thing in part} if names else names
            if lost:
                field = {"seed": "lot"}.get(what, what)
                record = next(one for one in self.records if getattr(one, field, None) in lost)
                raise ValueError(
                    say(
                        "record '{record}' of {day} is of {what} '{other}', which is not in the garden",
                        record=record.id,
                        day=record.day,
                        what=what,
                        other=getattr(record, field),
                    )
                )

    def _check_linked(self) -> None:
        plantings = {planting.id for planting in self.plantings}
        for planting in self.plantings:
            if planting.replaces is not None and planting.replaces not in plantings:
                raise ValueError(
                    say(
                        "planting '{planting}' replaces planting '{replaces}', which is not in the garden",
                        planting=planting.id,
                        replaces=planting.replaces,
                    )
                )
            if planting.repeats is not None and planting.repeats not in plantings:
                raise ValueError(
                    say(
                        "planting '{planting}' repeats planting '{repeats}', which is not in the garden",
                        planting=planting.id,
                        repeats=planting.repeats,
                    )
                )
        for trial in self.trials:
            for entry in trial.entries:
                if entry.planting not in plantings:
                    raise ValueError(
                        say(
                            "trial '{trial}' compares planting '{planting}', which is not in the garden",
                            trial=trial.id,
                            planting=entry.planting,
                        )
                    )

    def ids(self) -> Iterator[str]:
        """Iterate over the ids of all parts of the document."""
        yield from self._ids_but_of_records()
        yield from (record.id for record in self.records)

    @lazy_property
    def every_id(self) -> frozenset[str]:
        """The ids of all parts of the document."""
        return frozenset(self.ids())

    @lazy_property
    def highest_numbers(self) -> dict[str, int]:
        """The highest number behind each first letter of an id that is a letter and a number."""
        return _highest_numbers(self.every_id)

    @lazy_property
    def positions(self) -> dict[str, dict[str, int]]:
        """Where the beds, structures and plantings are in their lists, by id."""
        return {
            part: {thing.id: number for number, thing in enumerate(getattr(self, part))}
            for part in ("beds", "structures", "plantings")
        }

    def _ids_but_of_records(self) -> Iterator[str]:
        yield from (bed.id for bed in self.beds)
        yield from (structure.id for structure in self.structures)
        yield from (planting.id for planting in self.plantings)
        yield from (variety.id for variety in self.varieties)
        yield from (lot.id for lot in self.stock)
        yield from (one.id for one in self.planting_stock)
        yield from (offer.id for offer in self.offers)
        yield from (bench.id for bench in self.benches)
        yield from (dressing.id for dressing in self.dressings)
        yield from (item.id for item in self.shed)
        yield from (place.id for place in self.store_places)
        yield from (trial.id for trial in self.trials)
        yield from (wish.id for wish in self.wishes)

    def _places_of(self, key: str) -> list[str]:
        """Where an id is given: beds[0], plantings[3]."""
        return [
            f"{part}[{index}]"
            for part in PARTS_WITH_IDS
            for index, thing in enumerate(getattr(self, part))
            if thing.id == key
        ]

    @lazy_property
    def beds_by_id(self) -> dict[str, Bed]:
        """Beds by id."""
        return {bed.id: bed for bed in self.beds}

    @lazy_property
    def plantings_by_id(self) -> dict[str, Planting]:
        """Plantings by id."""
        return {planting.id: planting for planting in self.plantings}

    @property
    def records_by_id(self) -> dict[str, RecordBase]:
        """Records by id."""
        return index_of(self.records).by_id

    def records_of(self, planting: str) -> tuple[RecordBase, ...]:
        """Records of a planting, by its id, in the order they were written down."""
        return index_of(self.records).of_planting.get(planting, ())

    def records_of_bed_itself(self, bed: str) -> tuple[RecordBase, ...]:
        """Records of a bed, by its id, that are of none of its plantings."""
        return index_of(self.records).of_bed.get(bed, ())

    @property
    def telling_records(self) -> tuple[RecordBase, ...]:
        """Records from which dates of plantings follow."""
        return index_of(self.records).telling

    def done(self, planting: Planting) -> tuple[Done, ...]:
        """Work on a planting that is known to be done."""
        told = index_of(self.records).told.get(planting.id)
        return told.done if told is not None else ()

    def ticked(self, planting: Planting) -> tuple[Done, ...]:
        """Work on a planting that is finished: a picking that has only begun is not."""
        told = index_of(self.records).told.get(planting.id)
        return told.ticked if told is not None else ()

    def observed(self, planting: Planting) -> tuple[Observed, ...]:
        """Stages of a planting that were seen, by day."""
        told = index_of(self.records).told.get(planting.id)
        return told.observed if told is not None else ()

    def outcome(self, planting: Planting) -> Outcome | None:
        """How a planting ended; None where no record tells it."""
        told = index_of(self.records).told.get(planting.id)
        return told.outcome if told is not None else None

    @lazy_property
    def structures_by_id(self) -> dict[str, Structure]:
        """Structures by id."""
        return {structure.id: structure for structure in self.structures}

    @lazy_property
    def _varieties(self) -> dict[tuple[str, str], Variety]:
        return {(own.crop, own.name.casefold()): own for own in self.varieties}

    def own_variety(self, planting: Planting) -> Variety | None:
        """The own variety that a planting names, or None."""
        return self._varieties.get((planting.crop, planting.variety.casefold()))

    @lazy_property
    def _dressings(self) -> dict[str, tuple[Dressing, ...]]:
        found: dict[str, list[Dressing]] = {}
        for one in self.dressings:
            bed = self.plantings_by_id[one.planting].bed if one.planting is not None else one.bed
            found.setdefault(bed, []).append(one)
        return {key: tuple(of_bed) for key, of_bed in found.items()}

    def dressings_of(self, bed: str) -> tuple[Dressing, ...]:
        """Dressings of a bed and of the plantings in it, by the bed's id."""
        return self._dressings.get(bed, ())

    def in_bed(self, bed: str, plantings: Iterable[Planting] | None = None) -> tuple[Planting, ...]:
        """Plantings of a bed, in the document's order.

        Parameters
        ----------
        bed : str
            Id of the bed.
        plantings : iterable of Planting, optional
            Plantings to choose from; all of the document by default.
        """
        return tuple(p for p in (self.plantings if plantings is None else plantings) if p.bed == bed)

    def soil_of(self, bed: Bed) -> Soil:
        """The soil of a bed: its own, and what is not known of that as in the garden; a container's as deep as it is."""
        soil = bed.soil.over(self.site.soil) if bed.kind != "container" else bed.soil
        return soil.model_copy(update={"depth": bed.depth}) if bed.kind == "container" else soil

    def years(self) -> tuple[int, ...]:
        """Growing years with plantings, in order."""
        return tuple(sorted({planting.year for planting in self.plantings}))


def _highest_numbers(ids: Iterable[str]) -> dict[str, int]:
    found: dict[str, int] = {}
    for key in ids:
        if key[1:].isdecimal():
            found[key[0]] = max(found.get(key[0], 0), int(key[1:]))
    return found


@cache
def _adapter(name: str) -> TypeAdapter[Any]:
    """What validates a field of the garden by itself; KeyError where there is no such field."""
    field = Garden.model_fields[name]
    kind: Any = Annotated[(field.annotation, *field.metadata)] if field.metadata else field.annotation
    return TypeAdapter(kind)
