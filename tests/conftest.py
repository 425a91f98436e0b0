"""Settings and fixtures of all tests."""

from __future__ import annotations

import gc
import os
import tempfile
from pathlib import Path

import pytest
import warm_samples
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


#: Folders of tests about what is shown, printed or listed of a plan, rather than about how it is worked out.
TOLD = {"cli", "desk", "listings", "samples", "sheets"}


@pytest.fixture(autouse=True)
def warm(request, monkeypatch) -> None:
    """What is known of the sample gardens is worked out once; ``fresh`` marks the tests that need it worked out anew."""
    if request.path.parent.name in TOLD and "fresh" not in request.keywords:
        warm_samples.share(monkeypatch)


@pytest.fixture(autouse=True)
def checks_do_not_fail(request, monkeypatch) -> None:
    """A check that fails is a fault that no test may overlook; ``may_fail`` marks the tests of just that."""

    def fail(_context, _name, _check, fault, _locate) -> None:
        raise fault

    if "may_fail" not in request.keywords:
        monkeypatch.setattr(run, "failed_check", fail)
