"""Unit files as they are read: texts as written, where each stands, and every fault with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.faults import Mark
from catalogue.unit_files.reading import LARGEST_BYTES, UnitFile, read_unit_file, read_unit_text
from schema.errors import InputError
from tests.command import UNIT_PATHS

GOOD = """\
# a comment
unit: wren-1
kind: Coil shock
temperature: -10..60 degC
stroke: 050.0 mm
tools: [soft jaws, "drain tray"]
notes: "first: second"
shafts:
  damper shaft: LV-1
places:
  Seal:
    kind: rod-gland
    back-up-rings: 1
    surface_finish_running:
    spring: no
    parts:
      - LV-1
      - {part: LV-2, quantity: 01, renew: always}
      - part: LV-3
        quantity: 2
        renew: Inspect
parts:
  LV-1: {kind: shaft}
"""


@pytest.fixture
def good() -> UnitFile:
    """A file without a fault."""
    return read_unit_text(GOOD, name="wren.yaml")


def test_texts_stand_as_they_are_written(good: UnitFile) -> None:
    """No text becomes a number, a date or a truth value; what is structure has one form."""
    assert good.faults == ()
    assert good.texts == {
        "unit": "wren-1",
        "kind": "coil_shock",
        "temperature": "-10..60 degC",
        "stroke": "050.0 mm",
        "tools": "soft jaws; drain tray",
        "notes": "first: second",
        "shafts": {"damper shaft": "LV-1"},
        "places": {
            "Seal": {
                "kind": "rod_gland",
                "back_up_rings": "1",
                "spring": "no",
                "parts": ["LV-1", "LV-2", {"part": "LV-3", "quantity": "2", "renew": "inspect"}],
            }
        },
        "parts": {"LV-1": {"kind": "shaft"}},
    }


@pytest.mark.parametrize(
    ("path", "given", "mark"),
    [
        pytest.param("stroke", "050.0 mm", Mark(5, 9), id="value of the head"),
        pytest.param("places.Seal.back_up_rings", "1", Mark(13, 20), id="value of a place"),
        pytest.param("places.Seal.back_up_rings", "back_up_rings", Mark(13, 5), id="name of a field"),
        pytest.param("places.Seal.parts.0", "LV-1", Mark(17, 9), id="bare part"),
        pytest.param("places.Seal.parts.2.quantity", "2", Mark(20, 19), id="quantity"),
        pytest.param("shafts.damper shaft", "LV-1", Mark(9, 17), id="shaft"),
        pytest.param("places.Seal.shaft_diameter", "", Mark(11, 3), id="missing: its place"),
        pytest.param("places", "", Mark(11, 3), id="section"),
        pytest.param("nothing.of.it", "", Mark(1, 1), id="missing altogether"),
    ],
)
def test_every_path_has_its_line(good: UnitFile, path: str, given: str, mark: Mark) -> None:
    """An error is told at the line and column of the name or of the value that it is about."""
    assert good.mark(path, given) == mark


def test_an_error_is_told_with_how_to_mend_it(good: UnitFile) -> None:
    """An error of schema reads as a sentence with file, line, column, path, problem and remedy."""
    error = InputError(field="stroke", given="050.0 mm", problem="is odd", allowed="50 mm", example="51 mm")
    told = "wren.yaml, line 5, column 9: stroke: is odd (given: '050.0 mm'). To do: 50 mm, for example 51 mm"
    assert str(good.fault(error)) == told


HEAD = "unit: wren-1\nkind: damper\n"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", r"line 1, column 1: a unit file holds named entries"),
        ("- a\n", r"line 1, column 1: a unit file holds named entries"),
        (HEAD + "unit: b\n", r"line 3, column 1: unit: is given twice, first in line 1"),
        (HEAD + "stroke: &a 5 mm\n", r"line 3, column 9: an anchor is not read here \(given: '&a'\)"),
        (HEAD + "stroke: *a\n", r"line 3, column 9: an alias is not read here \(given: '\*a'\)"),
        (HEAD + "stroke: !!float 5\n", r"line 3, column 9: a tag is not read here"),
        (HEAD + "notes:\tx\n", r"line 3, column 7: a tab stands here\. To do: use spaces"),
        (
            HEAD + "places:\n  a:\n    kind: eyelet\n\twidth: 5 mm\n",
            r"line 6, column 1: a tab stands here\. To do: use spaces",
        ),
        (HEAD + "notes: a\x00b\n", r"line 3, column 9: the sign '\\x00' cannot be printed"),
        (HEAD + 'notes: "a\\u2028b"\n', r"line 3, column 8: the sign '\\u2028' cannot be printed"),
        (HEAD + 'notes: "\\ud800"\n', r"line 3, column 8: the sign '\\ud800' cannot be printed"),
        (HEAD + "notes: a: b\n", r"line 3, column 9: a second colon\. To do: put the text between quotes"),
        (HEAD + "notes: @b\n", r"line 3, column 8: no text begins with this sign"),
        (HEAD + "notes: 'b\n", r"line 3, column 8: a quote is opened and not closed"),
        (HEAD + "notes:\n  b: 1\n c: 2\n", r"line 5, column 2: this is not YAML"),
        (HEAD + "notes: {a: b}\n", r"line 3, column 8: notes: a text is expected here"),
        (HEAD + "tools: [a, [b]]\n", r"line 3, column 8: tools: a text is expected here"),
        (HEAD + "tools: ['a, b']\n", r"tools: an entry of this list has a , or ; in it"),
        (HEAD + "---\nunit: c\n", r"line 3, column 1: a second document begins here"),
        (HEAD + "? [a]\n: b\n", r"line 3, column 3: a name is one line of text"),
        (HEAD + "'': b\n", r"line 3, column 1: a name is one line of text"),
        (HEAD + "places: 3\n", r"line 3, column 9: places: this section holds named entries"),
        (HEAD + "places:\n  a: 3\n", r"line 4, column 6: places\.a: this holds named fields"),
        (HEAD + "places:\n  a/b: {}\n", r"line 4, column 3: places\.a/b: a name has no / in it"),
        (
            HEAD + "places:\n  a: {}\n  A: {}\n",
            r"line 5, column 3: places\.A: is given twice, first in line 4",
        ),
        (HEAD + "places:\n  a:\n    parts: X\n", r"line 5, column 12: places\.a\.parts: parts are told as a"),
        (HEAD + "places:\n  a:\n    parts: [[X]]\n", r"places\.a\.parts\.0: a part is told by its number"),
        (
            HEAD + "places:\n  a:\n    parts: [X, {part: x}]\n",
            r"line 5, column 16: places\.a\.parts\.1: is listed twice, first in line 5",
        ),
        (
            HEAD + "places:\n  a:\n    run-out: 1\n    run_out: 1\n",
            r"line 6, column 5: places\.a\.run_out: is given twice, first in line 5",
        ),
        (HEAD + "[" * 30, r"this stands too deep|this is not YAML"),
    ],
)
def test_faults_are_told_with_their_line(text: str, told: str) -> None:
    """What is no plain nested text is refused with line, column and what to do."""
    faults = read_unit_text(text).faults
    assert len(faults) == 1
    with pytest.raises(AssertionError, match=told):
        raise AssertionError(str(faults[0]))


def test_all_faults_of_a_file_are_told_at_once() -> None:
    """Reading goes on after a fault, also after a line that is no YAML."""
    text = (
        "unit: a: b\nkind: &x damper\nkind: fork\nnotes: @home\nplaces:\n\tcap:\n    kind: *x\n    parts: Q\n"
    )
    faults = read_unit_text(text).faults
    assert sorted({one.line for one in faults}) == [1, 2, 3, 4, 6, 7, 8]


def test_a_long_chain_of_aliases_costs_nothing() -> None:
    """An alias is never followed, so a small file cannot become a large one."""
    lines = ["a0: &a0 [x, x]"] + [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]" for n in range(1, 40)]
    faults = read_unit_text("\n".join(lines)).faults
    assert sum("an alias is not read" in one.problem for one in faults) == 78


def test_files_that_cannot_be_read_at_all(tmp_path: Path) -> None:
    """A missing file, one in another encoding and one far too large are told as such."""
    missing = read_unit_file(tmp_path / "none.yaml")
    assert "none.yaml, line 1, column 1: the file cannot be read" in str(missing.faults[0])
    other = tmp_path / "latin.yaml"
    other.write_bytes("unit: a\nnotes: Öl\n".encode("latin-1"))
    assert "line 2, column 1: this is not UTF-8 text" in str(read_unit_file(other).faults[0])
    other.write_bytes(b"#" * (LARGEST_BYTES + 1))
    assert "are more than a unit has" in str(read_unit_file(other).faults[0])


def test_a_byte_order_mark_and_windows_lines_change_nothing(tmp_path: Path) -> None:
    """What editors on Windows put into a file is taken."""
    other = tmp_path / "windows.yaml"
    other.write_bytes(("\ufeff" + GOOD.replace("\n", "\r\n")).encode())
    assert read_unit_file(other).texts == read_unit_text(GOOD).texts


@pytest.mark.parametrize("path", UNIT_PATHS, ids=lambda path: path.stem)
def test_demo_units_have_no_fault(path: Path) -> None:
    """Every unit file of the demo reads without a fault."""
    assert read_unit_file(path).faults == ()
