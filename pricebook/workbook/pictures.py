"""Whether a picture is whole, so that every spreadsheet program can show it."""

from __future__ import annotations

import struct
import zlib

_PNG = b"\x89PNG\r\n\x1a\n"
_JPEG, _JPEG_END = b"\xff\xd8\xff", b"\xff\xd9"
_CHUNK_FRAME = 12
"""Length, name and checksum around the data of a chunk of a PNG file. [bytes]"""


def picture_fault(picture: bytes) -> str:
    r"""Say why a picture cannot be shown, or nothing if it can.

    Parameters
    ----------
    picture : bytes
        The file.

    Returns
    -------
    str
        Empty for a whole PNG or JPEG file.

    Notes
    -----
    PNG: every chunk has its checksum, the pixels unpack, and IEND is there
    (ISO/IEC 15948, clause 5). JPEG: it ends with its end marker (ISO/IEC 10918-1,
    annex B); its pixels are not unpacked.

    Examples
    --------
    >>> picture_fault(b"no picture")
    'is neither a PNG nor a JPEG file'
    >>> picture_fault(b"\xff\xd8\xff\xe0 cut")
    'is cut short or damaged'
    """
    if picture.startswith(_PNG):
        is_whole = _is_whole_png(picture)
    elif picture.startswith(_JPEG):
        is_whole = _JPEG_END in picture[-64:]
    else:
        return "is neither a PNG nor a JPEG file"
    return "" if is_whole else "is cut short or damaged"


def _is_whole_png(picture: bytes) -> bool:
    at, unpack = len(_PNG), zlib.decompressobj()
    while at + _CHUNK_FRAME <= len(picture):
        (length,) = struct.unpack_from(">I", picture, at)
        end = at + _CHUNK_FRAME + length
        if end > len(picture):
            return False
        body = picture[at + 4 : end - 4]
        if zlib.crc32(body) != struct.unpack_from(">I", picture, end - 4)[0]:
            return False
        if body[:4] == b"IEND":
            return unpack.eof
        if body[:4] == b"IDAT" and not _unpacks(unpack, body[4:]):
            return False
        at = end
    return False


def _unpacks(unpack: zlib._Decompress, data: bytes) -> bool:
    """Unpack a part of the pixels a little at a time; nothing of it is kept."""
    try:
        while data:
            unpack.decompress(data, 1 << 20)
            data = unpack.unconsumed_tail
    except zlib.error:
        return False
    return True
