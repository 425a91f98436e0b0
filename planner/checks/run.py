"""One run of the checks over a plan; that of an edited plan follows from it by what the edit reaches."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

import shapely

from planner.checks import access, bench, crowding, join_conflicts, light, overlap, purity, stock, support
from planner.checks.frame.bed_index import BedIndex
from planner.checks.frame.context import CheckContext, Part
from planner.checks.frame.failed import failed_check
from planner.checks.frame.finding import Finding
from planner.checks.light_known import KnownLight
from planner.checks.reached import Changed, Reached, reached_by_edit, supports_beyond_beds
from planner.lazy import lazy_property
from planner.plan import Plan

Check = Callable[[CheckContext], Iterator[Finding]]

#: Checks that look over the whole garden: their findings have no place of their own.
WHOLE = (stock.CHECK, bench.CHECK, purity.CHECK, join_conflicts.CHECK, light.CHECK)

#: What the judgement that gave a finding is about: a kind of thing and its id, or a check over the whole garden.
Subject = tuple[str, str]


#: Checks that take long over a large garden, with what gives their findings step by step: None where it may pause.
IN_STEPS: dict[Check, Callable[[CheckContext], Iterator[Finding | None]]] = {
    access.check_path: access.check_path_in_steps,
    access.check_reach: access.check_reach_in_steps,
    crowding.check: crowding.check_in_steps,
    overlap.check: overlap.check_in_steps,
}
#: A run that goes step by step pauses after so much work, where it may. [s]
LONGEST_STEP = 0.03


def run_checks(context: CheckContext, checks: Mapping[str, Check], locate: bool = False) -> list[Finding]:
    """Findings of some checks; one that fails is a finding itself, and the others hold.

    Parameters
    ----------
    context : CheckContext
    checks : mapping of str to Check
    locate : bool
        Whether a check that fails is reported, and it is looked for where it does.
    """
    return [
        one
        for name, check in checks.items()
        for one in _one_by_one(context, name, check, locate)
        if one is not None
    ]


def _one_by_one(context: CheckContext, name: str, check: Check, locate: bool) -> Iterator[Finding | None]:
    """The findings of a check, with None where it may pause; that it fails is the last of them."""
    try:
        yield from IN_STEPS.get(check, check)(context)
    except Exception as fault:
        yield failed_check(context, name, check, fault, locate)


def subject_of(finding: Finding) -> Subject:
    """What the judgement that gave a finding is about."""
    if finding.check in WHOLE:
        return "check", finding.check
    if finding.plantings:
        return "planting", finding.plantings[0]
    if finding.check == support.CHECK:  # of an arch, at some beds
        return "arch", finding.structures[0] if finding.structures else ""
    return "bed", finding.beds[0] if finding.beds else ""


@dataclass(frozen=True, eq=False)
class Change:
    """What an edit changes in the findings.

    Attributes
    ----------
    gone : list of Finding
        Those before of all that it reaches.
    come : list of Finding
        Those after of the same, in the order in which the checks report them; most are among the gone too.
    reached : Reached or None
        None where everything was checked.
    kept : mapping
        See :class:`planner.checks.frame.context.CheckContext`.
    """

    gone: list[Finding]
    come: list[Finding]
    reached: Reached | None
    kept: Mapping[str, object] = field(default_factory=dict)


class Run:
    """The findings of a plan, without waivers.

    Parameters
    ----------
    plan : Plan
    lore : bool
        Whether rules that are only handed down count.
    checks : mapping of str to Check
        Those that were run.
    findings : iterable of Finding
    beside : tuple of (BedIndex, mapping), optional
        Index of the beds, and ground of wide supports (:func:`planner.checks.reached.reached_by_edit`).
    kept : mapping, optional
        See :class:`planner.checks.frame.context.CheckContext`.
    """

    def __init__(
        self,
        plan: Plan,
        lore: bool,
        checks: Mapping[str, Check],
        findings: Mapping[Subject, tuple[Finding, ...]],
        beside: tuple[BedIndex, Mapping[str, shapely.Geometry]] | None = None,
        kept: Mapping[str, object] | None = None,
    ) -> None:
        self.plan, self.lore, self.checks = plan, lore, checks
        self.kept = kept if kept is not None else {}
        self.by_subject = findings
        self._beside = beside
        self._narrowed: dict[frozenset[str], Run] = {}

    @classmethod
    def over(
        cls,
        plan: Plan,
        lore: bool,
        checks: Mapping[str, Check],
        locate: bool = False,
        kept: dict[str, object] | None = None,
    ) -> Run:
        """Check all of a plan.

        Parameters
        ----------
        plan, lore, checks
            As of a run.
        locate : bool
            See :func:`run_checks`.
        kept : dict, optional
            What some checks have worked out before.
        """
        *_, last = cls.steps(plan, lore, checks, locate, kept)
        assert last is not None
        return last

    @classmethod
    def steps(
        cls,
        plan: Plan,
        lore: bool,
        checks: Mapping[str, Check],
        locate: bool = False,
        kept: dict[str, object] | None = None,
    ) -> Iterator[Run | None]:
        """Check all of a plan, one check or a part of a long one a step; the last step gives the run, those before it None.

        Parameters
        ----------
        plan, lore, checks, locate, kept
            As in :meth:`over`.
        """
        context, found = CheckContext(plan, lore, kept=kept), list[Finding]()
        begun = time.perf_counter()
        for name, check in checks.items():
            for one in _one_by_one(context, name, check, locate):
                if one is not None:
                    found.append(one)
                if time.perf_counter() - begun > LONGEST_STEP:
                    yield None
                    begun = time.perf_counter()
            yield None
            begun = time.perf_counter()
        yield cls(plan, lore, checks, _by_subject(found), kept=context.kept)

    def beside(self, other: Run) -> Run:
        """This run and one of other checks over the same plan, as one."""
        checks, findings = {**other.checks, **self.checks}, {**other.by_subject, **self.by_subject}
        return Run(self.plan, self.lore, checks, findings, other._beside, {**other.kept, **self.kept})

    def narrowed(self, checks: Mapping[str, Check]) -> Run:
        """This run as one of fewer checks; the same one each time."""
        names = frozenset(checks)
        if names == self.checks.keys():
            return self
        known = self._narrowed.get(names)
        if known is None:
            gone = self.checks.keys() - names
            found = {
                subject: left
                for subject, of in self.by_subject.items()
                if (left := tuple(one for one in of if one.check not in gone))
            }
            kept = {name: what for name, what in self.kept.items() if name not in gone}
            known = self._narrowed[names] = Run(self.plan, self.lore, checks, found, self._beside, kept)
        return known

    @property
    def findings(self) -> list[Finding]:
        """All of them."""
        return [one for found in self.by_subject.values() for one in found]

    @lazy_property
    def by_case(self) -> dict[object, list[Finding]]:
        """The findings by what they are about."""
        found: dict[object, list[Finding]] = {}
        for one in self.findings:
            found.setdefault(one.case, []).append(one)
        return found

    @lazy_property
    def by_key(self) -> dict[str, list[Finding]]:
        """The findings by key."""
        found: dict[str, list[Finding]] = {}
        for one in self.findings:
            found.setdefault(one.key, []).append(one)
        return found

    @lazy_property
    def _neighbourhood(self) -> tuple[BedIndex, Mapping[str, shapely.Geometry]]:
        if self._beside is not None:
            return self._beside
        return BedIndex.of(self.plan), supports_beyond_beds(self.plan, self.plan.plantings)

    def after(self, plan: Plan) -> Run | None:
        """The run over an edited plan, found by what the edit reaches; None where everything is to be checked.

        Parameters
        ----------
        plan : Plan
        """
        change = self._change_within_reach(plan)
        if change is None or change.reached is None:
            return None
        subjects = dict(self.by_subject)
        for one in change.gone:
            subjects.pop(subject_of(one), None)
        subjects.update(_by_subject(change.come))
        reached, (_, wide) = change.reached, self._neighbourhood
        kept = {key: over for key, over in wide.items() if key not in reached.plantings}
        mine = (p for p in reached.part.plantings if p.id in reached.plantings and p.support is not None)
        new = supports_beyond_beds(plan, (p for p in mine if plan.span_of(p).meets(plan.span)))
        return Run(plan, self.lore, self.checks, subjects, (reached.index, {**kept, **new}), change.kept)

    def change(self, plan: Plan) -> Change:
        """What an edit changes in the findings.

        Parameters
        ----------
        plan : Plan
            Of the edited garden.
        """
        found = self._change_within_reach(plan)
        if found is None:
            found = Change(self.findings, run_checks(CheckContext(plan, self.lore), self.checks), None)
        return found

    def _change_within_reach(self, plan: Plan) -> Change | None:
        """What an edit changes, found by what it reaches; None where that is most of the garden, or a check fails."""
        reached = reached_by_edit(self.plan, plan, *self._neighbourhood)
        if reached is None or ("check", "failed") in self.by_subject:
            return None
        context = CheckContext(plan, self.lore, reached.part)
        whole: list[Subject] = []
        come: list[Finding] = []
        kept: dict[str, object] = {}
        try:
            for name, check in self.checks.items():
                if name not in WHOLE:
                    come += (one for one in check(context) if _is_of(subject_of(one), reached))
                elif self._concerns(name, plan, reached.changed):
                    whole.append(("check", name))
                    come += check(self._over_garden(name, plan, reached.changed, kept))
        except Exception:
            return None  # looked for where it fails by a run over the whole
        subjects = [
            *whole,
            *(("planting", key) for key in reached.plantings),
            *(("bed", key) for key in reached.beds),
            *(("arch", key) for key in reached.arches),
        ]
        gone = [one for subject in subjects for one in self.by_subject.get(subject, ())]
        return Change(gone, come, reached, kept)

    # -- checks over the whole garden -----------------------------------------------------------

    def _concerns(self, name: str, plan: Plan, changed: Changed) -> bool:
        """Whether the findings of a check over the whole garden may be others after an edit."""
        old, new = self.plan.garden, plan.garden
        crops = {one.crop for pair in changed.plantings.values() for one in pair if one is not None}
        if name == stock.CHECK:
            return old.stock != new.stock or bool(crops and new.stock)
        if name == bench.CHECK:  # tested seed decides how much is sown
            return old.benches != new.benches or (
                bool(new.benches) and (old.stock != new.stock or self._raised(plan, changed))
            )
        if name == purity.CHECK:
            return bool(crops & (self._seed_species | self._seed_species_after(plan, changed)))
        return name != join_conflicts.CHECK or bool(old.conflicts or new.conflicts)

    @lazy_property
    def _seed_species(self) -> set[str]:
        return _of_seed_species(self.plan)

    def _seed_species_after(self, plan: Plan, changed: Changed) -> set[str]:
        """The same of an edited plan: as before where the same crops are grown for the same."""
        grown = [
            [None if one is None else (one.crop, one.purpose) for one in pair]
            for pair in changed.plantings.values()
        ]
        same = all(before == after for before, after in grown)
        return (
            self._seed_species if same and plan.catalogue is self.plan.catalogue else _of_seed_species(plan)
        )

    def _raised(self, plan: Plan, changed: Changed) -> bool:
        """Whether any planting that differs is raised on a bench, before or after."""
        return any(
            one is not None and of.dates(one).start == "raised"
            for pair in changed.plantings.values()
            for of, one in zip((self.plan, plan), pair, strict=True)
        )

    def _over_garden(self, name: str, plan: Plan, changed: Changed, kept: dict[str, object]) -> CheckContext:
        """The context of a check over the whole garden, with what it knows from before the edit."""
        known = self.kept.get(name)
        if isinstance(known, KnownLight):
            kept[name] = known.after(plan, changed)
        if name != purity.CHECK:
            return CheckContext(plan, self.lore, kept=kept)
        crops = self._seed_species_after(plan, changed)
        plantings = tuple(one for one in plan.garden.plantings if one.crop in crops)
        return CheckContext(plan, self.lore, Part(plantings, (), frozenset()))


def _of_seed_species(plan: Plan) -> set[str]:
    """Keys of the crops of the species that are grown for seed, and of maize where there are two kinds of it."""
    seed = {one.crop for one in plan.garden.plantings if one.purpose == "seed"}
    crops = {p.crop for p in plan.garden.plantings}
    species = {key: purity.species(plan.catalogue.get(key)) for key in crops}
    wanted = {species[key] for key in seed}
    if sum(kind == purity.MAIZE for kind in species.values()) > 1:
        wanted.add(purity.MAIZE)
    return {key for key, kind in species.items() if kind in wanted}


def _by_subject(findings: Iterable[Finding]) -> dict[Subject, tuple[Finding, ...]]:
    found: dict[Subject, list[Finding]] = {}
    for one in findings:
        subject = ("check", "failed") if one.topic == "failed" else subject_of(one)
        found.setdefault(subject, []).append(one)
    return {subject: tuple(there) for subject, there in found.items()}


def _is_of(subject: Subject, reached: Reached) -> bool:
    kind, key = subject
    among = {"planting": reached.plantings, "bed": reached.beds, "arch": reached.arches}
    return key in among[kind]
