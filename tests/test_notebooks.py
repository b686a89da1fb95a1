"""Every notebook is short, stripped, complete, and runs in a fresh kernel."""

import re
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

ROOT = Path(__file__).parent.parent
NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
each_notebook = pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)


def read(path):
    return nbformat.read(path, as_version=4)


def code_cells(path):
    return [cell for cell in read(path).cells if cell.cell_type == "code"]


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    """Return a maker's own working copy, as `pricebook new` makes it."""
    folder = tmp_path_factory.mktemp("maker") / "bench"
    subprocess.run(
        [sys.executable, "-m", "pricebook", "new", str(folder)],
        check=True,
        capture_output=True,
    )
    return folder


def test_the_notebooks_are_numbered_in_reading_order():
    assert [path.name[:2] for path in NOTEBOOKS] == [
        f"{number}_" for number in range(1, len(NOTEBOOKS) + 1)
    ]
    assert NOTEBOOKS


@each_notebook
def test_a_notebook_asks_the_readers_question(path):
    title = read(path).cells[0].source.splitlines()[0]
    assert title.startswith("# ")
    assert title.endswith("?")
    words = re.sub(r"[^a-z ]", "", title.lower()).split()
    assert path.stem.split("_")[1:] == words[: len(path.stem.split("_")) - 1]


@each_notebook
def test_code_cells_are_few_short_and_each_follows_a_sentence(path):
    cells = read(path).cells
    code = code_cells(path)
    assert 3 <= len(code) <= 7
    for before, cell in pairwise(cells):
        if cell.cell_type == "code":
            assert len(cell.source.splitlines()) <= 10
            assert before.cell_type == "markdown"
            assert before.source.rstrip().endswith((".", "?"))


@each_notebook
def test_a_notebook_works_nothing_out_by_itself(path):
    for cell in code_cells(path):
        assert not re.search(r"^\s*(def|class|for|while)\b", cell.source, re.M)
        assert not re.search(r"\d\s*[-+*/]\s*\d|sum\(", cell.source)


@each_notebook
def test_controls_come_last_and_the_notebook_is_complete_without_them(path):
    *before, last = code_cells(path)
    assert "_panel(" in last.source
    assert all("_panel(" not in cell.source for cell in before)


@each_notebook
def test_each_picture_stands_above_a_table_and_a_sentence(path):
    *before, _ = [cell.source for cell in code_cells(path)]
    drawn = [source for source in before if "panel.pictures(" in source]
    assert drawn
    for source in drawn:
        below = source.split("panel.pictures(", 1)[1]
        assert "panel.say(" in below, source
        follows = below + before[(before.index(source) + 1) % len(before)]
        assert re.search(r"_table\(|_tables\(|frames\.shown\(", follows), source


def test_committed_notebooks_are_stripped():
    found = subprocess.run(
        [sys.executable, "-m", "nbstripout", "--verify", *map(str, NOTEBOOKS)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert found.returncode == 0, found.stdout + found.stderr


@each_notebook
def test_a_stripped_notebook_carries_no_more_than_its_kernel(path):
    notebook = read(path)
    assert set(notebook.metadata) == {"kernelspec", "language_info"}
    for cell in notebook.cells:
        assert cell.metadata == {}


def test_the_check_for_stripped_notebooks_fails_on_one_that_is_not(tmp_path):
    notebook = read(NOTEBOOKS[0])
    code = next(cell for cell in notebook.cells if cell.cell_type == "code")
    code.execution_count = 1
    nbformat.write(notebook, tmp_path / "run.ipynb")
    found = subprocess.run(
        [sys.executable, "-m", "nbstripout", "--verify", str(tmp_path / "run.ipynb")],
        capture_output=True,
        check=False,
    )
    assert found.returncode == 1


def errors_of(notebook):
    """List every error, and every traceback printed, in a notebook's outputs."""
    found = []
    for cell in notebook.cells:
        for output in cell.get("outputs", []):
            text = str(output.get("text", "")) + str(output.get("traceback", ""))
            if output.output_type == "error" or "Traceback" in text:
                found.append(text)
            if output.get("name") == "stderr" and text.strip():
                found.append(text)
    return found


@each_notebook
def test_a_notebook_runs_in_a_fresh_kernel_of_a_makers_copy(path, copy):
    place = copy / "notebooks"
    notebook = read(place / path.name)
    client = NotebookClient(
        notebook,
        timeout=120,
        kernel_name="python3",
        resources={"metadata": {"path": str(place)}},
        allow_errors=True,
    )
    client.execute()
    assert errors_of(notebook) == []
    outputs = [cell.outputs for cell in notebook.cells if cell.cell_type == "code"]
    shown = [output for some in outputs for output in some]
    kinds = {kind for output in shown for kind in output.get("data", {})}
    assert "application/vnd.jupyter.widget-view+json" in kinds
    html = "".join(str(o.get("data", {}).get("text/html", "")) for o in shown)
    assert "<img alt=" in html
    assert "<table" in html


def test_an_error_in_an_output_is_found():
    notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell("1 / 0")])
    NotebookClient(notebook, kernel_name="python3", allow_errors=True).execute()
    assert len(errors_of(notebook)) == 1


def test_the_demo_data_are_not_changed_by_running(copy):
    for path in sorted((ROOT / "data").rglob("*.*")):
        same = copy / "data" / path.relative_to(ROOT / "data")
        assert same.read_bytes() == path.read_bytes()
