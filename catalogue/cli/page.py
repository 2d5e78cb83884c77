"""Lines for the terminal: as wide as it is, within reason, the rest hung below."""

from __future__ import annotations

import shutil
import textwrap
from collections.abc import Iterable, Sequence

import click

from catalogue.cli.screen import on_screen

KEPT = "\u00a0"  # a space that holds its words together


def width() -> int:
    """Columns to print in; in a pipe what COLUMNS says, else 80."""
    return max(40, min(100, shutil.get_terminal_size((80, 24)).columns))


def say(text: str, hang: int = 4) -> None:
    """Print one line, wrapped; what does not fit hangs ``hang`` columns in. ``KEPT`` spaces do not break."""
    wide = width()
    lines = textwrap.wrap(
        on_screen(text).rstrip(),
        wide,
        subsequent_indent=" " * min(hang, wide // 3),
        break_on_hyphens=False,
    )
    click.echo("\n".join(line.rstrip() for line in lines).replace(KEPT, " "))


def table(rows: Iterable[Sequence[str]], *, indent: int = 0, hang: int | None = None) -> None:
    """Print rows in columns; the last one wraps under itself, or ``hang`` columns in."""
    kept = [list(row) for row in rows]
    if not kept:
        return
    widths = [max(len(row[column]) for row in kept) for column in range(len(kept[0]) - 1)]
    for row in kept:
        cells = [cell.ljust(wide) for cell, wide in zip(row, widths, strict=False)]
        head = " " * indent + "  ".join([*cells, ""])
        say(head + row[-1], len(head) if hang is None else hang)
