"""Where the demo data and the notebooks lie: in a checkout, or in a wheel."""

from __future__ import annotations

from pathlib import Path

from pricebook.errors import TableError

_PACKAGE = Path(__file__).resolve().parent.parent


def shipped(name: str) -> Path:
    """Return the shipped folder "data" or "notebooks".

    Parameters
    ----------
    name : str
        "data" or "notebooks".

    Returns
    -------
    Path
        The folder inside an installed package, or beside it in a checkout.
    """
    inside = _PACKAGE / f"_{name}"
    return inside if inside.is_dir() else _PACKAGE.parent / name


def inside_package(folder: Path) -> bool:
    """Tell whether a folder lies inside the installed package.

    Parameters
    ----------
    folder : Path
        The folder.

    Returns
    -------
    bool
        True for the demo data of a wheel, which nobody should change.
    """
    return _PACKAGE in folder.resolve().parents


def shop_folder(named: str | None, near: Path) -> Path:
    """Return the folder of the price book for a piece or an event.

    Parameters
    ----------
    named : str or None
        The folder that a person named; None: none was named.
    near : Path
        The piece file or event file.

    Returns
    -------
    Path
        The folder named; else `shop` beside the file's own folder; else the demo
        price book that ships with the package.

    Raises
    ------
    TableError
        If the folder named does not exist.
    """
    if named is not None:
        if not Path(named).is_dir():
            raise TableError(f"{named} is not a folder; name a price book's folder.")
        return Path(named)
    beside = near.resolve().parent.parent / "shop"
    return beside if beside.is_dir() else shipped("data") / "shop"
