"""Veneer layout: faces and sheets to the cheapest plan that a person can cut."""

from pricebook.veneer.checking import check
from pricebook.veneer.fitting import fit
from pricebook.veneer.model import Cut, Fit, Offcut

__all__ = ["Cut", "Fit", "Offcut", "check", "fit"]
