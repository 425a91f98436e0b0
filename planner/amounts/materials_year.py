"""What covers, supports and drip lines of a growing year take together: what is in the shed serves either, but not both at once."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from planner.amounts.covers import LaidCover, cover_jobs, laid_covers
from planner.amounts.drip import drip_jobs
from planner.amounts.materials import Material, materials_of
from planner.amounts.sharing import Job
from planner.amounts.supports import PutUp, string_of, support_jobs, supports_up
from planner.garden.materials import MaterialKind
from planner.plan import Plan


@dataclass(frozen=True)
class MaterialsOfYear:
    """Covers and supports of a growing year, and what they take.

    Attributes
    ----------
    laid : tuple of LaidCover
    put_up : tuple of PutUp
    materials : tuple of Material
        Of both and of drip lines; the key of a job is that of its cover or support, or of :func:`planner.amounts.drip.drip_names`.
    string, string_in_shed : float
        Used up, and on hand. [m]
    """

    laid: tuple[LaidCover, ...]
    put_up: tuple[PutUp, ...]
    materials: tuple[Material, ...]
    string: float
    string_in_shed: float


def materials_of_year(plan: Plan) -> MaterialsOfYear:
    """Work out what covers and supports take on any day of a plan's growing year.

    Parameters
    ----------
    plan : Plan
    """
    laid, found = laid_covers(plan), supports_up(plan)
    jobs: dict[MaterialKind, list[Job]] = defaultdict(list)
    for some in (cover_jobs(plan, laid), support_jobs(found), drip_jobs(plan)):
        for kind, of_kind in some.items():
            jobs[kind] += of_kind
    return MaterialsOfYear(laid, found, materials_of(plan, jobs), *string_of(plan, found))
