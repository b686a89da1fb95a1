"""Faces along and across the grain, edges to band, holes to fill, area to coat."""

from pricebook.takeoff.measure import Coated, TakeOff, take_off
from pricebook.takeoff.rows import Edge, Face

__all__ = ["Coated", "Edge", "Face", "TakeOff", "take_off"]
