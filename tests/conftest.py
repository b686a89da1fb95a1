"""What every test run says at its end."""

import csv
from pathlib import Path

import pytest

DATA = Path(__file__).parent.parent / "data"
_reported = pytest.StashKey[list[str]]()


def pytest_configure(config):
    config.stash[_reported] = []


def pytest_collection_modifyitems(config, items):
    marked = [item.nodeid for item in items if item.get_closest_marker("unconfirmed")]
    config.stash[_reported] = marked


def pytest_terminal_summary(terminalreporter, config):
    marked = set(config.stash[_reported])
    ran = {
        report.nodeid
        for outcome in ("passed", "failed")
        for report in terminalreporter.stats.get(outcome, [])
        if report.when == "call"
    }
    terminalreporter.write_line(
        f"{len(marked & ran)} checks rest on a figure from memory (unconfirmed)."
    )


def _rows(path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="session")
def reference():
    """Return a function that reads the rows of a file of data/reference."""
    return lambda name: _rows(DATA / "reference" / f"{name}.csv")


@pytest.fixture(scope="session")
def wood_rows():
    """Rows of every reference file that describes woods, file by file."""
    files = sorted((DATA / "reference").glob("*.csv"))
    tables = [_rows(file) for file in files]
    return [row for rows in tables if rows and "species" in rows[0] for row in rows]
