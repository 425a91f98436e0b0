"""``bedwright manual``: the manual as a page or PDF."""

from __future__ import annotations

import pytest


def test_what_is_to_be_written_must_be_said_and_end_as_a_page_or_pdf(bedwright, tmp_path):
    assert bedwright("manual")[0] == 2
    code, _, error = bedwright("manual", "-o", str(tmp_path / "manual.txt"))
    assert code == 2
    assert ".html or .pdf" in error


@pytest.mark.gui
@pytest.mark.qt_log_ignore("This plugin does not support")
def test_a_page_is_written_and_replaces_no_other(bedwright, tmp_path, monkeypatch):
    monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
    target = tmp_path / "manual.html"
    code, out, _ = bedwright("manual", "-o", str(target), "--language", "de", "--no-pictures")
    assert (code, "22" in out) == (0, True)
    text = target.read_text("utf-8")
    assert "Das erste Blatt in fünf Minuten" in text
    assert "<strong>File › Bed sheets as PDF…</strong>" in text
    assert 'id="command.propose"' in text
    target.write_text("<html>mine</html>")
    code, _, _ = bedwright("manual", "-o", str(target), "--no-pictures")
    assert code == 2
    assert target.read_text() == "<html>mine</html>"
