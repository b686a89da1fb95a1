"""Faces to blocks: what is laid up from one set of leaves before it is cut apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pricebook.takeoff import Face


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """One face in a block.

    Parameters
    ----------
    face : Face
        The row of the take-off.
    name : str
        Its name, numbered where several share it.
    across_at_mm, along_at_mm : float
        Where its blank lies in the block. [mm]
    """

    face: Face
    name: str
    across_at_mm: float = 0.0
    along_at_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A face by itself, or a matched run of faces, laid up as one.

    Parameters
    ----------
    name : str
        What to call it in a refusal.
    across_mm, along_mm : float
        Its size, the overhang of every face included. [mm]
    copies : tuple of Copy
        The faces in it.
    """

    name: str
    across_mm: float
    along_mm: float
    copies: tuple[Copy, ...]


def copy_names(face: Face) -> list[str]:
    """Return the names of the copies of a face, numbered where there are several."""
    if face.count == 1:
        return [face.name]
    return [f"{face.name} ({n} of {face.count})" for n in range(1, face.count + 1)]


def blocks_of(faces: Sequence[Face]) -> list[Block]:
    """Return the matched runs in their order, then the other faces in theirs.

    Parameters
    ----------
    faces : sequence of Face
        The rows of the take-off.

    Returns
    -------
    list of Block
        A run is one block: side by side its widths add up, end to end its lengths;
        a narrower face of an end to end run keeps to the centre line.
    """
    runs = dict.fromkeys((f.piece, f.run) for f in faces if f.run is not None)
    blocks = [
        _run(str(run), [f for f in faces if (f.piece, f.run) == (piece, run)])
        for piece, run in runs
    ]
    for face in faces:
        if face.run is None:
            blocks += [_single(face, name) for name in copy_names(face)]
    return blocks


def _single(face: Face, name: str) -> Block:
    return Block(
        name=f'"{name}"',
        across_mm=face.cut_across_mm,
        along_mm=face.cut_along_mm,
        copies=(Copy(face=face, name=name),),
    )


def _run(run: str, faces: Sequence[Face]) -> Block:
    named = [(face, name) for face in faces for name in copy_names(face)]
    side_by_side = faces[0].run_direction == "side by side"
    widest = max(face.cut_across_mm for face in faces)
    copies, at = [], 0.0
    for face, name in named:
        if side_by_side:
            copies.append(Copy(face=face, name=name, across_at_mm=at))
            at += face.cut_across_mm
        else:
            aside = (widest - face.cut_across_mm) / 2
            copies.append(
                Copy(face=face, name=name, across_at_mm=aside, along_at_mm=at)
            )
            at += face.cut_along_mm
    return Block(
        name=f'run "{run}"',
        across_mm=at if side_by_side else widest,
        along_mm=max(face.cut_along_mm for face in faces) if side_by_side else at,
        copies=tuple(copies),
    )
