"""Look at a file from outside before any of it is unpacked."""

from __future__ import annotations

import io
import lzma
import struct
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path

from pricebook.errors import ReportError

MOST_FILE_BYTES = 50_000_000
MOST_UNPACKED_BYTES = 150_000_000
MOST_SHARED_TEXT_BYTES = 30_000_000
MOST_PARTS = 5_000
_OLD_OFFICE = bytes.fromhex("D0CF11E0")
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
_DOCTYPE_WITHIN = 4096
BROKEN_ARCHIVE = (
    zipfile.BadZipFile, zlib.error, lzma.LZMAError, struct.error, EOFError, KeyError,
    NotImplementedError, OSError, RuntimeError, ValueError,
)  # fmt: skip
"""What unpacking raises on a broken archive."""
_AGAIN = "ask for the file again, as it was filled in"


def read_package(path: Path) -> bytes:
    """Return the bytes of a spreadsheet that is safe to unpack.

    Parameters
    ----------
    path : Path
        The file; it is read once and never written to.

    Returns
    -------
    bytes
        What is in it.

    Raises
    ------
    ReportError
        If it is missing, a folder, empty, too large, locked by a password, of
        another kind, truncated, renamed, or unpacks to more than a filled-in
        workbook can hold.

    Notes
    -----
    A password-protected workbook and one of the old binary kind begin alike, with
    the bytes D0 CF 11 E0. The size unpacked is what the archive's own list states;
    no part can unpack to more than that.
    """
    data = _bytes(path)
    _refuse_other_kinds(path, data)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            fault = next(_archive_faults(archive), None)
    except BROKEN_ARCHIVE:
        raise ReportError(
            f"{path} is damaged: it ends too early or was changed on the way; {_AGAIN}."
        ) from None
    if fault is not None:
        raise ReportError(f"{path} {fault}")
    if path.suffix.casefold() != ".xlsx":
        raise ReportError(
            f"{path} was renamed: its name does not end in .xlsx, as a filled-in "
            "workbook's does; give it that ending if it is the one that came back."
        )
    return data


def _bytes(path: Path) -> bytes:
    if path.is_dir():
        raise ReportError(f"{path} is a folder; name the workbook that came back.")
    if not path.is_file():
        raise ReportError(f"{path} does not exist; check the name.")
    try:
        size = path.stat().st_size
        if size > MOST_FILE_BYTES:
            raise ReportError(
                f"{path} has {size:,} bytes; a filled-in workbook has at most "
                f"{MOST_FILE_BYTES:,}; {_AGAIN}."
            )
        data = path.read_bytes()
    except OSError as error:
        raise ReportError(f"{path} cannot be opened: {error.strerror}.") from None
    if not data:
        raise ReportError(f"{path} is empty; {_AGAIN}.")
    return data


def _refuse_other_kinds(path: Path, data: bytes) -> None:
    if data.startswith(_OLD_OFFICE):
        if _ENCRYPTED in data:
            raise ReportError(
                f"{path} is protected by a password; open it, take the password off, "
                "and save it as .xlsx."
            )
        raise ReportError(
            f"{path} is protected by a password or of the old .xls kind; open it and "
            "save it as .xlsx without a password."
        )
    if not data.startswith(b"PK"):
        raise ReportError(
            f"{path} is no .xlsx workbook, whatever its name says; save it as .xlsx "
            f"from the spreadsheet program, or {_AGAIN}."
        )


def _archive_faults(archive: zipfile.ZipFile) -> Iterator[str]:
    """Find why an archive is not to be unpacked, the plainest reason first."""
    parts = archive.infolist()
    names = {part.filename for part in parts}
    size = sum(part.file_size for part in parts)
    if len(parts) > MOST_PARTS or size > MOST_UNPACKED_BYTES:
        yield (
            f"unpacks to {size:,} bytes in {len(parts):,} parts; a filled-in workbook "
            f"has at most {MOST_UNPACKED_BYTES:,} in {MOST_PARTS:,}; it is not opened."
        )
    if any(part.flag_bits & 1 for part in parts):
        yield "is protected by a password; take it off and save the file again."
    if "content.xml" in names and "mimetype" in names:
        yield (
            "is an OpenDocument file (.ods); open it and save it as .xlsx, then give "
            "that file."
        )
    if "xl/workbook.bin" in names:
        yield "is a binary workbook (.xlsb); open it and save it as .xlsx."
    if "[Content_Types].xml" not in names or not _has_workbook(names):
        yield "is a zip archive, but holds no workbook; give the .xlsx file itself."
    if any(name.casefold().endswith("vbaproject.bin") for name in names):
        yield "holds macros; save it as .xlsx, which cannot."
    yield from _part_faults(archive, parts)


def _has_workbook(names: set[str]) -> bool:
    return any(name.casefold().endswith("workbook.xml") for name in names)


def _part_faults(
    archive: zipfile.ZipFile, parts: list[zipfile.ZipInfo]
) -> Iterator[str]:
    """Find a part that is too large to read or declares entities of its own."""
    for part in parts:
        name = part.filename.casefold()
        if name.endswith("sharedstrings.xml") and (
            part.file_size > MOST_SHARED_TEXT_BYTES
        ):
            yield (
                f"holds {part.file_size:,} bytes of text; a filled-in workbook has at "
                f"most {MOST_SHARED_TEXT_BYTES:,}; it is not opened."
            )
        if name.endswith((".xml", ".rels")):
            with archive.open(part) as stream:
                start = stream.read(_DOCTYPE_WITHIN)
            if b"<!DOCTYPE" in start.replace(b"\0", b""):
                yield (
                    f"declares a document type in {part.filename}; no workbook does, "
                    "so it is not opened."
                )
