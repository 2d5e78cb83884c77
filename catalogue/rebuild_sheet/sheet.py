"""Makes the sheet: everything in the words of the sheet, handed to one template."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from catalogue.picture.sizes import Unit as UnitOfLength
from catalogue.picture.strips import TONES
from catalogue.picture.style import style_sheet
from catalogue.rebuild_sheet.drawings import common_scales, shared
from catalogue.rebuild_sheet.findings import NOT_ASKED, Numbering, length_text, shown
from catalogue.rebuild_sheet.look import colours, page_lines
from catalogue.rebuild_sheet.places import Extent, numbered, parted, shown_places
from catalogue.rebuild_sheet.records import (
    cautions_of_one,
    gas_records,
    kit_rows,
    to_measure,
    tools,
    warnings,
)
from catalogue.rebuild_sheet.sizes import description_of
from catalogue.rebuild_sheet.sources import GIVEN, WORKED_OUT, Sources
from catalogue.rebuild_sheet.versions import versions
from schema.finding import WORST_FIRST
from schema.reference import Reference
from schema.unit import Unit
from schema.unit_verdict import UnitVerdict

if TYPE_CHECKING:
    from jinja2 import Environment

FOLDER = Path(__file__).parent
HEADS = {
    "does not fit": "Does not fit",
    "not proven": "Not proven",
    "fits": "Fits",
}
# Controls, halves of characters, what turns the direction of writing: none of it belongs on a sheet.
_NOT_TEXT = re.compile(
    "[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]"
)


def rebuild_sheet(
    unit: Unit,
    verdict: UnitVerdict,
    reference: Reference,
    *,
    unit_of_length: UnitOfLength = "mm",
    made_on: date,
    sheet_number: str = "",
    data_versions: Mapping[str, str] | None = None,
    extent: Extent = "whole",
) -> str:
    """The rebuild sheet of a unit as one HTML document; the same input gives the same text.

    A ``working`` sheet is for the bench: what fits is told in a row. A ``whole`` one tells every finding.

    ``verdict`` is that of ``fitcheck.unit.check.check_unit`` on this unit. ``unit_of_length`` is that of
    results: sizes stand as they were written. ``data_versions`` are versions of the catalogue by subject.
    """
    sources = Sources()
    described = sources.cite(description_of(unit.head), GIVEN)
    every = [one for place in verdict.places for one in place.verdict.findings] + list(verdict.findings)
    by = Numbering(sources, common_scales(every), unit_of_length)
    numbers = numbered(verdict)
    warned = warnings(verdict, numbers, sources)
    places = shown_places(unit, verdict, reference, by, cautions_of_one(verdict), extent)
    near, waiting, inside = parted(verdict.findings)
    measure = to_measure(unit, verdict, numbers, by)
    gas = gas_records(unit, numbers, by)
    whole = {
        "near": [shown(one, by, ()) for one in near],
        "waiting": [shown(one, by, (), drawn=False) for one in waiting],
        "inside": [shown(one, by, (), drawn=False) for one in inside],
    }
    not_asked_by = sources.cite(NOT_ASKED, WORKED_OUT)
    statuses = list(WORST_FIRST)
    context = {
        "unit": unit.head,
        "verdict": verdict,
        "measured": any(one.measured for found in every for one in found.influences),
        "described": described,
        "next_step": length_text(verdict.next_step, by),
        "made_on": made_on.isoformat(),
        "sheet_number": sheet_number,
        "inches": by.inches,
        "warnings": warned,
        "tools": tools(verdict, numbers),
        "kit": kit_rows(verdict.kit, numbers),
        "index": [places[number] for number in sorted(places)],
        "groups": [(status, [one for one in places.values() if one.status is status]) for status in statuses],
        "whole": whole,
        "whole_told": _counted(verdict),
        "measure": measure,
        "gas": gas,
        "not_asked_by": not_asked_by,
        "not_asked": _not_asked(verdict, numbers),
        "extent": extent,
        "equations": sources.equations(),
        "sources": sources.listed(),
        "versions": versions(unit, verdict.decision_rule, data_versions or {}),
        "tones": TONES,
        "heads": HEADS,
    }
    return (
        _environment()
        .get_template("sheet.html.jinja")
        .render(context | _looks(unit, verdict, made_on, sheet_number))
    )


def _counted(verdict: UnitVerdict) -> str:
    """How many findings on the unit as a whole have each status, worst first."""
    counts = [(status, sum(one.status is status for one in verdict.findings)) for status in WORST_FIRST]
    return ", ".join(f"{count} {status.value}" for status, count in counts if count)


def _not_asked(verdict: UnitVerdict, numbers: Mapping[str, int]) -> list[tuple[str, tuple[int, ...]]]:
    """What was not asked, each once, with the places it was not asked of; () for the unit as a whole."""
    at: dict[str, list[int]] = {text: [] for text in verdict.not_asked}
    for place in verdict.places:
        for text in place.verdict.not_asked:
            at.setdefault(text, []).append(numbers[place.name])
    return [(text, tuple(places)) for text, places in at.items()]


def _looks(unit: Unit, verdict: UnitVerdict, made_on: date, sheet_number: str) -> dict[str, Any]:
    """Style and shared drawings: text that is markup already."""
    from markupsafe import Markup

    lines = page_lines(
        left=cleaned(unit.head.unit),
        middle=made_on.isoformat(),
        right=f"Sheet {cleaned(sheet_number) or '__________'}",
        below=f"Rebuild sheet: {verdict.status.value}",
    )
    style = (FOLDER / "sheet.css").read_text(encoding="utf-8")
    return {
        "style": Markup(colours() + style_sheet() + style + lines),  # noqa: S704  # our own, names escaped
        "shared": Markup(shared()),  # noqa: S704  # our own, no text from outside
    }


@cache
def _environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    made = Environment(
        loader=FileSystemLoader(FOLDER),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        finalize=lambda value: cleaned(value) if type(value) is str else value,
    )
    made.filters["drawn"] = lambda text: Markup(_NOT_TEXT.sub("\ufffd", text))  # noqa: S704  # SVG that escapes its own texts
    return made


def cleaned(text: str) -> str:
    """A text without what HTML does not allow and without what turns the direction of writing."""
    return " ".join(_NOT_TEXT.sub("\ufffd", text).split())
