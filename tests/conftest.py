"""Settings and fixtures of all tests."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from hypothesis.configuration import set_hypothesis_home_dir

from planner.crops import Catalogue, load_catalogue

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


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """The shipped catalogue."""
    return load_catalogue()
