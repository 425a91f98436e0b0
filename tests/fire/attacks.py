"""Attacks: each tries one way in which work could be lost or the program could break."""

from __future__ import annotations

from fire.scoring import Try


def all_attacks() -> dict[str, Try]:
    """Every attack, by name."""
    from fire import (
        desk_work,
        faulty_files,
        followed,
        hostile_names,
        hostile_targets,
        kills,
        large,
        mutants,
        taken,
    )

    found: dict[str, Try] = {}
    for module in (
        mutants,
        faulty_files,
        hostile_names,
        hostile_targets,
        kills,
        large,
        desk_work,
        taken,
        followed,
    ):
        found.update(module.ATTACKS)
    return found
