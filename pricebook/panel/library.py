"""The widget library, which carries no types, and names for what passes through."""

from __future__ import annotations

from typing import Any

import IPython.display
import ipywidgets

widgets: Any = ipywidgets
notebook: Any = IPython.display
Widget = Any
Figure = Any
"""What the charts return; only they load the drawing library."""


def html_formatter() -> Any:  # noqa: ANN401 - the library carries no types
    """Return what makes HTML of values in the running notebook; None outside one."""
    shell = IPython.get_ipython()
    return shell and shell.display_formatter.formatters["text/html"]
