"""The cautions that belong on a bed's sheet and on the sheet of a week."""

from __future__ import annotations

import itertools
from collections.abc import Iterable

import shapely

from planner.crops import Crop
from planner.crops.cautions import Caution, cautions, cautions_at_work
from planner.garden import Bed
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.season.tasks import Task

#: An arch belongs to a bed that is no farther away. [m]
AT_THE_BED = 0.05
#: The work to which the cautions of supports belong.
_SUPPORT_TASK = "support up"
#: Cautions for the plants' sake; the others are for people and animals.
OF_THE_PLANTS = ("clubroot_host", "spreads_by_root", "self_sows", "crowded_lettuce", "film_warms_soil")
#: Work to which the cautions about what is eaten or touched belong.
_AT_HAND = ("pick", "lift and cure", "prune")
#: Work whose cautions belong to what is spread; those of mulching belong to all else.
_AS_WORK = {"lime": "spread", "feed": "feed"}
#: What is said of vegetables in jars belongs to those grown for the store.
_PRESERVING = "low_acid_preserves"
#: Work that is done in the kitchen.
_KITCHEN = ("store",)


def bed_cautions(plan: Plan, bed: Bed) -> tuple[Caution, ...]:
    """Return the cautions for a bed: of the crops in it, of their supports, of an arch beside it.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    """
    plantings = plan.in_bed(bed)
    supports = {p.support.kind for p in plantings if p.support is not None}
    built = frozenset[str]({*supports, *(["arch"] if _arch_at(plan, bed) else [])})
    things = built.union(cover.kind for p in plantings for cover in p.covers)
    crops = [crop for p in plantings if (crop := plan.figures_of(p).crop) is not None]
    stored = [
        crop for p in plantings if p.purpose == "store" and (crop := plan.figures_of(p).crop) is not None
    ]
    return tuple(
        caution
        for caution in cautions(plan.catalogue).values()
        if _of_support(caution, built)
        or _of_crops(caution, stored if caution.key == _PRESERVING else crops, things)
    )


def work_cautions(plan: Plan, tasks: Iterable[Task]) -> tuple[Caution, ...]:
    """Return the cautions for some work, each once, those of the first work first.

    Only cautions for people and animals are among them.

    Parameters
    ----------
    plan : Plan
    tasks : iterable of Task
    """
    found: dict[str, Caution] = {}
    judged: set[tuple[str, str, frozenset[str]]] = set()
    for task in tasks:
        planting = plan.garden.plantings_by_id.get(task.planting)
        bed = plan.garden.beds_by_id[task.bed]
        things: set[str] = {bed.kind}
        if task.dressing:
            things.add(task.material)
        elif planting is not None:
            things |= {cover.kind for cover in planting.covers}
            things |= {planting.support.kind} if planting.support is not None else set()
            things |= {"arch"} if _arch_at(plan, bed) else set()
        work = _AS_WORK.get(task.material, "mulch") if task.dressing else task.kind
        crop = plan.figures_of(planting).crop if planting is not None else None
        case = work, crop.key if crop is not None else "", frozenset(things)
        if case in judged:  # a week of a large garden has the same work many times
            continue
        judged.add(case)
        for caution in cautions_at_work(plan.catalogue, work, crop, things):
            if caution.key not in OF_THE_PLANTS:
                found.setdefault(caution.key, caution)
    return tuple(found.values())


def by_importance(found: Iterable[Caution]) -> list[Caution]:
    """Cautions about what is built and about what is eaten or touched in turns, then general ones.

    Of what is eaten or touched those about the fewest crops come first. Those of the kitchen alone come
    after all that is done at the bed; last of all those for the plants' sake.

    Parameters
    ----------
    found : iterable of Caution
    """
    built, touched, general, kitchen, plants = [], [], [], [], []
    for caution in found:
        if caution.key in OF_THE_PLANTS:
            plants.append(caution)
        elif caution.tasks == _KITCHEN:
            kitchen.append(caution)
        elif _SUPPORT_TASK in caution.tasks:
            built.append(caution)
        elif caution.about and any(task in _AT_HAND for task in caution.tasks):
            touched.append(caution)
        else:
            general.append(caution)
    touched.sort(key=lambda caution: len(caution.about))
    turns = itertools.chain.from_iterable(itertools.zip_longest(built, touched))
    return [*(caution for caution in turns if caution is not None), *general, *kitchen, *plants]


def _of_support(caution: Caution, built: frozenset[str]) -> bool:
    return _SUPPORT_TASK in caution.tasks and caution.holds((), built)


def _of_crops(caution: Caution, crops: list[Crop], things: frozenset[str]) -> bool:
    return any(map(caution.is_about, crops)) and caution.holds(crops, things)


def _arch_at(plan: Plan, bed: Bed) -> bool:
    arches = [s for s in plan.garden.structures if s.kind == "arch" and s.in_use(plan.year)]
    if not arches:
        return False
    ground = plan_polygon(bed.outline)
    return any(shapely.dwithin(plan_polygon(arch.outline), ground, AT_THE_BED) for arch in arches)
