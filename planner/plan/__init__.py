"""One garden worked out for one growing year: the derived facts, each computed once."""

from planner.plan.plan import Plan

__all__ = ["Plan"]
