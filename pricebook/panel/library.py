"""The widget library, which carries no types: its parts are checked at run time."""

from __future__ import annotations

from typing import Any

import IPython.display
import ipywidgets

widgets: Any = ipywidgets
notebook: Any = IPython.display
Widget = Any
