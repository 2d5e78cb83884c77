"""Texts of other people's files as a terminal may show them: a sign that would steer it is told, not sent.

Control signs of either set (an escape sequence can rewrite the line above) and signs that turn the direction
of writing (which can make a part number read as another) are shown as the replacement sign.
"""

from __future__ import annotations

_STEERING = (
    *(sign for sign in range(0x20) if chr(sign) not in "\t\n"),
    *range(0x7F, 0xA0),
    0x061C,
    0x200E,
    0x200F,
    *range(0x2028, 0x202F),
    *range(0x2066, 0x206A),
)
_SHOWN = dict.fromkeys(_STEERING, "\ufffd")


def on_screen(text: str) -> str:
    """A text without signs that steer a terminal.

    >>> ascii(on_screen("20x3\\x9b2J"))
    "'20x3\\\\ufffd2J'"
    """
    return text if text.isascii() and text.isprintable() else text.translate(_SHOWN)
