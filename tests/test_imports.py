"""No modules import each other in a circle, imports for type checking included."""

from __future__ import annotations

import grimp
import pytest


@pytest.fixture(scope="module")
def imports() -> grimp.ImportGraph:
    return grimp.build_graph("planner", exclude_type_checking_imports=False, cache_dir=None)


def circle_through(imports: grimp.ImportGraph, module: str) -> tuple[str, ...] | None:
    """A circle of imports that a module is part of: the chain from what it imports back to it."""
    for imported in sorted(imports.find_modules_directly_imported_by(module)):
        chain = imports.find_shortest_chain(imported, module)
        if chain:
            return (module, *chain)
    return None


def test_no_module_is_part_of_a_circle_of_imports(imports: grimp.ImportGraph) -> None:
    assert len(imports.modules) > 300
    circles = [circle for module in sorted(imports.modules) if (circle := circle_through(imports, module))]
    assert circles == []


def test_a_circle_would_be_found() -> None:
    imports = grimp.ImportGraph()
    for importer, imported in (("a", "b"), ("b", "c"), ("c", "a"), ("d", "a")):
        for module in (importer, imported):
            imports.add_module(module)
        imports.add_import(importer=importer, imported=imported)
    assert circle_through(imports, "a") == ("a", "b", "c", "a")
    assert circle_through(imports, "d") is None
