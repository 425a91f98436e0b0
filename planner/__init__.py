"""Bedwright: plan what grows in which bed, how much of it, and when."""

__version__ = "0.1.0"
