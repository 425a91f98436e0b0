"""Every edit with arguments drawn at random, for tests over sequences of edits.

``EDITS`` has an entry for each edit that :mod:`planner.garden.edits` exports, under the name of the edit;
``tests/garden/test_random_edits.py`` fails where one is missing.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import random
import typing
from collections.abc import Callable, Sequence
from typing import Any

from making import bed, garden, planting, rectangle
from random_records import record_fields, trial_fields, wish_fields
from random_values import CROPS, FIELDS, VARIETIES, YEARS, Draw

from planner.garden import (
    Bed,
    Bench,
    Climate,
    Conflict,
    Dressing,
    Garden,
    Household,
    Lot,
    Model,
    Offer,
    OwnCrop,
    OwnSource,
    Places,
    Planting,
    PlantingStock,
    ShedItem,
    Site,
    StorePlace,
    Stretch,
    Structure,
    Variety,
)
from planner.garden import edits as e
from planner.garden.beds import StructureKind
from planner.garden.edits import EditError
from planner.garden.edits.ordering import Flip
from planner.garden.edits.shifts import ShiftedPart
from planner.garden.learned import LearnedKind, LearnedUse
from planner.garden.planting import COVER_WORK, CoverKind, SupportKind, Work
from planner.garden.records import WorkRecord
from planner.garden.site import Risk
from planner.garden.underlay import Underlay
from planner.garden.weather_years import WeatherYears

#: What an edit returns: the garden, or the garden and the ids of what is new in it.
Result = Garden | tuple[Garden, str] | tuple[Garden, tuple[str, ...]]

#: A garden to paste from: its ids are those of other things in most gardens.
OTHER = garden(
    bed("b1", rectangle(2, 1, center=(8, 8)), name="Bed 1"),
    bed("b2", rectangle(1, 1, center=(8, 5)), name="Salad"),
    planting("p1", "b1", variety="Early"),
    planting("p2", "b2", crop="lettuce"),
    structures=(Structure(id="s1", kind="shed", outline=rectangle(2, 2, center=(12, 8)), height=2.2),),
    varieties=(Variety(id="v1", crop="carrot", name="Early"),),
    crops=(OwnCrop(key="own_sea_beet", name="Sea beet", like="chard"),),
)


def _fields(draw: Draw, model: type[Model], most: int = 2) -> dict[str, Any]:
    """Values for one to ``most`` fields of a model."""
    fields = FIELDS[model]
    return {name: fields[name](draw) for name in draw.rng.sample(sorted(fields), draw.rng.randint(1, most))}


def _bed_or_structure(draw: Draw) -> list[Bed | Structure]:
    return [*draw.garden.beds, *draw.garden.structures]


def _everything(draw: Draw) -> list[Bed | Structure | Planting]:
    return [*draw.garden.beds, *draw.garden.structures, *draw.garden.plantings]


def _add_bed(draw: Draw) -> Result:
    name = "" if draw.chance(0.5) else FIELDS[Bed]["name"](draw)
    return e.add_bed(draw.garden, draw.outline(), name)


def _add_bed_range(draw: Draw) -> Result:
    name = "" if draw.chance(0.5) else FIELDS[Bed]["name"](draw)
    across, up = draw.rng.randint(1, 3), draw.rng.randint(1, 3)
    beds = e.BedRange(name, draw.number(0.5, 4), draw.number(0.5, 2), across, up)
    return e.add_bed_range(draw.garden, beds, draw.number(-9, 9), draw.number(-9, 9))


def _begin_garden(draw: Draw) -> Result:
    frost = draw.chance(0.7)
    answers = e.Beginning(
        latitude=draw.number(-60, 65) if draw.chance(0.5) else None,
        units=draw.one_of(("metric", "feet_inches")),
        last_frost="05-10" if frost and draw.chance(0.7) else None,
        first_frost="10-10" if frost and draw.chance(0.7) else None,
        risk=draw.one_of((10, 50, 90)),
        frost_free=not frost and draw.chance(0.5),
        beds=e.BedRange("Box", draw.number(0.5, 2), 0.4, across=2) if draw.chance(0.6) else None,
        boxed=draw.chance(0.5),
    )
    return e.begin_garden(draw.garden, answers, draw.number(-9, 9), draw.number(-9, 9))


def _align_beds(draw: Draw) -> Result:
    keys = draw.keys(_bed_or_structure(draw), 3)
    extents = {
        key: (draw.number(-3, 0), draw.number(-3, 0), draw.number(0, 3), draw.number(0, 3)) for key in keys
    }
    return e.align_beds(draw.garden, keys, draw.one_of(("left", "right", "bottom", "top")), extents)


def _space_things(draw: Draw) -> Result:
    keys = draw.keys(_bed_or_structure(draw), 5)
    boxes = {key: (x, y, x + 1, y + 2) for key in keys for x, y in (draw.point(),)}
    return e.space_things(draw.garden, keys, draw.one_of(("across", "up")), boxes)


def _array_things(draw: Draw) -> Result:
    keys = draw.keys(_bed_or_structure(draw))
    about = draw.point() if draw.chance(0.5) else None
    degrees = draw.one_of((0.0, draw.number(-90, 90)))
    return e.array_things(draw.garden, keys, draw.one_of((1, 2)), draw.point(), degrees, about)


def _turn_things(draw: Draw) -> Result:
    about = draw.point() if draw.chance(0.5) else None
    return e.turn_things(draw.garden, draw.keys(_bed_or_structure(draw)), draw.number(-180, 180), about)


def _resize_bed(draw: Draw) -> Result:
    key = draw.key(_bed_or_structure(draw))
    thing = draw.garden.beds_by_id.get(key) or draw.garden.structures_by_id.get(key)
    outline = draw.outline()
    if thing is not None and thing.outline.shape == "rectangle" and draw.chance(0.5):
        outline = thing.outline.with_(length=round(thing.outline.length * draw.rng.uniform(0.6, 1.5), 3))
    return e.resize_bed(draw.garden, key, outline)


def _add_planting(draw: Draw) -> Result:
    fields = {"plot": draw.plot(), "arrangement": draw.arrangement()}
    bed_id, crop = draw.key(draw.garden.beds), draw.name(*CROPS)
    return e.add_planting(draw.garden, bed_id, crop, draw.one_of(YEARS), **fields)


def _plant(draw: Draw) -> Result:
    single = [one for one in draw.garden.plantings if one.arrangement.kind == "places"]
    twin = draw.one_of(single) if single and draw.chance(0.5) else None
    if twin is None:
        fields = {"variety": draw.one_of(VARIETIES), "plot": draw.plot(), "arrangement": draw.arrangement()}
        bed_id, crop = draw.key(draw.garden.beds), draw.name(*CROPS)
        return e.plant(draw.garden, bed_id, crop, draw.one_of(YEARS), **fields)
    point = round(draw.rng.uniform(-2, 2), 3), round(draw.rng.uniform(-0.6, 0.6), 3)
    more = {"variety": twin.variety, "arrangement": Places(points=(point,))}
    return e.plant(draw.garden, twin.bed, twin.crop, twin.year, **more)


def _draw_support(draw: Draw) -> Result:
    line = tuple(draw.point() for _ in range(draw.rng.randint(2, 3)))
    fields = {"height": draw.number(0.4, 2.4)} if draw.chance(0.5) else {}
    return e.draw_support(
        draw.garden, draw.key(draw.garden.plantings), line, draw.word(SupportKind), **fields
    )


def _move_planting(draw: Draw) -> Result:
    return e.move_planting(
        draw.garden, draw.key(draw.garden.plantings), draw.key(draw.garden.beds), draw.plot()
    )


def _remove_places(draw: Draw) -> Result:
    places = [one for one in draw.garden.plantings if one.arrangement.kind == "places"]
    indices = {draw.rng.randint(0, 5) for _ in range(2)}
    return e.remove_places(draw.garden, draw.key(places or draw.garden.plantings), indices)


def _move_places(draw: Draw) -> Result:
    places = [one for one in draw.garden.plantings if one.arrangement.kind == "places"]
    indices = {draw.rng.randint(0, 5) for _ in range(2)}
    key = draw.key(places or draw.garden.plantings)
    return e.move_places(draw.garden, key, indices, draw.number(-1, 1), draw.number(-1, 1))


def _split_planting(draw: Draw) -> Result:
    parts = [{"variety": draw.one_of(VARIETIES)} for _ in range(draw.rng.randint(1, 3))]
    return e.split_planting(draw.garden, draw.key(draw.garden.plantings), parts)


def _add_structure(draw: Draw) -> Result:
    kind = draw.word(StructureKind)
    return e.add_structure(
        draw.garden, kind, draw.outline(), draw.number(0.3, 4), opacity=FIELDS[Structure]["opacity"](draw)
    )


def _duplicate(draw: Draw) -> Result:
    return e.duplicate(draw.garden, draw.keys(_everything(draw)), draw.number(-5, 5), draw.number(-5, 5))


def _paste(draw: Draw) -> Result:
    keys = draw.keys([*OTHER.beds, *OTHER.structures, *OTHER.plantings])
    return e.paste(draw.garden, OTHER, keys, draw.number(-5, 5), draw.number(-5, 5))


def _put_variety(draw: Draw) -> Result:
    if draw.garden.varieties and draw.chance(0.5):
        return e.put_variety(draw.garden, draw.key(draw.garden.varieties), **_fields(draw, Variety))
    return e.put_variety(draw.garden, **{name: make(draw) for name, make in FIELDS[Variety].items()})


def _put_crop(draw: Draw) -> Result:
    if draw.garden.crops and draw.chance(0.5):
        return e.put_crop(draw.garden, draw.one_of(draw.garden.crops).key, **_fields(draw, OwnCrop))
    return e.put_crop(draw.garden, **{name: make(draw) for name, make in FIELDS[OwnCrop].items()})


def _put_source(draw: Draw) -> Result:
    if draw.garden.sources and draw.chance(0.5):
        return e.put_source(draw.garden, draw.one_of(draw.garden.sources).key, **_fields(draw, OwnSource))
    return e.put_source(draw.garden, **{name: make(draw) for name, make in FIELDS[OwnSource].items()})


def _remove_own(draw: Draw) -> Result:
    keys = [one.key for one in (*draw.garden.crops, *draw.garden.sources)]
    return e.remove_own(draw.garden, draw.one_of((*keys, "own_nothing")))


def _take_own(draw: Draw) -> Result:
    return e.take_own(draw.garden, OTHER, ["own_sea_beet"], ["v1"])


def _put_dressing(draw: Draw) -> Result:
    if draw.garden.dressings and draw.chance(0.5):
        return e.put_dressing(draw.garden, draw.key(draw.garden.dressings), **_fields(draw, Dressing))
    fields = {name: make(draw) for name, make in FIELDS[Dressing].items()}
    if draw.chance(0.7):  # one measure only
        fields["rate"], fields["depth"] = draw.one_of(((200.0, None), (None, 0.05)))
    return e.put_dressing(draw.garden, **fields)


def _put_shed_item(draw: Draw) -> Result:
    if draw.garden.shed and draw.chance(0.5):
        return e.put_shed_item(draw.garden, draw.key(draw.garden.shed), **_fields(draw, ShedItem))
    return e.put_shed_item(draw.garden, **{name: make(draw) for name, make in FIELDS[ShedItem].items()})


def _put_lot(draw: Draw) -> Result:
    if draw.garden.stock and draw.chance(0.5):
        return e.put_lot(draw.garden, draw.key(draw.garden.stock), **_fields(draw, Lot))
    return e.put_lot(draw.garden, **{name: make(draw) for name, make in FIELDS[Lot].items()})


def _put_offer(draw: Draw) -> Result:
    if draw.garden.offers and draw.chance(0.5):
        return e.put_offer(draw.garden, draw.key(draw.garden.offers), **_fields(draw, Offer))
    fields = {name: make(draw) for name, make in FIELDS[Offer].items()}
    if draw.chance(0.7):  # a size that goes with its kind
        seed = fields["kind"] == "seed"
        fields["seeds"], fields["pieces"] = (200, None) if seed else (None, 25)
    return e.put_offer(draw.garden, **fields)


def _put_planting_stock(draw: Draw) -> Result:
    if draw.garden.planting_stock and draw.chance(0.5):
        key = draw.key(draw.garden.planting_stock)
        return e.put_planting_stock(draw.garden, key, **_fields(draw, PlantingStock))
    fields = {name: make(draw) for name, make in FIELDS[PlantingStock].items()}
    return e.put_planting_stock(draw.garden, **fields)


def _arrived(draw: Draw) -> Result:
    things = [*draw.garden.stock, *draw.garden.planting_stock, *draw.garden.shed]
    return e.arrived(draw.garden, draw.key([one for one in things if one.ordered] or things), draw.day())


def _put_bench(draw: Draw) -> Result:
    if draw.garden.benches and draw.chance(0.5):
        return e.put_bench(draw.garden, draw.key(draw.garden.benches), **_fields(draw, Bench))
    return e.put_bench(draw.garden, **{name: make(draw) for name, make in FIELDS[Bench].items()})


def _put_store_place(draw: Draw) -> Result:
    if draw.garden.store_places and draw.chance(0.5):
        return e.put_store_place(draw.garden, draw.key(draw.garden.store_places), **_fields(draw, StorePlace))
    return e.put_store_place(draw.garden, **{name: make(draw) for name, make in FIELDS[StorePlace].items()})


def _set_eaten(draw: Draw) -> Result:
    kilograms = None if draw.chance(0.3) else draw.number(0, 40)
    return e.set_eaten(draw.garden, draw.one_of(CROPS), kilograms, draw.one_of(("week", "year")))


def _tick(draw: Draw) -> Result:
    if draw.garden.dressings and draw.chance(0.2):
        return e.tick(draw.garden, draw.key(draw.garden.dressings), "spread", draw.day())
    cover = draw.word(CoverKind) if draw.chance(0.3) else None
    kind = draw.one_of(COVER_WORK) if cover is not None and draw.chance(0.8) else draw.word(Work)
    return e.tick(draw.garden, draw.key(draw.garden.plantings), kind, draw.day(), cover)


def _untick(draw: Draw) -> Result:
    if not draw.garden.records:
        return e.untick(draw.garden, draw.key(draw.garden.plantings), draw.word(Work))
    if draw.garden.dressings and draw.chance(0.2):
        return e.untick(draw.garden, draw.key(draw.garden.dressings), "spread")
    ticks = [one for one in draw.garden.records if isinstance(one, WorkRecord) and one.task is not None]
    if not ticks:
        return e.untick(draw.garden, "none", "sow")
    done = draw.one_of(ticks)
    return e.untick(draw.garden, done.planting, done.task, done.day if draw.chance(0.5) else None, done.cover)


def _add_records(draw: Draw) -> Result:
    return e.add_records(draw.garden, [record_fields(draw) for _ in range(draw.rng.randint(1, 3))])


def _change_record(draw: Draw) -> Result:
    key = draw.key(draw.garden.records)
    old = draw.garden.records_by_id.get(key)
    fields = record_fields(draw, old.kind if old is not None and draw.chance(0.7) else None)
    return e.change_record(draw.garden, key, **fields)


def _put_trial(draw: Draw) -> Result:
    key = draw.key(draw.garden.trials) if draw.garden.trials and draw.chance(0.5) else None
    return e.put_trial(draw.garden, key, **trial_fields(draw))


def _lay_trial(draw: Draw) -> Result:
    places = [
        (name, str(block), Stretch(start=n, end=n + 0.5))
        for n, (block, name) in enumerate(((1, "A"), (1, "B")))
    ]
    return e.lay_trial(
        draw.garden,
        draw.key(draw.garden.beds),
        draw.one_of(CROPS),
        draw.one_of(YEARS),
        draw.name("Earlier?"),
        places,
    )


def _plant_again(draw: Draw) -> Result:
    """What ended is planted again; some of what has not is ended first."""
    garden, key, day = draw.garden, draw.key(draw.garden.plantings), draw.day()
    planting = garden.plantings_by_id.get(key)
    if planting is not None and garden.outcome(planting) is None and draw.chance(0.7):
        with contextlib.suppress(EditError):
            garden, _ = e.add_records(
                garden, [{"kind": "ended", "day": day, "planting": key, "why": "eaten"}]
            )
    return e.plant_again(garden, key, day + dt.timedelta(days=draw.rng.randint(-1, 9)))


def _put_wish(draw: Draw) -> Result:
    key = draw.key(draw.garden.wishes) if draw.garden.wishes and draw.chance(0.5) else None
    return e.put_wish(draw.garden, key, **wish_fields(draw))


def _set_frost_days(draw: Draw) -> Result:
    which = draw.one_of(("last_frost", "first_frost"))
    month = {"last_frost": 5, "first_frost": 10}[which]
    days = {
        draw.word(Risk): f"{month:02d}-{draw.rng.randint(1, 28):02d}" for _ in range(draw.rng.randint(1, 3))
    }
    days[draw.word(Risk)] = None if draw.chance(0.3) else draw.name(f"{month:02d}-14")
    return e.set_frost_days(draw.garden, which, days)


def _shift_planting(draw: Draw) -> Result:
    first, last = sorted((draw.day(), draw.day()))
    key = draw.key(draw.garden.plantings)
    return e.shift_planting(draw.garden, key, draw.word(ShiftedPart), draw.rng.randint(-60, 60), first, last)


def _waive(draw: Draw) -> Result:
    made_up = f"crowding/{draw.key(draw.garden.plantings)}/{draw.rng.getrandbits(48):012x}"
    key = draw.one_of(draw.findings) if draw.findings else made_up
    return e.waive(draw.garden, key, draw.name("as it was last year", "on purpose"))


def _unwaive(draw: Draw) -> Result:
    waived = [one.finding for one in draw.garden.waived]
    return e.unwaive(draw.garden, draw.one_of(waived) if waived else "crowding/none/0123456789ab")


def _settle(draw: Draw) -> Result:
    """Settle a conflict of the garden, or one about a planting's notes that is made for it."""
    if not draw.garden.conflicts and draw.garden.plantings:
        key = draw.key(draw.garden.plantings)
        made_up = Conflict(part="plantings", key=key, other=draw.one_of(('{"notes": "theirs"}', "null")))
        draw.garden = draw.garden.with_(conflicts=(made_up,))
    conflicts = draw.garden.conflicts or (Conflict(part="site", other="null"),)
    return e.settle(draw.garden, draw.one_of(conflicts), draw.chance(0.5))


#: Random calls of every exported edit, by the edit's name.
EDITS: dict[str, Callable[[Draw], Result]] = {
    "add_bed": _add_bed,
    "add_bed_range": _add_bed_range,
    "begin_garden": _begin_garden,
    "add_planting": _add_planting,
    "add_structure": _add_structure,
    "add_records": _add_records,
    "change_record": _change_record,
    "remove_records": lambda d: e.remove_records(d.garden, d.keys(d.garden.records)),
    "put_trial": _put_trial,
    "choose_learned": lambda d: e.choose_learned(
        d.garden, d.one_of(CROPS), d.word(LearnedKind), d.one_of((True, False, None)), d.one_of(VARIETIES)
    ),
    "use_learned": lambda d: e.use_learned(d.garden, d.word(LearnedUse)),
    "lay_trial": _lay_trial,
    "remove_trials": lambda d: e.remove_trials(d.garden, d.keys(d.garden.trials)),
    "put_wish": _put_wish,
    "add_wishes": lambda d: e.add_wishes(
        d.garden, [one.with_(year=one.year + 1) for one in d.garden.wishes][:3]
    ),
    "put_year_note": lambda d: e.put_year_note(
        d.garden, 2024 + d.rng.randint(0, 3), d.one_of(("", "a dry year", " late frost "))
    ),
    "remove_wishes": lambda d: e.remove_wishes(d.garden, d.keys(d.garden.wishes)),
    "align_beds": _align_beds,
    "array_things": _array_things,
    "lock_things": lambda d: e.lock_things(d.garden, d.keys(_bed_or_structure(d)), d.chance(0.5)),
    "match_size": lambda d: e.match_size(
        d.garden, d.keys(_bed_or_structure(d), 3), d.key(_bed_or_structure(d))
    ),
    "mirror_things": lambda d: e.mirror_things(
        d.garden, d.keys(_bed_or_structure(d)), d.word(Flip), d.number(-3, 3)
    ),
    "space_things": _space_things,
    "change_bed": lambda d: e.change_bed(d.garden, d.key(d.garden.beds), **_fields(d, Bed)),
    "change_climate": lambda d: e.change_climate(d.garden, **_fields(d, Climate, 4)),
    "change_weather": lambda d: e.change_weather(d.garden, **_fields(d, WeatherYears)),
    "change_underlay": lambda d: e.change_underlay(d.garden, **_fields(d, Underlay)),
    "remove_underlay": lambda d: e.remove_underlay(d.garden),
    "scale_underlay": lambda d: e.scale_underlay(d.garden, d.point(), d.point(), d.number(-1, 9)),
    "change_household": lambda d: e.change_household(d.garden, **_fields(d, Household)),
    "change_planting": lambda d: e.change_planting(
        d.garden, d.key(d.garden.plantings), **_fields(d, Planting)
    ),
    "change_site": lambda d: e.change_site(d.garden, **_fields(d, Site)),
    "change_structure": lambda d: e.change_structure(
        d.garden, d.key(d.garden.structures), **_fields(d, Structure)
    ),
    "draw_support": _draw_support,
    "duplicate": _duplicate,
    "move_planting": _move_planting,
    "move_things": lambda d: e.move_things(
        d.garden, d.keys(_bed_or_structure(d)), d.number(-3, 3), d.number(-3, 3)
    ),
    "paste": _paste,
    "plant": _plant,
    "put_bench": _put_bench,
    "arrived": _arrived,
    "put_dressing": _put_dressing,
    "put_offer": _put_offer,
    "put_planting_stock": _put_planting_stock,
    "remove_offer": lambda d: e.remove_offer(d.garden, d.key([*d.garden.offers, *d.garden.planting_stock])),
    "put_lot": _put_lot,
    "put_shed_item": _put_shed_item,
    "put_crop": _put_crop,
    "put_source": _put_source,
    "keep_in": lambda d: e.keep_in(d.garden, d.one_of(CROPS), d.key(d.garden.store_places)),
    "put_store_place": _put_store_place,
    "remove_store_place": lambda d: e.remove_store_place(d.garden, d.key(d.garden.store_places)),
    "set_eaten": _set_eaten,
    "put_variety": _put_variety,
    "remove_bench": lambda d: e.remove_bench(d.garden, d.key(d.garden.benches)),
    "remove_own": _remove_own,
    "take_own": _take_own,
    "remove": lambda d: e.remove(d.garden, d.keys(_everything(d), 1)),
    "remove_material": lambda d: e.remove_material(d.garden, d.key([*d.garden.dressings, *d.garden.shed])),
    "remove_part": lambda d: e.remove_part(d.garden, d.key([*d.garden.varieties, *d.garden.stock])),
    "remove_places": _remove_places,
    "resize_bed": _resize_bed,
    "move_places": _move_places,
    "split_planting": _split_planting,
    "set_frost_days": _set_frost_days,
    "plant_again": _plant_again,
    "sow_anew": lambda d: e.sow_anew(d.garden, d.key(d.garden.plantings), d.day()),
    "settle": _settle,
    "shift_planting": _shift_planting,
    "tick": _tick,
    "turn_things": _turn_things,
    "unwaive": _unwaive,
    "untick": _untick,
    "waive": _waive,
    "walk_in_order": lambda d: e.walk_in_order(d.garden, tuple(dict.fromkeys(d.keys(d.garden.beds, 3)))),
}


def exported_edits() -> set[str]:
    """Names of the edits that :mod:`planner.garden.edits` exports: its functions that return a garden."""
    found = set()
    for name in e.__all__:
        thing = getattr(e, name)
        if isinstance(thing, type):
            continue
        returned = typing.get_type_hints(thing).get("return")
        if Garden in (returned, *typing.get_args(returned)):
            found.add(name)
    return found


def random_edit(
    rng: random.Random, garden: Garden, name: str | None = None, findings: Sequence[str] = ()
) -> Garden | None:
    """A garden after one random edit.

    Parameters
    ----------
    rng : random.Random
    garden : Garden
    name : str, optional
        Name of the edit; a random one where left out.
    findings : sequence of str
        Keys of findings that may be waived; made-up keys where there are none.

    Returns
    -------
    Garden or None
        None where the drawn edit is refused: nothing to change, or values that do not fit together.
    """
    edit = EDITS[name or rng.choice(sorted(EDITS))]
    try:
        result = edit(Draw(rng, garden, findings=findings))
    except EditError:
        return None
    return result if isinstance(result, Garden) else result[0]
