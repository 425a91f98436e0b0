"""bedwright new and bedwright schema."""

from __future__ import annotations

import json

import jsonschema
from plot_garden import GARDEN

from planner.cli.samples import samples
from planner.storage import dump, load


def test_new_from_each_sample(bedwright, tmp_path):
    assert samples()
    for name, path in samples().items():
        out = tmp_path / f"{name}.bedwright"
        assert bedwright("new", str(out), "--sample", name)[0] == 0
        assert load(out) == load(path)


def test_new_never_overwrites(refused, file):
    assert "is not overwritten" in refused("new", file, "--sample", next(iter(samples())))
    assert load(file) == GARDEN


def test_new_does_not_follow_a_link_to_nothing(refused, tmp_path):
    (tmp_path / "link").symlink_to(tmp_path / "plot.bedwright")
    refused("new", str(tmp_path / "link"), "--sample", next(iter(samples())))
    assert not (tmp_path / "plot.bedwright").exists()


def test_new_from_a_sample_there_is_not(refused, tmp_path):
    name = next(iter(samples()))
    line = refused("new", str(tmp_path / "x.bedwright"), "--sample", name[:-1])
    assert f"Did you mean {name}?" in line
    assert "there is no sample '../x'" in refused("new", str(tmp_path / "x.bedwright"), "--sample", "../x")


def test_schema(bedwright):
    code, out, _ = bedwright("schema")
    assert code == 0
    jsonschema.Draft202012Validator(json.loads(out)).validate(json.loads(dump(GARDEN)))
