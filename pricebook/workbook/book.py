"""A workbook in the making: its looks, its sheets, its faults."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from pricebook.errors import ReportError, raise_all
from pricebook.files.writing import write_whole
from pricebook.workbook.page import Page
from pricebook.workbook.safe import sheet_names
from pricebook.workbook.styles import BASE, style

if TYPE_CHECKING:
    from xlsxwriter.format import Format

_OPTIONS = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
    "default_format_properties": {
        "font_name": BASE["font_name"],
        "font_size": BASE["font_size"],
    },
}


class Book:
    """A workbook that is written once, from values, and saved whole.

    Parameters
    ----------
    title : str
        Title of the document.
    currency : str
        The sign in front of money.
    paper : str
        "A4" or "Letter".
    on : date
        The day that the document bears.
    foot : str
        What stands at the foot of every page.
    """

    def __init__(
        self, title: str, *, currency: str, paper: str, on: date, foot: str
    ) -> None:
        import xlsxwriter

        self.currency, self.paper, self.foot = currency, paper, foot
        self.faults: list[str] = []
        self._names: list[str] = []
        self._formats: dict[str, Format] = {}
        self._stream = BytesIO()
        self._workbook = xlsxwriter.Workbook(self._stream, _OPTIONS)
        made = datetime(on.year, on.month, on.day)  # noqa: DTZ001 # a day, no moment
        self._workbook.set_properties({"title": title, "created": made})

    def page(self, name: str, widths: Sequence[float]) -> Page:
        """Add a sheet, under its own name or one near to it."""
        from pricebook.workbook.plain_sheet import PlainSheet

        (own,) = sheet_names([name], self._names)
        self._names.append(own)
        sheet = self._workbook.add_worksheet(own, PlainSheet)
        return Page(self, sheet, own, widths)

    def format(self, names: str) -> Format:
        """Return a style by the words for it, made once."""
        if names not in self._formats:
            properties = style(names, self.currency)
            self._formats[names] = self._workbook.add_format(properties)
        return self._formats[names]

    def save(self, path: Path) -> Path:
        """Write the file, whole or not at all.

        Raises
        ------
        ReportError
            If some text cannot stand in a cell, or the file cannot be written.
        """
        raise_all(ReportError, self.faults)
        self._workbook.close()
        content = self._stream.getvalue()

        def put(part: Path) -> None:
            part.write_bytes(content)

        return write_whole(path, put)


def foot(whose: str, version: str | None) -> str:
    """Return what stands at the foot of every page."""
    if version is None:
        from pricebook import __version__ as version

    return f"{whose}: pricebook {version}" if version else whose


def workbook_path(path: Path | str) -> Path:
    """Return where a workbook shall stand, or refuse a name that is none.

    Parameters
    ----------
    path : Path or str
        The file, named .xlsx.

    Returns
    -------
    Path
        The path.

    Raises
    ------
    ReportError
        If it is no path, or has another ending.

    Examples
    --------
    >>> workbook_path("cost.ods")
    Traceback (most recent call last):
        ...
    pricebook.errors.ReportError: cost.ods does not end in .xlsx; ...
    """
    if not isinstance(path, str | Path):
        raise ReportError(f"{path!r} is no file; name one that ends in .xlsx.")
    file = Path(path)
    if file.suffix.lower() != ".xlsx":
        raise ReportError(
            f"{file} does not end in .xlsx; that is the only kind that is written."
        )
    return file
