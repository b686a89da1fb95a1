"""Write files that appear whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path

from pricebook.errors import ReportError


def write_whole(path: Path, write: Callable[[Path], object]) -> Path:
    """Write a file so that nobody ever finds half of it.

    Parameters
    ----------
    path : Path
        Where the file shall stand; its folder is made when it is missing.
    write : callable
        Writes the file at the path that it is given, a neighbour of the final one.

    Returns
    -------
    Path
        The path.

    Raises
    ------
    ReportError
        If the folder or the file cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(
            prefix=".part-", suffix=path.suffix, dir=path.parent
        )
        os.close(handle)
    except OSError as error:
        raise ReportError(
            f"{path} cannot be written: {error.strerror}; choose another folder."
        ) from None
    part = Path(name)
    try:
        write(part)
        part.chmod(0o644)
        part.replace(path)
    except OSError as error:
        raise ReportError(f"{path} cannot be written: {error.strerror}.") from None
    finally:
        part.unlink(missing_ok=True)
    return path


def write_text(path: Path, text: str) -> Path:
    """Write a text file whole; see `write_whole`.

    Parameters
    ----------
    path : Path
        Where the file shall stand.
    text : str
        What it says.

    Returns
    -------
    Path
        The path.
    """
    return write_whole(path, lambda part: _save(part, text))


def _save(part: Path, text: str) -> None:
    part.write_text(text, encoding="utf-8")


def free_path(path: Path) -> Path:
    """Return a path that nothing stands at, numbered when it must be.

    Parameters
    ----------
    path : Path
        The path wished for.

    Returns
    -------
    Path
        The path itself, or one with -2, -3 ... before its ending.
    """
    number, found = 1, path
    while found.exists():
        number += 1
        found = path.with_name(f"{path.stem}-{number}{path.suffix}")
    return found
