"""Running the command line through its entry point."""

from __future__ import annotations

import pytest
from plot_garden import GARDEN

from planner.cli import main
from planner.storage import save


@pytest.fixture
def file(tmp_path):
    """A garden file of :data:`plot_garden.GARDEN`."""
    path = tmp_path / "plot.bedwright"
    save(GARDEN, path)
    return str(path)


@pytest.fixture
def bedwright(capsys):
    """Runs a command line; gives its exit code, output and complaints."""

    def run(*arguments: str) -> tuple[int, str, str]:
        code = main(arguments)
        out, err = capsys.readouterr()
        assert "Traceback" not in err
        return code, out, err

    return run


@pytest.fixture
def refused(bedwright):
    """Runs a command line that must fail; gives its one line."""

    def run(*arguments: str) -> str:
        code, out, err = bedwright(*arguments)
        assert code == 2
        assert out == ""
        assert err.startswith("bedwright: ")
        assert err.endswith((".\n", "?\n"))
        assert err.count("\n") == 1
        return err

    return run
