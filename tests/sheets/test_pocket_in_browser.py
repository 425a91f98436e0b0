"""The pocket page in a browser, by finger and by keyboard, on a screen of 360 x 740.

Skipped where no Chromium is installed; nothing is fetched and nothing more is needed.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import HEIGHT, WIDTH, Chromium, chromium
from making import bed, garden, planting, rectangle

from planner.cli import main
from planner.garden import Dressing, Garden, Site
from planner.importing.notes import preview, take
from planner.importing.notes_file import load_notes, read_notes
from planner.plan import Plan
from planner.sheets.pocket_page import write_pocket_page
from planner.storage import load, save

pytestmark = pytest.mark.skipif(chromium() is None, reason="no Chromium is installed")

D = dt.date
DAY = D(2026, 5, 20)
HOSTILE = "<img src=x onerror=alert(1)>"
ARABIC = "کاهو و تره"


def plot() -> Garden:
    """A garden with something growing, something to do, and names that try to do harm."""
    return garden(
        bed("b1", rectangle(center=(0.0, 0.0)), name="North"),
        bed("b2", rectangle(center=(0.0, 2.0)), name=HOSTILE, notes=f"Wet. {HOSTILE}"),
        bed("b3", rectangle(length=0.6, width=0.6, center=(4.0, 0.0)), name=ARABIC),
        planting(crop="pea", first=D(2026, 4, 1), start="sown"),
        planting("p2", bed="b2", crop="leek", first=D(2026, 5, 21), start="raised", variety=HOSTILE),
        planting("p3", bed="b3", crop="lettuce", first=D(2026, 5, 1), last=D(2026, 7, 1), start="raised"),
        site=Site(name=f"Plot {HOSTILE}", latitude=51.0, longitude=0.0),
        dressings=(Dressing(id="d1", bed="b1", kind="compost", day=DAY, depth=0.02),),
    )


@pytest.fixture(scope="module")
def address(tmp_path_factory) -> str:
    path = tmp_path_factory.mktemp("page") / "garden.html"
    write_pocket_page(Plan(plot(), 2026), path, D(2026, 4, 1), DAY)
    return path.as_uri()


@pytest.fixture(scope="module")
def browser(tmp_path_factory) -> Iterator[Chromium]:
    found = Chromium(tmp_path_factory.mktemp("browser"))
    yield found
    found.close()


@pytest.fixture
def page(browser, address) -> Chromium:
    """The page, with nothing written down yet."""
    browser.events.clear()
    browser.look()
    browser.open(address)
    browser.run("localStorage.clear()")
    browser.open(address)
    return browser


def saved_notes(page: Chromium) -> tuple[Path, dict]:
    """The file that the page saves."""
    for old in page.downloads.iterdir():
        old.unlink()
    page.tap("nav a", "Notes")
    page.tap("button", "Save as a file")
    page.wait("document.querySelector('.message').innerText.includes('Saved as')")
    path = _downloaded(page)
    return path, json.loads(path.read_text("utf-8"))


def _downloaded(page: Chromium) -> Path:
    for _ in range(500):
        there = [one for one in page.downloads.glob("*.json") if one.stat().st_size]
        if there:
            return there[0]
        page.run("new Promise((done) => setTimeout(done, 10))")
    raise AssertionError("nothing was downloaded")


def test_a_day_in_the_garden(page, address, tmp_path, capsys):
    # A tap on the plan opens the bed.
    page.tap("nav a", "Beds")
    frame = page.run("(() => { const box = document.querySelector('.plan svg').getBoundingClientRect();"
                     "return [box.x + box.width * 0.3, box.y + box.height * 0.75]; })()")  # fmt: skip
    page.touch(*frame)
    assert page.text("h1") == "North"
    # A note, a picking, a tick.
    page.tap("a.button.main", "Write down")
    page.tap("#f-words")
    page.type("Slugs about – 寒い <b>")
    page.tap("button", "Keep")
    assert "Kept: Slugs about" in page.text(".message").replace("\u2068", "")
    page.tap(".planting a", "Picked, how much?")
    page.tap("#f-amount")
    page.type("0,75")
    page.tap("button", "Keep")
    page.tap("nav a", "Work")
    page.tap("label.tick", "Spread")
    page.tap("label.tick", "Harden off")
    written = "Notes (4)"
    assert page.text("nav").split("\n")[-1] == written
    # All is there after the page is opened anew.
    page.open(address)
    assert written in page.text("nav")
    assert page.run("document.querySelectorAll('label.tick input:checked').length") == 2
    page.tap("nav a", "Notes")
    shown = page.text()
    for words in ("Slugs about – 寒い <b>", "Picked 750 g", "Spread", "Hardened off"):
        assert words.casefold() in shown.casefold()
    assert page.faults() == []
    # What is saved is read at home, and once only.
    path, content = saved_notes(page)
    assert [one["kind"] for one in content["notes"]] == ["note", "picked", "done", "done"]
    home, new, newer = (tmp_path / f"{name}.bedwright" for name in ("home", "new", "newer"))
    save(plot(), home)
    assert main(["records", str(home), "--take", str(path), "-o", str(new)]) == 0
    after = load(new)
    assert [(one.kind, one.day, one.planting or one.bed) for one in after.records] == [
        ("note", DAY, "b1"),
        ("picked", DAY, "p1"),
        ("done", DAY, "p2"),
    ]
    assert after.records[1].amount.value == 750
    assert after.dressings[0].done == DAY
    assert main(["records", str(new), "--take", str(path), "-o", str(newer)]) == 0
    assert "0 new notes and 4 there already" in capsys.readouterr().out
    assert not newer.exists()


def test_every_kind_of_note_that_can_be_written_is_read_at_home(page, address, tmp_path, capsys):
    fills = {
        "note": {"words": "a"}, "picked": {"amount": "3"}, "done": {"words": "hoed"}, "seen": {"cause": "rain"},
        "came up": {"count": "12", "sown": "20"}, "flowering": {}, "ripe": {}, "first picking": {}, "last picking": {},
        "ended": {}, "measured": {"measure": "pH", "value": "-6.5"}, "lesson": {"words": "Earlier"},
    }  # fmt: skip
    page.run("localStorage.clear()")
    for kind, fields in fills.items():
        page.run(f"location.hash = '#write/{kind}/planting/p1'")
        page.wait("document.querySelector('h1').innerText === 'Write down'")
        for name, text in fields.items():
            page.tap(f"#f-{name}")
            page.type(text)
        page.tap("button", "Keep")
        assert page.text(".message").startswith("Kept: "), page.text(".wrong")
    path, content = saved_notes(page)
    assert [one["kind"] for one in content["notes"]] == list(fills)
    home = tmp_path / "home.bedwright"
    save(plot(), home)
    assert main(["records", str(home), "--take", str(path)]) == 0
    assert "12 new notes" in capsys.readouterr().out


def test_what_is_gone_is_told_beside_the_damage_and_plantings_of_one_name_by_their_days(
    page, tmp_path, capsys
):
    two = garden(
        bed("b1", rectangle(center=(0.0, 0.0)), name="North"),
        planting("p1", crop="pea", first=D(2026, 4, 1), last=D(2026, 7, 1), start="sown"),
        planting("p2", crop="pea", first=D(2026, 7, 10), last=D(2026, 10, 1), start="sown"),
        site=Site(name="Two peas", latitude=51.0, longitude=0.0),
    )
    path = tmp_path / "peas.html"
    write_pocket_page(Plan(two, 2026), path, D(2026, 4, 1), DAY)
    page.open(path.as_uri() + "#write/seen/planting/p2")
    page.wait("document.querySelector('#f-lost')")
    names = page.run("[...document.querySelectorAll('#f-place option')].map((one) => one.innerText)")
    assert len(set(names)) == len(names) == 4  # the garden, the bed and two peas
    assert any("1 Apr" in one for one in names)
    assert any("10 Jul" in one for one in names)
    page.run("document.getElementById('f-lost').value = '0.5';"
             "document.getElementById('f-lost').dispatchEvent(new Event('input'))")  # fmt: skip
    page.tap("button", "Keep")
    assert "half of what was there gone" in page.text(".message")
    saved, content = saved_notes(page)
    assert [(one["planting"], one["lost"]) for one in content["notes"]] == [("p2", 0.5)]
    home, new = tmp_path / "home.bedwright", tmp_path / "new.bedwright"
    save(two, home)
    assert main(["records", str(home), "--take", str(saved), "-o", str(new)]) == 0
    assert [one.lost for one in load(new).records] == [0.5]


def test_what_is_wrong_in_a_form_is_said_and_nothing_is_kept(page):
    page.tap("nav a", "Beds")
    page.tap("ol.beds a", "North")
    page.tap(".planting a", "Picked, how much?")
    for typed, why in (("", "greater than 0"), ("-3", "greater than 0"), ("much", "greater than 0")):
        page.run("document.getElementById('f-amount').value = ''")
        page.tap("#f-amount")
        page.type(typed or " ")
        page.tap("button", "Keep")
        assert why in page.text("[role=alert]")
        assert page.run("document.activeElement.id") == "f-amount"
    page.tap("button", "Cancel")
    assert page.text("h1") == "North"
    assert page.text("nav").endswith("Notes")


def test_a_draft_survives_a_reload(page, address):
    page.run("location.hash = '#write/note/bed/b1'")
    page.wait("document.querySelector('#f-words')")
    page.tap("#f-words")
    page.type("Half a thought")
    page.open(address + "#write/note/bed/b1")
    assert page.run("document.querySelector('#f-words').value") == "Half a thought"
    page.tap("button", "Keep")
    page.run("location.hash = '#write/note/bed/b1'")
    page.wait("document.querySelector('#f-words')")
    assert page.run("document.querySelector('#f-words').value") == ""


def test_a_note_is_changed_removed_and_put_back(page):
    page.tap("label.tick", "Harden off")
    page.tap("nav a", "Notes")
    page.tap("a.button", "Change")
    page.run("document.getElementById('f-day').value = '2026-05-18';"
             "document.getElementById('f-day').dispatchEvent(new Event('input'))")  # fmt: skip
    page.tap("button", "Keep")
    assert "18 May 2026" in page.text()
    page.tap("ul.notes button", "Remove")
    assert "Nothing is written down yet" in page.text()
    page.tap(".message button", "Put back")
    _, content = saved_notes(page)
    assert [(one["kind"], one["task"], one["day"]) for one in content["notes"]] == [
        ("done", "harden off", "2026-05-18")
    ]
    assert "saved on" in page.text()
    page.tap("button", "Remove those that are saved")
    page.tap("button", "Really remove 1?")
    assert "Nothing is written down yet" in page.text()


def test_all_of_it_by_keyboard(page):
    active = "((one) => one.matches('.plan') ? '' : one.innerText || one.id)(document.activeElement)"

    def go_to(words: str) -> None:
        for _ in range(80):
            page.press("Tab")
            if words in page.run(active):
                return
        raise AssertionError(f"the keyboard does not reach {words}")

    go_to("Beds")
    page.press("Enter")
    assert page.run("document.activeElement.innerText") == "Beds"
    go_to("North")
    page.press("Enter")
    assert page.text("h1") == "North"
    go_to("Write down")
    page.press("Enter")
    page.wait("document.querySelector('#f-words')")
    go_to("f-words")
    page.type("By keyboard")
    go_to("Keep")
    page.press("Enter")
    assert "Kept: By keyboard" in page.text(".message").replace("\u2068", "").replace("\u2069", "")
    page.wait("document.querySelector('h1').innerText === 'North'")
    for _ in range(80):
        page.press("Tab")
        if page.run("document.activeElement.type") == "checkbox":
            break
    page.press(" ")
    assert page.run("document.activeElement.checked"), "the focus stays on the box"
    assert "Notes (2)" in page.text("nav")


@pytest.mark.parametrize("dark", [False, True])
def test_targets_are_large_texts_readable_and_nothing_is_wider_than_the_screen(page, dark):
    page.look(dark=dark)
    page.tap("label.tick", "Harden off")
    for place in (
        "work",
        "beds",
        "bed/b1",
        "bed/b2",
        "notes",
        "write/measured/bed/b1",
        "write/picked/planting/p1",
    ):
        page.run(f"location.hash = '#{place}'")
        page.wait(f"location.hash === '#{place}' && document.querySelector('h1')")
        page.run("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        assert page.run("document.documentElement.scrollWidth") <= WIDTH, place
        assert page.run(SMALL) == [], place
        assert page.run(FAINT) == [], place
        assert page.run(NAMELESS) == [], place
        page.run("document.documentElement.style.fontSize = '200%'")
        page.run("window.dispatchEvent(new Event('resize'))")
        assert page.run("document.documentElement.scrollWidth") <= WIDTH, f"{place}, letters twice as large"
        page.run("document.documentElement.style.fontSize = ''")
    assert page.faults() == []


#: Targets below 44 pixels, and texts below 16.  A link inside a paragraph would be an exception: there is none.
SMALL = """[
  ...[...document.querySelectorAll('button, a, select, textarea, summary, input')]
    .map((one) => one.closest('label') ?? one)
    .filter((one) => { const box = one.getBoundingClientRect(); return box.width < 44 || box.height < 44; }),
  ...[...document.querySelectorAll('#page *')].filter((one) =>
    [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim()) && parseFloat(getComputedStyle(one).fontSize) < 16),
].map((one) => one.outerHTML.slice(0, 120))"""
#: Texts with a contrast below 4.5 to what lies behind them, after WCAG 2.2.
FAINT = """(() => {
  const parts = (colour) => colour.match(/[\\d.]+/g).map(Number);
  const linear = (share) => (share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4);
  const bright = (colour) => {
    const [r, g, b] = parts(colour).map((part) => linear(part / 255));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const behind = (one) => {
    for (let at = one; at; at = at.parentElement) {
      const colour = parts(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] > 0) return getComputedStyle(at).backgroundColor;
    }
    return 'rgb(255, 255, 255)';
  };
  return [...document.querySelectorAll('#page *:not(svg *)')]
    .filter((one) => [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim()))
    .filter((one) => {
      const [light, dark] = [bright(getComputedStyle(one).color), bright(behind(one))].sort((a, b) => b - a);
      return (light + 0.05) / (dark + 0.05) < 4.5;
    })
    .map((one) => one.outerHTML.slice(0, 120));
})()"""
#: Fields without a label, buttons without a name, ids given twice.
NAMELESS = """[
  ...[...document.querySelectorAll('input, select, textarea')].filter((one) => !one.labels.length),
  ...[...document.querySelectorAll('button, a')].filter((one) => !(one.innerText.trim() || one.getAttribute('aria-label'))),
  ...[...document.querySelectorAll('[id]')].filter((one) => document.querySelectorAll('#' + CSS.escape(one.id)).length > 1),
].map((one) => one.outerHTML.slice(0, 120))"""


def test_hostile_names_are_shown_and_do_nothing(page):
    page.tap("nav a", "Beds")
    assert HOSTILE in page.text("ol.beds")
    assert ARABIC in page.text("ol.beds")
    page.tap("ol.beds a", HOSTILE)
    assert page.text("h1") == HOSTILE
    assert f"Wet. {HOSTILE}" in page.text()
    assert page.run("document.images.length") == 0
    assert page.run("document.scripts.length") == 2
    page.run("location.hash = '#write/%3Cimg%3E/bed/%3Cimg src=x onerror=alert(1)%3E'")
    page.wait("document.querySelector('h1').innerText === 'Write down'")
    page.run("location.hash = '#bed/%'")
    page.wait("document.querySelector('h1').innerText === 'Beds'")
    assert page.faults() == []


def test_an_inline_script_does_not_run(page):
    page.run(
        "document.body.append(Object.assign(document.createElement('script'), {textContent: 'window.ran = true'}))"
    )
    assert page.run("window.ran === undefined")
    assert any("Content Security Policy" in fault for fault in page.faults())
    assert page.run("fetch('https://example.org').then(() => 'sent', () => 'refused')") == "refused"


@pytest.mark.parametrize(
    "kept",
    [
        "{",
        "[]",
        '{"version": 1, "notes": 7}',
        '{"version": 1, "notes": [null, {"note": 3}, {"note": {"id": "<b>"}}], "draft": 7}',
    ],
)
def test_what_the_storage_holds_is_not_believed(page, address, kept):
    page.tap("label.tick", "Harden off")
    key = page.run("Object.keys(localStorage).find((key) => key.startsWith('bedwright-notes-'))")
    page.run(f"localStorage.setItem({json.dumps(key)}, {json.dumps(kept)})")
    page.open(address)
    assert page.text("nav").endswith("Notes")
    damaged = page.run(f"localStorage.getItem({json.dumps(key)} + '-damaged')")
    assert damaged == (None if kept.endswith("7}") and "draft" in kept else kept)
    page.tap("label.tick", "Harden off")
    assert "Notes (1)" in page.text("nav")
    assert page.faults() == []


def test_notes_of_two_tabs_are_kept_together(page, address):
    key = page.run("Object.keys(localStorage)")
    assert key == []
    page.tap("label.tick", "Harden off")
    name = page.run("Object.keys(localStorage)[0]")
    other = json.loads(page.run(f"localStorage.getItem({json.dumps(name)})"))
    note = {"id": "note-" + "b" * 32, "kind": "note", "day": "2026-05-01", "words": "From the other tab"}
    other["notes"].append({"note": note, "key": "", "saved": ""})
    page.run(f"localStorage.setItem({json.dumps(name)}, {json.dumps(json.dumps(other))})")
    page.tap("label.tick", "Spread")
    _, content = saved_notes(page)
    assert [one["kind"] for one in content["notes"]] == ["done", "note", "done"]


def test_without_storage_it_says_so_and_notes_can_still_be_saved(tmp_path, address):
    found = Chromium(tmp_path, storage=False)
    try:
        found.open(address)
        assert "keeps nothing for this page" in found.text("header [role=alert]")
        found.tap("label.tick", "Harden off")
        assert "Notes (1)" in found.text("nav")
        _, content = saved_notes(found)
        assert len(content["notes"]) == 1
        found.open(address)
        assert found.text("nav").endswith("Notes"), "nothing is kept"
        assert found.faults() == []
    finally:
        found.close()


def test_a_full_storage_is_said_and_the_note_lasts_until_the_page_is_closed(page):
    page.run("Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }")
    page.tap("label.tick", "Harden off")
    assert "no more room" in page.text("header [role=alert]")
    page.tap("label.tick", "Spread")
    assert "Notes (2)" in page.text("nav")
    _, content = saved_notes(page)
    assert len(content["notes"]) == 2


def test_more_notes_than_a_file_may_hold_are_not_begun(page, address):
    page.tap("label.tick", "Harden off")
    key = page.run("Object.keys(localStorage)[0]")
    long = {"kind": "note", "day": "2026-05-01", "words": "寒" * 2000}
    many = [{"note": {**long, "id": f"note-{number:032x}"}} for number in range(260)]
    page.run(
        f"localStorage.setItem({json.dumps(key)}, {json.dumps(json.dumps({'version': 1, 'notes': many}))})"
    )
    page.open(address)
    page.tap("label.tick", "Harden off")
    assert "The notes fill a file" in page.text(".message")
    path, _ = saved_notes(page)
    assert len(load_notes(path).notes) == 260


def test_notes_that_are_home_are_not_sent_again(page, tmp_path, address):
    page.tap("label.tick", "Harden off")
    path, content = saved_notes(page)
    after = take(plot(), preview(plot(), [load_notes(path)]))
    newer = tmp_path / "newer.html"
    write_pocket_page(Plan(after, 2026), newer, D(2026, 5, 21), DAY)
    for _ in range(20):  # the browser hands the storage from page to page in its own time
        page.open(newer.as_uri())
        if page.run("Object.values(localStorage).some((text) => text.includes('notes'))"):
            break
    assert page.text("nav").endswith("Notes"), "none that is not home"
    assert page.run("document.querySelectorAll('label.tick input:disabled:checked').length") == 1
    page.tap("nav a", "Notes")
    assert "In the garden already".casefold() in page.text().casefold()
    assert len(content["notes"]) == 1
    assert "Save as a file" not in page.text()
    page.tap("button", "Remove those that are in the garden")
    page.tap("button", "Really remove 1?")
    assert "Nothing is written down yet" in page.text()


def test_notes_leave_as_text_and_by_the_share_sheet_too(page):
    page.tap("label.tick", "Harden off")
    page.tap("nav a", "Notes")
    page.tap("button", "Show as text")
    assert [
        one["task"] for one in json.loads(page.run("document.getElementById('text').value"))["notes"]
    ] == ["harden off"]
    page.tap("button", "Copy the text")
    page.wait("/copied|Copied/.test(document.querySelector('.message').innerText)")
    page.run(
        "navigator.canShare = ({files}) => files.length === 1;"
        "navigator.share = async ({files}) => { window.shared = [files[0].name, files[0].type, await files[0].text()]; }"
    )
    page.run("location.hash = '#work'")
    page.wait("document.querySelector('label.tick')")
    page.tap("nav a", "Notes")
    page.tap("button", "Share")
    page.wait("document.querySelector('.message').innerText.startsWith('Shared as')")
    name, kind, text = page.run("window.shared")
    assert (name.endswith(".json"), kind) == (True, "application/json")
    assert len(read_notes(text.encode()).notes) == 1


def test_long_texts_and_pasted_control_characters_are_read_at_home(page):
    texts = {"words": "x" * 1999 + "😀😀", "measure": "a\tb\u0007", "measureUnit": "\u2028m", "value": "1,5"}
    page.run("location.hash = '#write/measured/bed/b1'")
    page.wait("document.querySelector('#f-measure')")
    for name, text in texts.items():
        page.run(
            f"(() => {{ const one = document.getElementById('f-{name}'); one.value = {json.dumps(text)};"
            "one.dispatchEvent(new Event('input')); })()"
        )
    page.tap("button", "Keep")
    path, _ = saved_notes(page)
    found = load_notes(path)
    assert found.broken == ()
    record = found.notes[0].record
    assert record is not None
    assert (record.words, record.measure, record.value, record.unit) == ("x" * 1999, "a b", 1.5, "m")


def test_the_phone_is_the_size_that_is_meant(page):
    assert page.run("[innerWidth, innerHeight]") == [WIDTH, HEIGHT]
