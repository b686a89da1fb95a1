"""`pricebook new FOLDER`: a maker's own working copy."""

from __future__ import annotations

import argparse
import shutil
from pathlib import Path

from pricebook.errors import ReportError
from pricebook.files.places import shipped

_LEFT_OUT = shutil.ignore_patterns(".*", "__pycache__")


def run(given: argparse.Namespace) -> None:
    """Copy notebooks and data into a new folder, and never over an old one."""
    folder = Path(given.folder)
    copy_to(folder)
    print(f"{folder}: notebooks and data are yours to change.")
    print(f"Next: pricebook open {folder}")


def copy_to(folder: Path) -> None:
    """Copy notebooks and data into a folder that is new or empty.

    Parameters
    ----------
    folder : Path
        The folder to make.

    Raises
    ------
    ReportError
        If something stands there already, or it cannot be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise ReportError(
            f"{folder} is there already and stays as it is; name a new folder."
        )
    try:
        for name in ("notebooks", "data"):
            shutil.copytree(shipped(name), folder / name, ignore=_LEFT_OUT)
    except OSError as error:
        raise ReportError(f"{folder} cannot be written: {error.strerror}.") from None
