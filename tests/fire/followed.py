"""Plans, findings and light that follow random edits, held against those of the edited garden looked at anew.

The tests follow a few such sequences themselves, so none is tried with them here.
"""

from __future__ import annotations

from random import Random

from checks import test_light_follows, test_run
from plan import test_followed_plan


def facts(rng: Random) -> str:
    """Every fact of a plan."""
    name = rng.choice(test_followed_plan.SAMPLES)
    test_followed_plan.follow(rng, name, light=rng.random() < 0.3, later=True)
    return ""


def findings(rng: Random) -> str:
    """Findings, but for those of light."""
    test_run.follow_edits(rng, rng.choice(sorted(test_run.GARDENS)), 40)
    return ""


def light(rng: Random) -> str:
    """Findings of light."""
    test_light_follows.follow_light(rng, rng.choice(sorted(test_light_follows.GARDENS)), 40, 4)
    return ""


ATTACKS = {"followed facts": facts, "followed findings": findings, "followed light": light}
