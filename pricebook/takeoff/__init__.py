"""Faces along and across the grain, edges to band, holes to fill, area to coat."""

from pricebook.takeoff.rows import Edge, Face

__all__ = ["Edge", "Face"]
