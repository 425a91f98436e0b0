"""Joining two gardens that began as the same one, against laws, replayed edits and a line-by-line merge."""

from __future__ import annotations

import datetime as dt
import json
import random
import subprocess
from pathlib import Path
from typing import Any

import pytest
from making import bed, garden, planting, rectangle, ticked
from random_edits import random_edit

from planner import resources, storage
from planner.garden import (
    Bed,
    Bench,
    Climate,
    Conflict,
    Dressing,
    Garden,
    Household,
    Lot,
    Offer,
    OwnCrop,
    OwnSource,
    PinnedDates,
    Planting,
    PlantingStock,
    ShedItem,
    Site,
    StorePlace,
    Structure,
    Variety,
    Waiver,
)
from planner.garden import edits as e
from planner.garden.conflict_words import FIELD_NAMES, conflict_words
from planner.garden.conflicts import KEYS
from planner.garden.edits import EditError
from planner.garden.edits.conflicts import thing_of
from planner.garden.garden import YearNote
from planner.garden.join import join
from planner.garden.records import RECORD_MODELS, RecordBase
from planner.garden.trials import Trial
from planner.garden.underlay import Underlay
from planner.garden.weather_years import WeatherYears
from planner.garden.wishes import Wish

BASE = garden(
    bed("b1", name="North"),
    bed("b2", rectangle(3, 1, center=(0, 4)), name="South"),
    planting("p1", "b1", crop="carrot", notes="old"),
    planting("p2", "b2", crop="pea"),
    planting("p3", "b2", crop="leek"),
    stock=(Lot(id="l1", crop="carrot", seeds=500),),
    benches=(Bench(id="t1", name="Sill", kind="cool", length=1.2, width=0.3),),
    records=(ticked("p1", "sow", dt.date(2026, 4, 20)),),
)


def after(start: Garden, rng: random.Random, steps: int) -> Garden:
    """A garden after some random edits."""
    for _ in range(steps):
        start = random_edit(rng, start) or start
    return start


def things(one: Garden) -> dict[tuple[str, Any], Any]:
    """Everything that has a key, by part and key."""
    return {(part, getattr(thing, key)): thing for part, key in KEYS.items() for thing in getattr(one, part)}


def written(one: Garden) -> set[RecordBase]:
    """What the records say: both gardens number their own."""
    return {record.with_(id="-") for record in one.records}


# -- laws ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(40))
def test_what_only_one_changed_is_taken_as_it_is(seed):
    rng = random.Random(seed)
    base = after(BASE, rng, 5)
    other = after(base, rng, 6)
    assert join(base, base, other) == (joined := join(base, other, base))
    assert joined.garden == other
    assert joined.conflicts == ()
    assert join(base, other, other).garden == other


@pytest.mark.parametrize("seed", range(150))
def test_every_value_comes_from_one_of_the_two_and_no_change_is_lost(seed):
    """Brute force over all fields: whatever one of the two changed is in the garden or in a conflict."""
    rng = random.Random(seed)
    base = after(BASE, rng, 4)
    mine, theirs = after(base, rng, 5), after(base, rng, 5)
    joined = join(base, mine, theirs)
    there, old, ours, others = (things(one) for one in (joined.garden, base, mine, theirs))
    conflicts = {(one.part, one.key): one for one in joined.conflicts}
    for key in old.keys() | ours.keys():
        mark = (key[0], str(key[1]))
        b, m, t = old.get(key), ours.get(key), others.get(key)
        if b is None:
            assert there[key].id == m.id if hasattr(m, "id") else True
            continue
        if m is None and t is None:
            assert key not in there
        elif m is None or t is None:
            changed = (t if m is None else m) != b
            assert (key in there) == (changed or mark in conflicts)
            assert not changed or conflicts[mark].removed
        else:
            _assert_fields_kept(
                there[key],
                b,
                m,
                t,
                [one for one in joined.conflicts if (one.part, one.key) == mark],
                _renamed(joined.garden, mine, theirs),
            )
    new = [thing for key, thing in others.items() if key not in old]
    assert len([key for key in there if key not in old and key not in ours]) <= len(new)


def _renamed(joined: Garden, mine: Garden, theirs: Garden) -> set[tuple[str, str]]:
    """New and old id of beds and plantings of theirs that another of mine has the id of, told by all else they hold."""
    found = set()
    for part, refers in (("beds", {}), ("plantings", {"bed": "x", "replaces": None, "repeats": None})):
        others = {repr(one.with_(id="x", **refers)): one.id for one in getattr(theirs, part)}
        kept = {one.id for one in getattr(mine, part)}
        found |= {
            (one.id, others[same])
            for one in getattr(joined, part)
            if one.id not in kept and (same := repr(one.with_(id="x", **refers))) in others
        }
    return found


def _assert_fields_kept(found, base, mine, theirs, conflicts, renamed) -> None:
    if (
        len({type(one) for one in (found, base, mine, theirs)}) > 1
    ):  # a removed one's id was given to one of another kind
        assert found == (theirs if mine == base else mine)
        assert theirs in (base, found) or mine == base or conflicts
        return
    told = {name: value for one in conflicts for name, value in one.values.items()}
    shown = json.loads(theirs.model_dump_json())
    for name in type(found).model_fields:
        b, m, t, f = (getattr(one, name) for one in (base, mine, theirs, found))
        if name == "pinned_dates" and m != b and t != b and name not in told:
            continue  # joined field by field itself: its own test below
        if t == b:
            assert f == m
        elif m == b and name in ("bed", "planting") and f != t and name not in told:
            assert (f, t) in renamed  # a new one whose id the other garden gave to a new one too
        elif m == b and name == "entries" and f != t and name not in told:
            assert [one.treatment for one in f] == [one.treatment for one in t]  # plantings of other ids
        elif m == b:
            assert f == t or told[name] == shown[name]
        elif m != t:
            assert f == m
            assert told[name] == shown[name]


@pytest.mark.parametrize("seed", range(60))
def test_which_of_the_two_is_mine_decides_only_what_both_changed(seed):
    rng = random.Random(seed)
    base = after(BASE, rng, 4)
    mine, theirs = after(base, rng, 4), after(base, rng, 4)
    one, other = join(base, mine, theirs), join(base, theirs, mine)
    assert len(one.conflicts) == len(other.conflicts)
    if not one.conflicts and not (set(mine.ids()) & set(theirs.ids())) - set(base.ids()):
        assert things(one.garden) == things(other.garden)


# -- second implementations ---------------------------------------------------------------------------


def _changes_to(keys: tuple[str, ...], rng: random.Random):
    """Edits of some things alone, as functions that can be replayed on any garden that holds them."""
    made = []
    for _ in range(6):
        key = rng.choice(keys)
        number = round(rng.uniform(0.1, 3), 3)
        made.append(
            rng.choice(
                [
                    lambda g, k=key, n=number: e.change_planting(g, k, notes=f"note {n}"),
                    lambda g, k=key, n=number: e.change_planting(g, k, variety=f"Sort {n}"),
                    lambda g, k=key: e.tick(g, k, "thin", dt.date(2026, 6, 1)),
                    lambda g, k=key, n=number: e.move_things(g, [g.plantings_by_id[k].bed], n, -n),
                    lambda g, k=key, n=number: e.change_bed(g, g.plantings_by_id[k].bed, notes=f"bed {n}"),
                ]
            )
        )
    return made


def _replay(start: Garden, changes) -> Garden:
    for change in changes:
        start = change(start)
    return start


@pytest.mark.parametrize("seed", range(60))
def test_edits_of_different_things_come_out_as_if_done_one_after_the_other(seed):
    rng = random.Random(seed)
    in_north, in_south = _changes_to(("p1",), rng), _changes_to(("p2", "p3"), rng)
    joined = join(BASE, _replay(BASE, in_north), _replay(BASE, in_south))
    replayed = _replay(_replay(BASE, in_north), in_south)
    assert joined.conflicts == ()
    both = [
        {key: thing for key, thing in things(one).items() if key[0] != "records"}
        for one in (joined.garden, replayed)
    ]
    assert both[0] == both[1]
    assert written(joined.garden) == written(replayed)


def test_where_a_line_by_line_merge_is_clean_the_join_says_the_same(tmp_path: Path):
    """``git merge-file`` merges the texts of three files by lines, and knows nothing of gardens."""
    names = "mine", "base", "theirs"
    sample = storage.load(resources.sample_folder() / "hollow_lane.bedwright")
    clean = 0
    for seed in range(60):
        rng = random.Random(seed)
        keys = [one.id for one in sample.plantings]
        mine, theirs = (
            _replay(sample, _changes_to(tuple(rng.sample(keys, 3)), rng)[: rng.randint(1, 4)])
            for _ in range(2)
        )
        for name, one in zip(names, (mine, sample, theirs), strict=True):
            (tmp_path / name).write_text(storage.dump(one))
        command = ["git", "merge-file", "-p", *(str(tmp_path / name) for name in names)]
        merged = subprocess.run(command, capture_output=True, text=True, check=False)
        if merged.returncode:
            continue
        clean += 1
        joined = join(sample, mine, theirs)
        assert joined.conflicts == ()
        assert joined.garden == storage.parse(merged.stdout)
    assert clean >= 20


# -- cases --------------------------------------------------------------------------------------------


def test_a_field_that_both_changed_keeps_mine_and_theirs_is_a_conflict():
    mine = e.change_planting(BASE, "p1", notes="mine", variety="Early")
    theirs = e.change_planting(BASE, "p1", notes="theirs", tended_by="Ann")
    joined = join(BASE, mine, theirs)
    kept = joined.garden.plantings_by_id["p1"]
    assert (kept.notes, kept.variety, kept.tended_by) == ("mine", "Early", "Ann")
    (conflict,) = joined.conflicts
    assert conflict == Conflict(part="plantings", key="p1", other='{"notes": "theirs"}')
    assert joined.garden.conflicts == (conflict,)


def test_dates_given_by_hand_are_joined_each_by_itself():
    mine = e.change_planting(BASE, "p1", pinned_dates=PinnedDates(sow=dt.date(2026, 4, 1)))
    theirs = e.change_planting(BASE, "p1", pinned_dates=PinnedDates(thin=dt.date(2026, 5, 20)))
    joined = join(BASE, mine, theirs)
    assert joined.conflicts == ()
    wanted = PinnedDates(sow=dt.date(2026, 4, 1), thin=dt.date(2026, 5, 20))
    assert joined.garden.plantings_by_id["p1"].pinned_dates == wanted


def test_changes_that_do_not_go_together_leave_mine_whole():
    pins = {"mine": PinnedDates(first_harvest=dt.date(2026, 6, 1)), "theirs": dt.date(2026, 7, 1)}
    mine = e.change_planting(BASE, "p1", pinned_dates=pins["mine"])
    theirs = e.change_planting(BASE, "p1", first=pins["theirs"])
    joined = join(BASE, mine, theirs)
    assert joined.garden.plantings_by_id["p1"] == mine.plantings_by_id["p1"]
    assert joined.conflicts[0].values == {"first": "2026-07-01"}


def test_what_both_added_under_the_same_id_is_two_things():
    mine = e.add_planting(e.add_bed(BASE, rectangle(2, 1, center=(9, 9)), "Mine")[0], "b3", "onion", 2026)[0]
    theirs = e.add_planting(
        e.add_bed(BASE, rectangle(1, 1, center=(5, 9)), "Theirs")[0], "b3", "chard", 2026
    )[0]
    theirs = e.tick(theirs, "p4", "sow", dt.date(2026, 5, 1))
    joined = join(BASE, mine, theirs)
    assert joined.conflicts == ()
    assert [one.name for one in joined.garden.beds] == ["North", "South", "Mine", "Theirs"]
    at = {one.crop: joined.garden.beds_by_id[one.bed].name for one in joined.garden.plantings}
    assert (at["onion"], at["chard"]) == ("Mine", "Theirs")
    (done,) = (one for one in joined.garden.records if one.day.month == 5)
    assert joined.garden.plantings_by_id[done.planting].crop == "chard"


def test_what_both_added_alike_is_one_thing():
    added = e.add_planting(BASE, "b1", "onion", 2026)[0]
    mine, theirs = (
        e.change_planting(added, "p1", notes="mine"),
        e.change_planting(added, "p2", notes="theirs"),
    )
    joined = join(BASE, mine, theirs)
    assert [one.crop for one in joined.garden.plantings] == ["carrot", "pea", "leek", "onion"]


def test_what_one_removed_and_the_other_changed_stays():
    mine = e.remove(BASE, ["b2"])
    theirs = e.change_planting(BASE, "p2", notes="sown already")
    joined = join(BASE, mine, theirs)
    assert [one.id for one in joined.garden.plantings] == ["p1", "p2"]
    assert "b2" in joined.garden.beds_by_id
    assert {(one.part, one.key, one.kept, one.removed) for one in joined.conflicts} == {
        ("plantings", "p2", "theirs", True),
        ("beds", "b2", "theirs", True),
    }


def test_a_bed_removed_by_one_stays_for_what_the_other_planted_in_it():
    mine = e.remove(BASE, ["b2"])
    theirs = e.add_planting(BASE, "b2", "chard", 2026)[0]
    joined = join(BASE, mine, theirs)
    assert [one.crop for one in joined.garden.plantings] == ["carrot", "chard"]
    assert [(one.part, one.key) for one in joined.conflicts] == [("beds", "b2")]


def test_a_planting_removed_by_one_stays_for_what_the_other_has_done_in_it():
    mine = e.remove(BASE, ["p1"])
    theirs = e.tick(BASE, "p1", "thin", dt.date(2026, 6, 2))
    joined = join(BASE, mine, theirs)
    assert [done.kind for done in joined.garden.done(joined.garden.plantings_by_id["p1"])] == ["thin"]
    assert joined.conflicts[0].removed


def test_a_plot_stays_with_its_bed():
    mine = e.move_planting(BASE, "p1", "b2", {"kind": "stretch", "start": 0, "end": 1})
    theirs = e.change_planting(BASE, "p1", plot={"kind": "stretch", "start": 0, "end": 2})
    joined = join(BASE, mine, theirs)
    assert joined.garden.plantings_by_id["p1"] == mine.plantings_by_id["p1"]
    assert joined.conflicts[0].values["bed"] == "b1"
    assert joined.conflicts[0].values["plot"]["end"] == 2


def test_series_of_the_same_name_are_two():
    def with_series(crop: str) -> Garden:
        made, key = e.add_planting(BASE, "b1", crop, 2026)
        return e.change_planting(made, key, series="series-p4")

    joined = join(BASE, with_series("radish"), with_series("lettuce"))
    series = {one.crop: one.series for one in joined.garden.plantings if one.series}
    assert series["radish"] != series["lettuce"]


def test_notes_waivers_and_own_varieties_of_both_are_kept():
    key = "crowding/p1/0123456789ab"
    mine = BASE.with_(
        notes=(YearNote(year=2026, text="dry"),),
        waived=(Waiver(finding=key, reason="mine"),),
        varieties=(Variety(id="v1", crop="pea", name="Early"),),
    )
    theirs = BASE.with_(
        notes=(YearNote(year=2026, text="wet"), YearNote(year=2025, text="cold")),
        waived=(Waiver(finding=key, reason="theirs"),),
        varieties=(Variety(id="v1", crop="pea", name="Late"),),
    )
    joined = join(BASE, mine, theirs)
    assert {note.year: note.text for note in joined.garden.notes} == {2026: "dry", 2025: "cold"}
    assert {one.key: one.values for one in joined.conflicts} == {
        "2026": {"text": "wet"},
        key: {"reason": "theirs"},
    }
    assert [own.name for own in joined.garden.varieties] == ["Early", "Late"]


def test_without_a_common_beginning_the_same_id_is_the_same_thing():
    mine, theirs = e.change_planting(BASE, "p1", notes="mine"), e.change_planting(BASE, "p3", notes="theirs")
    joined = join(None, mine, theirs)
    assert [one.id for one in joined.garden.plantings] == ["p1", "p2", "p3"]
    assert {(one.key, one.other) for one in joined.conflicts} == {
        ("p1", '{"notes": "old"}'),
        ("p3", '{"notes": "theirs"}'),
    }


def test_open_conflicts_of_either_stay_until_they_are_settled():
    first = join(
        BASE, e.change_planting(BASE, "p1", notes="1"), e.change_planting(BASE, "p1", notes="2")
    ).garden
    (open_one,) = first.conflicts
    settled = e.settle(first, open_one, take_other=True)
    assert join(first, settled, e.change_planting(first, "p2", notes="3")).garden.conflicts == ()
    assert join(BASE, first, e.change_planting(BASE, "p2", notes="3")).garden.conflicts == (open_one,)


# -- settling -----------------------------------------------------------------------------------------


def conflict_garden(part: str, key: str, other: str) -> tuple[Garden, Conflict]:
    conflict = Conflict(part=part, key=key, other=other)
    return BASE.with_(conflicts=(conflict,)), conflict


def test_settling_takes_the_other_version_or_keeps_the_garden():
    start, conflict = conflict_garden("plantings", "p1", '{"notes": "theirs"}')
    assert e.settle(start, conflict, take_other=False) == BASE
    assert e.settle(start, conflict, take_other=True) == e.change_planting(BASE, "p1", notes="theirs")


@pytest.mark.parametrize(
    ("part", "key"), [("plantings", "p1"), ("beds", "b2"), ("stock", "l1"), ("benches", "t1")]
)
def test_settling_for_a_removal_removes(part, key):
    start, conflict = conflict_garden(part, key, "null")
    assert thing_of(e.settle(start, conflict, take_other=True), conflict) is None


def test_a_site_is_settled_too():
    start, conflict = conflict_garden("site", "", '{"name": "Theirs"}')
    assert e.settle(start, conflict, take_other=True).site.name == "Theirs"


def test_settling_what_is_gone_only_ends_the_conflict():
    start, conflict = conflict_garden("plantings", "p9", '{"notes": "theirs"}')
    assert e.settle(start, conflict, take_other=True) == BASE


def test_settling_twice_and_impossible_versions_are_refused():
    start, conflict = conflict_garden("plantings", "p1", '{"bed": "b9"}')
    with pytest.raises(EditError, match="not in the garden"):
        e.settle(start, conflict, take_other=True)
    done = e.settle(start, conflict, take_other=False)
    with pytest.raises(EditError, match="settled already"):
        e.settle(done, conflict, take_other=False)


@pytest.mark.parametrize("other", ["", "nonsense", "[1]", "3"])
def test_a_conflict_holds_fields_or_a_removal(other):
    with pytest.raises(ValueError, match="other version"):
        Conflict(part="site", other=other)


# -- words --------------------------------------------------------------------------------------------


def test_every_field_that_can_differ_has_a_name():
    models = (
        Site,
        Climate,
        WeatherYears,
        Bed,
        Structure,
        Planting,
        Variety,
        OwnCrop,
        OwnSource,
        Lot,
        PlantingStock,
        Offer,
        Bench,
        Dressing,
        Underlay,
        Household,
        ShedItem,
        StorePlace,
        YearNote,
        Waiver,
        Trial,
        Wish,
        *RECORD_MODELS.values(),
    )
    fields = {name for model in models for name in model.model_fields} - {"id", "key"}
    assert fields - set(FIELD_NAMES) == set()
    assert set(FIELD_NAMES) - fields == set()


@pytest.mark.parametrize(
    ("part", "key", "other", "words"),
    [
        (
            "plantings",
            "p1",
            '{"notes": "new"}',
            "carrot in North: notes is “old” in this garden, “new” in the other",
        ),
        (
            "plantings",
            "p1",
            '{"variety": "Early"}',
            "variety is not given in this garden, “Early” in the other",
        ),
        ("plantings", "p1", '{"pinned": true}', "place kept is no in this garden, yes in the other"),
        ("beds", "b1", '{"height": 0.3}', "North: height is 0 in this garden, 0.3 in the other"),
        ("beds", "b1", '{"outline": {}}', "North: place and shape differs between this garden and the other"),
        ("beds", "b1", "null", "North: removed in the other garden, changed in this one"),
        ("stock", "l1", '{"seeds": 5}', "the seed of carrot: seeds is 500 in this garden, 5 in the other"),
        ("benches", "t1", '{"length": 2}', "Sill: length is 1.2 in this garden, 2 in the other"),
        ("site", "", '{"name": "Ours"}', "the garden: name is “Garden” in this garden, “Ours” in the other"),
        (
            "climate",
            "",
            '{"zone": "8b"}',
            "the climate: hardiness zone is not given in this garden, “8b” in the other",
        ),
    ],
)
def test_a_conflict_is_told_in_a_sentence(part, key, other, words):
    start, conflict = conflict_garden(part, key, other)
    assert words in conflict_words(start, conflict)
