"""The steps that make and change the tables of a catalogue: named, in order, appended, never edited.

Each step runs in one transaction and leaves its number in ``PRAGMA user_version``, by which an older
program knows that a file is newer than itself. Word lists are spelt out in each step, since a step
must do the same for ever; a test compares them with ``schema``.
Tables are STRICT; a column without a value is NULL. Lengths are kept as the text that was given and
as nominal size and limits in mm, so that they can be searched and still be read back exactly.
"""

from __future__ import annotations

# Imported in their order: each enters itself in the list.
from catalogue.migrations import parts_units_places  # isort: skip
from catalogue.migrations import every_field  # isort: skip
from catalogue.migrations import offers_and_loads  # isort: skip
from catalogue.migrations.steps import STEPS

__all__ = ["STEPS", "every_field", "offers_and_loads", "parts_units_places"]
