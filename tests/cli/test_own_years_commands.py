"""``bedwright learned``, ``trials`` and ``years``."""

from __future__ import annotations

import csv
import datetime as dt
import json

import jsonschema
import pytest
from own_years import garden_of_years

from planner.garden import edits as e
from planner.garden.trials import TrialEntry
from planner.listings.reports.schemas import report_schema
from planner.storage import load, save

YEARS = {
    2023: {"sow": (5, 20), "up": (6, 5), "grams": {(8, 20): 900, (9, 1): 4000}, "end": (10, 1)},
    2024: {
        "sow": (5, 25),
        "up": (6, 8),
        "grams": {(8, 24): 900, (9, 4): 2000},
        "end": (9, 9),
        "why": "eaten",
    },
    2025: {"sow": (5, 15), "up": (6, 2), "grams": {(8, 11): 1900, (9, 1): 5000}, "end": (10, 1)},
    2026: {},
}


@pytest.fixture
def beans(tmp_path):
    """A garden file with three recorded years of dwarf beans, in a bed each, a packet of seed, and a trial of them."""
    of = garden_of_years("dwarf_bean", YEARS)
    of, lot = e.put_lot(of, crop="dwarf_bean", variety="Lane", packed=2024, germination=0.9, seeds=50)
    more = [
        {
            "kind": "came up",
            "planting": "p1",
            "day": dt.date(2024, 6, 9),
            "lot": lot,
            "count": 30,
            "sown": 40,
        },
        {"kind": "seen", "planting": "p1", "day": dt.date(2024, 6, 20), "harm": "slugs"},
        {
            "kind": "picked",
            "planting": "p0",
            "day": dt.date(2023, 9, 9),
            "amount": {"value": 2, "unit": "bunches"},
        },
    ]
    of, _ = e.add_records(of, more)
    entries = tuple(
        TrialEntry(planting=key, treatment=name) for key, name in (("p1", "slugs"), ("p2", "none"))
    )
    of, _ = e.put_trial(of, question="Do slugs matter?", entries=entries)
    path = tmp_path / "beans.bedwright"
    save(of, path)
    return str(path)


def test_own_figures_stand_beside_the_published_ones(bedwright, beans):
    code, out, _ = bedwright("learned", beans)
    assert code == 0
    up = next(line for line in out.splitlines() if "days until it comes up" in line)
    assert "2 (2023, 2025)" in up  # that of 2024 was lost
    assert up.endswith("71 %  no, 2 years")
    weighed = next(line for line in out.splitlines() if "yield" in line)
    assert "2 (2024-2025)" in weighed  # bunches were not weighed in 2023
    assert "75 %" in out.split("by packet")[1]
    assert "90 %" in out.split("by packet")[1]


def test_what_is_chosen_is_written_down(bedwright, beans):
    bedwright("learned", beans, "--leave", "dwarf bean", "coming up", "--use", "dwarf bean", "emergence")
    out = bedwright("learned", beans)[1]
    assert "no, as chosen" in out
    assert "yes, as chosen" in out
    chosen = {one.figure: one.used for one in load(beans).site.learned.choices}
    assert chosen == {"coming up": False, "emergence": True}
    bedwright("learned", beans, "--by-rule", "dwarf bean", "coming up", "--never")
    site = load(beans).site
    assert [one.figure for one in site.learned.choices] == ["emergence"]
    assert site.learned.use == "never"
    assert "None of it is used" in bedwright("learned", beans)[1]
    bedwright("learned", beans, "--after-three-years")
    assert load(beans).site.learned.use == "after three years"


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        (("--use", "carot", "yield"), "there is no crop 'carot'"),
        (("--use", "carrot", "yeld"), "there is no figure 'yeld'"),
        (("--use", "carrot"), "wants a crop, a figure"),
    ],
)
def test_what_cannot_be_chosen_is_refused(refused, beans, words, fault):
    assert fault in refused("learned", beans, *words)


@pytest.mark.parametrize("name", ["learned", "trials", "years"])
def test_reports_are_after_their_schemas_and_tables_hold_their_columns(bedwright, beans, name, tmp_path):
    report = json.loads(bedwright(name, beans, "--json")[1])
    jsonschema.validate(report, report_schema(name))
    assert report["report"] == name
    rows = list(csv.DictReader(bedwright(name, beans, "--csv", "-")[1].splitlines()))
    assert rows
    assert all(None not in row and None not in row.values() for row in rows)
    assert bedwright(name, beans, "--xlsx", str(tmp_path / "out.xlsx"))[0] == 0


def test_years_stand_side_by_side(bedwright, beans):
    report = json.loads(bedwright("years", beans, "--json")[1])
    told = {one["year"]: one for one in report["plantings"]}
    assert list(told) == [2023, 2024, 2025, 2026]
    assert (told[2023]["picked_g"], told[2023]["picked_otherwise"]) == (
        4900,
        [{"amount": 2, "unit": "bunches"}],
    )
    assert (told[2024]["lost"], told[2024]["ended_why"], told[2024]["harmed_by"]) == (
        True,
        "eaten",
        ["slugs"],
    )
    assert told[2025]["begun"] == "2025-05-15"
    assert told[2025]["last_picked"] == "2025-09-01"
    assert told[2026]["begun"] is None
    out = bedwright("years", beans)[1]
    assert "eaten by animals 9 Sep" in out
    assert "1 planting was lost" in out


def test_the_grounds_history_is_by_the_ground(bedwright, beans):
    at = [
        one["year"] for one in json.loads(bedwright("years", beans, "--at", "0,2", "--json")[1])["plantings"]
    ]
    assert at == [2024]
    garden = load(beans)
    moved = e.add_bed(garden, garden.beds[1].outline, name="New")[0]
    save(moved, beans)
    of_new = json.loads(bedwright("years", beans, "--bed", "New", "--json")[1])["plantings"]
    assert [one["bed"] for one in of_new] == ["b1"]
    assert "Nothing stood there" in bedwright("years", beans, "--at", "90;90")[1]
    assert "dwarf bean" not in bedwright("years", beans, "--crop", "carrot")[1]


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        (("--at", "here"), "'here' is no place"),
        (("--at", "1,2,3"), "is no place"),
        (("--bed", "South"), "there is no bed 'South'"),
        (("--crop", "snark"), "there is no crop 'snark'"),
    ],
)
def test_what_no_year_has_is_refused(refused, beans, words, fault):
    assert fault in refused("years", beans, *words)


def test_one_planting_each_shows_a_difference_and_no_more(bedwright, beans):
    out = bedwright("trials", beans)[1]
    assert "Do slugs matter?" in out
    assert "more than slugs, which with one bed of each can prove nothing." in out


def test_a_trial_is_laid_out_into_a_new_file(bedwright, refused, beans, tmp_path):
    new = str(tmp_path / "trial.bedwright")
    words = (
        "trials",
        beans,
        "--year",
        "2027",
        "--lay",
        "carrot",
        "b3",
        "--varieties",
        "Early",
        "Late",
        "--blocks",
        "3",
        "-o",
        new,
    )
    code, out, _ = bedwright(*words)
    assert code == 0
    after = load(new)
    assert len(after.plantings) == 4 + 6
    assert [entry.block for entry in after.trials[1].entries] == ["1", "1", "2", "2", "3", "3"]
    assert out.count("block") == 7
    assert "in 2027, at random" in out
    taken = refused("trials", beans, *words[4:-2], "-o", str(tmp_path / "x"))
    assert "do not fit there in 2026, when it has dwarf bean" in taken
    assert "--year" in taken
    assert "is there already" in refused(*words)
    assert "do not fit" in refused(*words[:-2], "-o", str(tmp_path / "x"), "--blocks", "30")
    assert "no whole number" in refused(*words[:-2], "-o", str(tmp_path / "x"), "--blocks", "many")
    assert "at least two" in refused(
        "trials", beans, "--lay", "carrot", "b3", "--varieties", "A", "-o", str(tmp_path / "x")
    )
    assert "or --lay" in refused("trials", beans, "-o", new)
    assert "Give -o" in refused(*words[:-2])


def test_plantings_are_linked_as_a_trial_into_a_new_file(bedwright, refused, beans, tmp_path):
    new = str(tmp_path / "trial.bedwright")
    words = ("trials", beans, "--question", "Early?", "-o", new, "--compare")
    code, out, _ = bedwright(*words, "p0=early/1", "p2=late/1")
    assert code == 0
    assert "Early?" in out
    assert [(one.planting, one.treatment, one.block) for one in load(new).trials[1].entries] == [
        ("p0", "early", "1"),
        ("p2", "late", "1"),
    ]
    other = ("trials", beans, "--question", "Early?", "-o", str(tmp_path / "x"), "--compare")
    assert "no planting 'p9'" in refused(*other, "p9=early", "p2=late")
    assert "no planting with its treatment" in refused(*other, "p0", "p2=late")
    assert "at least two treatments" in refused(*other, "p0=a", "p2=a")
    assert "in the trial twice" in refused(*other, "p0=a", "p0=b")
    assert "answers a question" in refused(
        "trials", beans, "-o", str(tmp_path / "x"), "--compare", "p0=a", "p2=b"
    )
    assert "not both" in refused(*other, "p0=a", "p2=b", "--lay", "carrot", "b3")


def test_a_garden_of_nothing_says_so(bedwright, tmp_path):
    from planner.garden import Garden

    path = str(tmp_path / "empty.bedwright")
    save(Garden(), path)
    assert "No record tells" in bedwright("learned", path)[1]
    assert "has no trial" in bedwright("trials", path)[1]
    assert "Nothing stood there" in bedwright("years", path)[1]


def test_all_varieties_are_told_apart_only_where_there_are_several(bedwright, tmp_path):
    def listed(*varieties):
        years = {
            year: {**told, "planting": {"variety": name}}
            for (year, told), name in zip(YEARS.items(), varieties, strict=False)
        }
        path = str(tmp_path / f"{len(set(varieties))}.bedwright")
        save(garden_of_years("dwarf_bean", years), path)
        return [line.strip() for line in bedwright("learned", path)[1].splitlines() if "BEAN" in line]

    assert listed("Lane", "Lane", "Lane") == ["DWARF BEAN Lane, sown"]
    assert listed("Lane", "Nettle", "Lane") == [
        "DWARF BEAN all, sown",
        "DWARF BEAN Lane, sown",
        "DWARF BEAN Nettle, sown",
    ]


def test_lost_plots_count_where_the_trial_says_so(bedwright, beans, tmp_path):
    new = str(tmp_path / "new.bedwright")
    code, out, _ = bedwright(
        "trials", beans, "--compare", "p1=slugs", "p2=none", "--question", "Lost?", "--lost-counts", "-o", new
    )
    assert code == 0
    assert "Lost?" in out
    assert load(new).trials[-1].lost_counts
