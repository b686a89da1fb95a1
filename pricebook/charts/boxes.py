"""Rectangles on a page, in points."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle.

    Parameters
    ----------
    left, bottom, right, top : float
        Its sides. [pt]
    """

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Its width. [pt]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Its height. [pt]."""
        return self.top - self.bottom

    @property
    def middle(self) -> tuple[float, float]:
        """Its middle. [pt]."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    @property
    def corners(self) -> list[tuple[float, float]]:
        """Its corners, in turn. [pt]."""
        return [
            (self.left, self.bottom),
            (self.right, self.bottom),
            (self.right, self.top),
            (self.left, self.top),
        ]

    def meets(self, other: Box) -> bool:
        """Tell whether two rectangles overlap."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )

    def holds(self, other: Box) -> bool:
        """Tell whether another lies inside."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.bottom <= other.bottom
            and other.top <= self.top
        )

    def shrunk(self, by: float) -> Box:
        """Return the rectangle with so much taken off every side."""
        return Box(self.left + by, self.bottom + by, self.right - by, self.top - by)

    def moved(self, right: float, up: float) -> Box:
        """Return the rectangle elsewhere."""
        return Box(
            self.left + right, self.bottom + up, self.right + right, self.top + up
        )

    def clear_of(self, others: Iterable[Box]) -> Box:
        """Return the most of the rectangle that no other overlaps, side by side."""
        free = self
        for other in others:
            if not free.meets(other):
                continue
            choices = [
                Box(other.right, free.bottom, free.right, free.top),
                Box(free.left, free.bottom, other.left, free.top),
                Box(free.left, other.top, free.right, free.top),
                Box(free.left, free.bottom, free.right, other.bottom),
            ]
            free = max(choices, key=lambda box: max(box.width, 0) * max(box.height, 0))
        return free

    @staticmethod
    def round_point(x: float, y: float, width: float, height: float) -> Box:
        """Return a rectangle about a point."""
        return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
