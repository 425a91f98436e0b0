"""The pocket page: nothing in it can run, be fetched or be taken for a command; its data are the plan's; its colours can be read in the sun."""

from __future__ import annotations

import base64
import datetime as dt
import hashlib
import json
import re
import subprocess
import sys
from html.parser import HTMLParser
from typing import Any

import pytest
from making import bed, garden, planting, rectangle
from sample_reading import sample
from words.pseudo import is_whole, pseudo_language

from planner import resources
from planner.amounts.work import work_between
from planner.garden import Garden, Site
from planner.garden.edits import add_records
from planner.garden.pocket_notes import NOTE_ID, garden_key
from planner.garden.records import HARMS, RECORD_MODELS
from planner.listings.export_files import ExportError
from planner.plan import Plan
from planner.season.tasks import monday
from planner.sheets.cautions import work_cautions
from planner.sheets.pocket_data import pocket_data
from planner.sheets.pocket_page import SCRIPTS, pocket_page, script_json, write_pocket_page
from planner.sheets.pocket_words import page_choices, page_words
from planner.sheets.week_work import is_indoors
from planner.storage import load

D = dt.date
MADE = D(2026, 4, 1)
HOSTILE = "<img src=x onerror=alert(1)>\"'&</script><!--\u202e%%data%% {what} $& کاهو 寒い"


class Parts(HTMLParser):
    """The elements of a page: tags with attributes, and the text inside scripts and styles."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.inside: dict[str, list[str]] = {"script": [], "style": [], "title": []}
        self._in = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag in self.inside:
            self._in = tag
            self.inside[tag].append("")

    def handle_endtag(self, tag: str) -> None:
        self._in = ""

    def handle_data(self, data: str) -> None:
        if self._in:
            self.inside[self._in][-1] += data

    @property
    def data(self) -> dict[str, Any]:
        found: dict[str, Any] = json.loads(self.inside["script"][0])
        return found


def hostile_garden() -> Garden:
    """A garden in which every text that a person can type is hostile."""
    return garden(
        bed("b1", name=HOSTILE[:60], notes=HOSTILE),
        planting(first=D(2026, 4, 1), start="sown", variety=HOSTILE[:100], tended_by=HOSTILE, notes=HOSTILE),
        site=Site(name=HOSTILE),
    )


@pytest.fixture(scope="module")
def hollow_lane() -> Plan:
    return Plan(load(sample("hollow_lane")), 2026)


@pytest.fixture(scope="module")
def hollow_data(hollow_lane: Plan) -> dict[str, Any]:
    return pocket_data(hollow_lane, MADE)


# -- what a browser may do with it --------------------------------------------------------------------


def test_only_its_own_script_and_styles_may_run_and_nothing_be_fetched():
    parts = Parts(pocket_page(Plan(hostile_garden(), 2026), MADE))
    policy = next(
        of["content"] for tag, of in parts.tags if of.get("http-equiv") == "Content-Security-Policy"
    )
    rules = dict(rule.split(" ", 1) for rule in (policy or "").split("; "))
    assert set(rules.pop("script-src").split()) == {digest(parts.inside["script"][1])}
    assert set(rules.pop("style-src").split()) == {digest(parts.inside["style"][0])}
    assert rules == dict.fromkeys(("default-src", "connect-src", "base-uri", "form-action"), "'none'")
    for tag, attributes in parts.tags:
        assert not {"src", "href", "style", "action", "srcdoc"} & set(attributes), tag
        assert not [name for name in attributes if name.startswith("on")], tag
    assert [of.get("type") for tag, of in parts.tags if tag == "script"] == ["application/json", None]


def digest(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def test_hostile_names_stay_texts():
    document = hostile_garden()
    page = pocket_page(Plan(document, 2026), MADE)
    assert "<img" not in page
    parts = Parts(page)
    assert [tag for tag, _ in parts.tags if tag in ("img", "script", "style")] == [
        "style",
        "script",
        "script",
    ]
    assert parts.data["garden"]["name"] == document.site.name
    assert parts.data["beds"][0]["name"] == document.beds[0].name
    assert HOSTILE in [text for _, text in parts.data["plantings"]["p1"]["facts"]]
    assert HOSTILE in parts.inside["title"][0]


def test_json_in_a_script_ends_no_script_and_no_line():
    text = "</script><!--<script>&\u2028\u2029 é 寒"
    found = script_json({"a": [text, 1.5, None]})
    assert json.loads(found) == {"a": [text, 1.5, None]}
    assert not set("<>&\u2028\u2029") & set(found)
    with pytest.raises(ValueError, match="JSON"):
        script_json(float("nan"))


def test_the_scripts_set_texts_and_never_html():
    for name in SCRIPTS:
        script = resources.resource("pocket", name).read_text("utf-8")
        for word in (
            "innerHTML",
            "outerHTML",
            "insertAdjacent",
            "document.write",
            "eval(",
            "Function(",
            "fetch(",
            "http",
        ):
            assert word not in script.replace("http://www.w3.org/2000/svg", ""), f"{word} in {name}"


#: Reads JavaScript without running it; in a process of its own, since it needs an application of Qt.
PARSER = """
import sys
from PySide6.QtCore import QCoreApplication
from PySide6.QtQml import QJSEngine
app, engine = QCoreApplication([]), QJSEngine()
for script in sys.stdin.read().split("\\0"):
    found = engine.evaluate(script)
    print(f"{found.toString()} in line {found.property('lineNumber').toString()}" if found.isError() else "valid")
"""


def test_the_script_is_valid_where_no_browser_is_there_to_try_it():
    script = Parts(pocket_page(Plan(Garden(), 2026), MADE)).inside["script"][1]
    function = script.rstrip().removesuffix("();").removesuffix(")") + ")"
    given = f"{function}\0{function.replace('function textWidth(', 'function (', 1)}"
    run = subprocess.run(
        [sys.executable, "-c", PARSER], input=given, capture_output=True, text=True, check=True
    )
    valid, broken = run.stdout.splitlines()
    assert valid == "valid"
    assert broken.startswith("SyntaxError")


def test_a_page_of_forty_beds_is_under_two_megabytes():
    beds = [bed(f"b{i}", rectangle(center=(0.0, 2.0 * i)), name=f"Bed {i}") for i in range(40)]
    crops = ("carrot", "tomato")
    plantings = [
        planting(
            f"p{i}-{crop}",
            bed=f"b{i}",
            crop=crop,
            plot={"kind": "stretch", "start": 2.4 * j, "end": 2.4 * j + 2.4},
        )
        for i in range(40)
        for j, crop in enumerate(crops)
    ]
    page = pocket_page(Plan(garden(*beds, *plantings), 2026), MADE)
    assert len(page.encode()) < 2_000_000


def test_it_is_written_over_its_older_self_and_nothing_else(tmp_path):
    plan = Plan(garden(bed()), 2026)
    path = tmp_path / "garden.html"
    write_pocket_page(plan, path, MADE)
    write_pocket_page(plan, path, D(2026, 4, 2))
    assert "2026-04-02" in path.read_text("utf-8")
    path.write_text("<!doctype html><html>mine")
    with pytest.raises(ExportError, match="another kind"):
        write_pocket_page(plan, path, MADE)
    with pytest.raises(ExportError, match=r"ends with \.html"):
        write_pocket_page(plan, tmp_path / "garden.txt", MADE)


# -- what it knows ------------------------------------------------------------------------------------


def test_every_piece_of_work_is_in_the_week_in_which_it_begins(hollow_lane, hollow_data):
    shown: dict[str, set[tuple[str, str]]] = {}
    for week in hollow_data["weeks"]:
        for person in week["people"]:
            for of in person["beds"]:
                lines = [hollow_data["lines"][number] for number, _ in of["lines"]]
                shown.setdefault(week["monday"], set()).update((of["bed"], line["key"]) for line in lines)
    tasks = work_between(hollow_lane)
    assert len(tasks) > 150
    indoors = 0
    for task in tasks:
        week = monday(max(task.date, hollow_lane.span.first)).isoformat()
        planting = hollow_lane.garden.plantings_by_id.get(task.planting)
        under_roof = planting is not None and is_indoors(hollow_lane, planting, task)
        indoors += under_roof
        assert ("" if under_roof else task.bed, task.key) in shown[week], task
    assert indoors > 20


def test_work_indoors_comes_first_and_says_for_which_bed_it_is(hollow_data):
    found = 0
    for week in hollow_data["weeks"]:
        for person in week["people"]:
            beds = [of["bed"] for of in person["beds"]]
            assert "" not in beds[1:]
            assert all(of["lines"] for of in person["beds"])
            if beds[0] == "":
                found += 1
                for number, _ in person["beds"][0]["lines"]:
                    assert hollow_data["lines"][number]["details"].startswith("For ")
    assert found > 5


def test_work_has_its_depth_and_spacing_and_its_week_the_cautions(hollow_lane, hollow_data):
    sown = next(line for line in hollow_data["lines"] if line["key"] == "p93/sow")
    assert "1½ cm deep" in sown["details"].replace("\u00a0", " ")
    assert "rows 15 cm apart" in sown["details"].replace("\u00a0", " ")
    week = next(week for week in hollow_data["weeks"] if week["monday"] == "2026-06-15")
    days = [D(2026, 6, 15), D(2026, 6, 21)]
    wanted = {one.text for one in work_cautions(hollow_lane, work_between(hollow_lane, *days))}
    assert wanted == {hollow_data["cautions"][number] for number in week["care"]} != set()


def test_what_grows_on_a_day_is_what_has_its_plot_on_it(hollow_lane, hollow_data):
    for day in (D(2026, 1, 1), D(2026, 6, 20), D(2026, 12, 31)):
        growing = {
            key for key, one in hollow_data["plantings"].items() if one["first"] <= str(day) <= one["last"]
        }
        assert growing == {one.id for one in hollow_lane.plantings if hollow_lane.span_of(one).holds(day)}


def test_a_southern_year_and_feet_and_inches():
    south = pocket_data(Plan(load(sample("wattle_bank")), 2026), MADE)
    assert (south["first"], south["last"], south["year"]) == ("2026-07-01", "2027-06-30", "2026/27")
    feet = [unit[0] for unit in page_choices("feet_inches")["units"]]
    assert feet == ["lb", "oz", "pieces", "bunches", "l"]


def test_a_garden_without_anything_has_a_page():
    data = pocket_data(Plan(Garden(), 2026), MADE)
    assert data["beds"] == data["weeks"] == data["lines"] == []
    assert data["map"]["width"] > 0


def test_work_on_a_planting_of_another_year_has_its_names():
    document = garden(
        bed("b1", name="Old", last_year=2026),
        planting(crop="leek", year=2026, start="raised", first=D(2026, 1, 20)),
    )
    data = pocket_data(Plan(document, 2025), MADE)
    assert {line["planting"] for line in data["lines"]} <= set(data["plantings"])
    for week in data["weeks"]:
        for person in week["people"]:
            for of in person["beds"]:
                assert of["bed"] in {"", *(one["id"] for one in data["beds"]), *data["other_beds"]}


def test_notes_that_the_garden_has_are_known():
    document = garden(bed())
    key = "note-" + "a" * 32
    document, _ = add_records(
        document,
        [
            {"kind": "note", "day": D(2026, 5, 1), "words": "x", "id": key},
            {"kind": "note", "day": D(2026, 5, 1), "words": "y"},
        ],
    )
    assert NOTE_ID.fullmatch(key)
    assert pocket_data(Plan(document, 2026), MADE)["at_home"] == [key]


def test_a_garden_keeps_its_key_while_it_is_edited_or_renamed():
    site = Site(name="Plot", latitude=51.0, longitude=1.0)
    assert garden_key(site) == garden_key(site.with_(units="feet_inches", reach=0.7))
    assert garden_key(site) == garden_key(site.with_(name="New", known_as="Plot"))
    assert len({garden_key(one) for one in (site, site.with_(name="Lot"), site.with_(latitude=52.0))}) == 3


# -- words --------------------------------------------------------------------------------------------


def test_all_sentences_of_the_scripts_are_given_to_them_and_no_others():
    scripts = "\n".join(resources.resource("pocket", name).read_text("utf-8") for name in SCRIPTS)
    used = set(re.findall(r"(?<![.\w])words\.(\w+)", scripts))
    assert used == set(page_words())


def test_all_sentences_are_from_the_catalogue():
    with pseudo_language():
        shown = list(page_words().values())
        for name, choice in page_choices("feet_inches").items():
            if isinstance(choice, dict):
                shown += choice.values()
            elif name not in ("decimal", "shares", "months"):
                shown += [pair[1] for pair in choice]
    assert len(shown) > 150
    for text in shown:
        assert is_whole(text), text


def test_choices_are_those_of_records():
    choices = page_choices("metric")
    assert {kind for kind, _ in choices["kinds"]} == set(RECORD_MODELS)
    assert [harm for harm, _ in choices["harms"]] == list(HARMS)


def test_the_page_says_its_language():
    assert Parts(pocket_page(Plan(Garden(), 2026), MADE)).tags[0] == ("html", {"lang": "en"})


# -- colours: WCAG 2.2, contrast ratio ----------------------------------------------------------------


def luminance(colour: str) -> float:
    """Relative luminance after WCAG 2.2 of a colour such as #0b4a28."""
    shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio after WCAG 2.2, from 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def schemes() -> dict[str, dict[str, str]]:
    """Colours of the light and the dark page."""
    styles = resources.resource("pocket", "page.css").read_text("utf-8")
    blocks = re.findall(r":root \{(.*?)\}", styles, re.DOTALL)
    light, dark = (dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", block)) for block in blocks)
    return {"light": light, "dark": {**light, **dark}}


def test_the_contrast_is_that_of_published_examples():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # as WCAG's techniques print it
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_texts_stand_out_in_the_sun_and_edges_are_seen(scheme):
    colours = schemes()[scheme]
    texts = [
        *((ink, ground) for ink in ("ink", "quiet", "link") for ground in ("paper", "card")),
        ("on-strong", "strong"),
        ("on-notice", "notice"),
        ("wrong", "paper"),
        ("ink", "ground"),
    ]
    for ink, ground in texts:  # 4.5 is what WCAG 2.2 AA asks for, 7 is AAA
        assert contrast(colours[ink], colours[ground]) >= 7.0, (ink, ground)
    for edge, ground in (
        ("edge", "paper"),
        ("edge", "card"),
        ("strong", "paper"),
        ("focus", "paper"),
        ("ink", "fixed"),
    ):
        assert contrast(colours[edge], colours[ground]) >= 3.0, (edge, ground)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_plots_can_be_told_from_the_edges_about_them(scheme, hollow_data):
    colours = schemes()[scheme]
    for one in hollow_data["plantings"].values():
        assert contrast(colours["ink"], one[scheme]) >= 3.0
