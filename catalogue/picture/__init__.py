"""The gland picture: a working drawing of one ring in one gland, with the answer on it.

``gland_picture`` gives a complete SVG document; ``gland_picture_bytes`` the same as a file holds it.
Only the standard library and the project's own pure packages are used, and nothing is read from disk.
"""

from __future__ import annotations

from catalogue.picture.sheet import gland_picture, gland_picture_bytes

__all__ = ["gland_picture", "gland_picture_bytes"]
