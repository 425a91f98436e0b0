"""Settings and fixtures of all tests."""

from __future__ import annotations

import gc
import os
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from hypothesis.configuration import set_hypothesis_home_dir

from planner.checks import run
from planner.crops import Catalogue, load_catalogue

os.environ["BEDWRIGHT_LANGUAGE"] = "en"  # whatever the machine speaks; processes begun by tests too
set_hypothesis_home_dir(Path(tempfile.gettempdir()) / "bedwright-hypothesis")
settings.register_profile(
    "ci",
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
settings.load_profile("ci")


def pytest_collection_finish() -> None:
    """What imports and thousands of tests are made of stays to the end: the collector need not look through it."""
    gc.collect()
    gc.freeze()


def pytest_runtest_teardown() -> None:
    """Collect garbage where the tests of the window have taken that over from Python, and no events are handled."""
    if not gc.isenabled():
        gc.collect(1)


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """The shipped catalogue."""
    return load_catalogue()


@pytest.fixture(autouse=True)
def checks_do_not_fail(request, monkeypatch) -> None:
    """A check that fails is a fault that no test may overlook; ``may_fail`` marks the tests of just that."""

    def fail(_context, _name, _check, fault, _locate) -> None:
        raise fault

    if "may_fail" not in request.keywords:
        monkeypatch.setattr(run, "failed_check", fail)
