"""Controls for the notebooks: a change, one call, a picture and a table.

This is the only part that loads ipywidgets.
"""

from pricebook.panel.cost import CostPanel, cost_panel
from pricebook.panel.frame import Panel
from pricebook.panel.gallery import Gallery, pictures

__all__ = ["CostPanel", "Gallery", "Panel", "cost_panel", "pictures"]
