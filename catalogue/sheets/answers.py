"""What a person says of a sheet on the command line: ``HEADER=FIELD UNIT``, read and written."""

from __future__ import annotations

import re
import shlex
from collections.abc import Sequence

from catalogue.sheets.mapping import Column
from catalogue.sheets.sheet_fields import field_named, unit_named
from schema.errors import InputError
from schema.nearest import not_among


def column_told(text: str, names: Sequence[str]) -> Column:
    """The column that ``HEADER=FIELD [UNIT]`` tells, ``HEADER=`` one that is left out.

    ``names`` are the columns of the table (``column_names``). Raises InputError, UnknownName.

    >>> column_told("ID=inside_diameter mm", ["Code", "ID"])
    Column(header='ID', field='inside_diameter', unit='mm')
    """
    header, equals, rest = text.rpartition("=")
    if not equals:
        raise InputError(
            field="--column",
            given=text,
            problem="a column is told as HEADER=FIELD",
            allowed="HEADER=FIELD, HEADER=FIELD UNIT, or HEADER= to leave it out",
            example="ID=inside_diameter mm",
        )
    name = _named(header, names)
    field, _, unit = " ".join(rest.split()).partition(" ")
    if not field:
        return Column(name, "")
    known = field_named(field, path=f"--column {name}")
    return Column(name, known.name, unit_named(known, unit, path=f"--column {name}"))


def column_option(column: Column) -> str:
    """The option that tells a column, as it is typed into a shell.

    >>> column_option(Column("ID", "inside_diameter", "mm"))
    '--column "ID=inside_diameter mm"'
    """
    return option("--column", f"{column.header}={f'{column.field} {column.unit}'.strip()}")


def option(name: str, value: str) -> str:
    """An option with its value, between quotes where a shell needs them."""
    if re.fullmatch(r"[\w.,=-]+", value):
        return f"{name} {value}"
    return f'{name} "{value}"' if not re.search(r'["$`\\!]', value) else f"{name} {shlex.quote(value)}"


def _named(header: str, names: Sequence[str]) -> str:
    wanted = "".join(header.casefold().split())
    if header in names:
        return header
    for name in names:
        if "".join(name.casefold().split()) == wanted:
            return name
    raise not_among(names, field="--column", given=header, problem="the table has no such column")
