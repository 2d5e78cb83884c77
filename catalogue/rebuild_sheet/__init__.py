"""The rebuild sheet: the verdict on a whole unit as one HTML file, to read on a screen and to print.

Everything stands in the one file: style, drawings, sources. It asks nothing of the network and runs no
script. Jinja2 is imported when a sheet is made, and only then.
"""

from __future__ import annotations

from catalogue.rebuild_sheet.sheet import rebuild_sheet

__all__ = ["rebuild_sheet"]
