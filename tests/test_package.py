"""The package's own names, and how little loading it takes to ask for help."""

import subprocess
import sys

import pytest

import pricebook

HEAVY = ("pandas", "matplotlib", "scipy", "numpy", "ipywidgets", "xlsxwriter")


@pytest.mark.parametrize("name", pricebook.__all__)
def test_every_name_that_others_rely_on_is_there(name):
    assert getattr(pricebook, name) is not None


def test_a_name_that_is_not_there_is_an_attribute_error():
    with pytest.raises(AttributeError, match="has no attribute 'nothing'"):
        pricebook.nothing  # noqa: B018


@pytest.mark.parametrize(
    "lines",
    [
        "import pricebook",
        "from pricebook.__main__ import parser; parser().format_help()",
    ],
)
def test_start_up_loads_no_heavy_library(lines):
    script = f"{lines}\nimport sys\nprint([m for m in {HEAVY!r} if m in sys.modules])"
    found = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert found.stdout.strip() == "[]"


def test_wrong_usage_leaves_with_two_and_help_with_zero():
    for arguments, code in ((["price"], 2), (["nonsense"], 2), (["--help"], 0)):
        done = subprocess.run(
            [sys.executable, "-m", "pricebook", *arguments],
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == code
