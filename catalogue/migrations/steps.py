"""The list that the steps enter themselves in, in the order in which they are imported."""

from __future__ import annotations

from sqlite_utils import Migrations

STEPS = Migrations("borebook")
