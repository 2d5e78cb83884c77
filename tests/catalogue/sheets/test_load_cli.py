"""``borebook load``: what is printed, what is written, how it ends."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.catalogue.sheets.command_sheets import (
    BAD,
    HEADER,
    KOLBRING,
    A,
    B,
    Run,
    kept_mapping,
    offered_codes,
    run_on_shop,
    sheet_of_lines,
)
from tests.catalogue.sheets.small_loads import rows, whole

__all__ = ["run_on_shop", "sheet_of_lines"]  # fixtures


# -- what has to be said --------------------------------------------------------------------------------


def test_whose_sheet_it_is_must_be_said(run: Run, sheet: Callable[..., str]) -> None:
    """An error that tells how, and status 2."""
    ran = run("load", sheet(A))
    assert ran.status == 2
    told = " ".join(ran.err.split())
    assert "--supplier: is missing: it tells whose sheet this is. Allowed: a name" in told
    assert "--supplier Kolbring" in ran.err


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--column", "Code"), "a column is told as HEADER=FIELD"),
        (("--column", "No such=code"), "the table has no such column"),
        (("--column", "Code=colour"), "there is no such field"),
        (("--column", "ID (mm)=inside_diameter parsec"), "this is not a unit that inside_diameter may have"),
        (("--every", "kind"), "is told as NAME=TEXT"),
        (("--every", "kind=sprocket"), "there is no such kind of part"),
        (("--every", "currency=EURO"), "no currency has this code"),
        (("--same", "A-1"), "is told as NAME=TEXT"),
        (("--sheet", "Prices"), "this file has no such table"),
        (("--encoding", "klingon"), "klingon"),
        (("--own-parts",), "a list of own parts has no supplier"),
        (("--decimal", ";"), "--decimal"),
        (("--covers", "most"), "--covers"),
    ],
)
def test_what_is_said_wrongly_is_told(
    run: Run, sheet: Callable[..., str], shop: Path, options: tuple[str, ...], told: str
) -> None:
    """Nothing is written; the message names the option's fault; no traceback."""
    before = whole(shop)
    ran = run("load", sheet(A.replace("o_ring", "O-ring")), *KOLBRING, "--yes", *options)
    assert ran.status != 0
    assert told in " ".join(ran.err.split())
    assert "Traceback" not in ran.err
    assert whole(shop) == before


@pytest.mark.parametrize(
    "arguments",
    [("load", "no-such.csv", *KOLBRING), ("load", "no-such.csv", "--mapping", "no-such.yaml")],
)
def test_a_file_that_is_not_there_is_told(run: Run, arguments: tuple[str, ...]) -> None:
    """Its name, and no traceback."""
    ran = run(*arguments)
    assert ran.status == 1
    assert "no-such" in ran.err


def test_questions_end_with_status_2_and_write_nothing(
    run: Run, sheet: Callable[..., str], shop: Path
) -> None:
    """Each question has its answers as they are typed; --yes answers none of them."""
    before = whole(shop)
    ran = run("load", sheet(A, B, header=HEADER.replace(" (mm)", "")), *KOLBRING, "--yes")
    assert ran.status == 2
    assert "To be told first:" in ran.out
    assert '--column "ID=inside_diameter mm"' in ran.out
    assert "Nothing was written." in ran.out
    assert whole(shop) == before
    assert not kept_mapping(shop).exists()


def test_the_printed_answers_answer_the_questions(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """The first answer of each question, typed as it stands, loads the sheet."""
    name = sheet(A, B, header=HEADER.replace(" (mm)", ""))
    ran = run(
        "load", name, *KOLBRING, "--yes",
        "--column", "ID=inside_diameter mm", "--column", "CS=cross_section mm",
    )  # fmt: skip
    assert ran.status == 0
    assert offered_codes(shop) == ["A-1", "B-2"]


# -- looking and loading --------------------------------------------------------------------------------


def test_a_dry_run_ends_with_0_and_writes_nothing(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """Also beside --yes: the catalogue and the kept mappings are as they were."""
    before = whole(shop)
    ran = run("load", sheet(A, B), *KOLBRING, "--dry-run", "--yes")
    assert ran.status == 0
    assert "New (2)" in ran.out
    assert "Nothing was written: this was a dry run." in ran.out
    assert whole(shop) == before
    assert not kept_mapping(shop).exists()


def test_without_a_yes_nothing_is_loaded(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """Where nobody can be asked: the report, how to load it, status 1."""
    before = whole(shop)
    ran = run("load", sheet(A, B), *KOLBRING)
    assert ran.status == 1
    assert "Nothing was written. To load it: the same command with --yes" in ran.out
    assert whole(shop) == before
    assert not kept_mapping(shop).exists()


def test_with_a_yes_it_is_loaded_and_the_mappingkept_mapping(
    run: Run, sheet: Callable[..., str], shop: Path
) -> None:
    """The number of the load and how to take it back are told."""
    ran = run("load", sheet(A, B), *KOLBRING, "--yes")
    assert ran.status == 0
    assert "This is load 1. To take it back: borebook loads undo 1" in ran.out
    assert offered_codes(shop) == ["A-1", "B-2"]
    assert "Code: code" in kept_mapping(shop).read_text(encoding="utf-8")


def test_the_same_file_again_needs_no_yes(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """There is nothing to agree to: status 0."""
    name = sheet(A, B)
    run("load", name, *KOLBRING, "--yes")
    before = whole(shop)
    ran = run("load", name, *KOLBRING)
    assert ran.status == 0
    assert "This file was loaded already (load 1); nothing changes." in ran.out
    assert whole(shop) == before


def test_a_doubtful_row_is_taken_by_its_option(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """A price that jumps, first kept back and then taken."""
    run("load", sheet(A), *KOLBRING, "--yes")
    name = sheet(A.replace("1.00", "9.00"))
    kept_back = run("load", name, *KOLBRING, "--yes")
    assert "Doubtful (1), kept back until you say that they are meant" in kept_back.out
    assert "--take CODE, or --take-doubtful for all" in " ".join(kept_back.out.split())
    assert rows(shop, "SELECT price FROM offer") == [("1",)]
    run("load", name, *KOLBRING, "--yes", "--take-doubtful")
    assert rows(shop, "SELECT price FROM offer") == [("9",)]


def test_own_parts_are_loaded_by_their_option(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """A list without prices, whose numbers are ours."""
    name = sheet("W-1,Ring,o_ring,305 mm,3.5 mm,NBR,70", header="part_number,description,kind,"
                 "inside_diameter,cross_section,material,hardness_shore_a")  # fmt: skip
    ran = run("load", name, "--own-parts", "--yes")
    assert ran.status == 0, ran.out + ran.err
    assert rows(shop, "SELECT source FROM part WHERE part_number = 'W-1'") == [("sheet of own parts",)]
    assert "own parts" in run("loads").out


# -- the kept mapping -----------------------------------------------------------------------------------


def test_the_kept_mapping_reads_the_next_sheet(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """What was told once holds: columns, what every row has, what the sheet covers."""
    plain = HEADER.replace(" (mm)", "")
    told = ("--column", "ID=inside_diameter mm", "--column", "CS=cross_section mm")
    run("load", sheet(A, B, header=plain), *KOLBRING, "--yes", *told, "--covers", "whole_range")
    before = kept_mapping(shop).read_text(encoding="utf-8")
    ran = run("load", sheet(B, name="next.csv", header=plain), *KOLBRING, "--yes")
    assert ran.status == 0
    assert "Gone from the sheet (1)" in ran.out
    assert rows(shop, "SELECT listed FROM offer WHERE code = 'A-1'") == [(0,)]
    assert kept_mapping(shop).read_text(encoding="utf-8") == before


def test_a_kept_column_that_is_gone_is_asked_for(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """Status 2, nothing written, and the new column that looks like it is offered as the answer."""
    run("load", sheet(A), *KOLBRING, "--yes")
    before = whole(shop)
    name = sheet(A, header=HEADER.replace("Price EUR", "Net price"))
    ran = run("load", name, *KOLBRING, "--yes")
    assert ran.status == 2
    assert "'Price EUR' is gone" in ran.out
    assert '--column "Net price=price"' in ran.out
    assert whole(shop) == before
    answered = run("load", name, *KOLBRING, "--yes", "--column", "Net price=price", "--every", "currency=EUR")
    assert answered.status == 0
    assert "1 unchanged" in answered.out


def test_a_new_column_is_told_and_left_out(run: Run, sheet: Callable[..., str]) -> None:
    """It stops nothing."""
    run("load", sheet(A), *KOLBRING, "--yes")
    ran = run("load", sheet(f"{A},blue", header=f"{HEADER},Colour"), *KOLBRING, "--yes")
    assert ran.status == 0
    assert "'Colour' is new, is not known, and is left out" in " ".join(ran.out.split())


def test_a_kept_mapping_with_a_fault_is_told_with_its_line(
    run: Run, sheet: Callable[..., str], shop: Path
) -> None:
    """It may be edited by hand, so it may be wrong."""
    run("load", sheet(A), *KOLBRING, "--yes")
    kept = kept_mapping(shop)
    text = kept.read_text(encoding="utf-8")
    line = text.splitlines().index("  Code: code") + 1
    kept.write_text(text.replace("  Code: code\n", "  Code: cod\n"), encoding="utf-8")
    ran = run("load", sheet(A), *KOLBRING, "--yes")
    assert ran.status == 2
    assert f"Kolbring.yaml, line {line}, " in ran.err
    assert "there is no such field" in " ".join(ran.err.split())


def test_a_supplier_in_other_capitals_is_the_same(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """One mapping, one list of offers, one name."""
    run("load", sheet(A), *KOLBRING, "--yes")
    ran = run("load", sheet(A.replace("1.00", "1.10"), B), "--supplier", "kolBRING", "--yes")
    assert "Changed (1)" in ran.out
    assert rows(shop, "SELECT DISTINCT supplier FROM offer") == [("Kolbring",)]
    assert [one.name for one in kept_mapping(shop).parent.iterdir()] == ["Kolbring.yaml"]


def test_a_supplier_that_can_be_no_file_is_told(run: Run, sheet: Callable[..., str]) -> None:
    """The mapping could not be kept; a name that can be is proposed."""
    ran = run("load", sheet(A), "--supplier", "../Kol/bring", "--yes")
    assert ran.status == 2
    assert "this cannot be the name of a file everywhere" in " ".join(ran.err.split())


def test_a_same_part_that_is_told_iskept_mapping(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """--same CODE=PART."""
    line = "A-1,O-ring,o_ring,24.99,3.53,NBR,70,1.00"
    run("load", sheet(line), *KOLBRING, "--yes", "--same", "A-1=QV-1205")
    assert rows(shop, "SELECT part_number FROM offer") == [("QV-1205",)]
    assert "A-1: QV-1205" in kept_mapping(shop).read_text(encoding="utf-8")


# -- what was read --------------------------------------------------------------------------------------


def test_what_was_read_of_a_new_row_is_shown(run: Run, sheet: Callable[..., str]) -> None:
    """Kind, sizes with their units, material and hardness, where the sheet has no words for the article."""
    name = sheet('0071,,o_ring,"1 3/8""","1/8""",NBR,70,0.12')
    ran = run("load", name, *KOLBRING, "--dry-run")
    assert 'row 2, 0071: O-ring 1 3/8" x 1/8" NBR 70, 0.12 EUR; new part' in " ".join(ran.out.split())


def test_what_was_read_of_a_gone_code_is_shown(run: Run, sheet: Callable[..., str]) -> None:
    """The part says what it is, where the words of its row do not."""
    run("load", sheet(A, B), *KOLBRING, "--yes", "--covers", "whole_range")
    ran = run("load", sheet(A, name="next.csv"), *KOLBRING, "--dry-run")
    assert "B-2: O-ring middle (read as O-ring 302 mm x 3.5 mm NBR 70)" in " ".join(ran.out.split())


def test_a_load_that_took_nothing_fails(run: Run, sheet: Callable[..., str]) -> None:
    """Every row was refused: that is said, with status 1, and so is where the rows can be had."""
    ran = run("load", sheet(A.replace("NBR", "KZR")), *KOLBRING, "--yes")
    assert ran.status == 1
    assert "No row of this sheet was taken." in ran.out
    assert "Not taken (1); --rejected FILE writes these rows" in ran.out


def test_a_load_of_which_all_stands_already_is_no_failure(run: Run, sheet: Callable[..., str]) -> None:
    """Rows that are unchanged were taken before: status 0, also from another file."""
    run("load", sheet(A, B), *KOLBRING, "--yes")
    assert run("load", sheet(B, name="next.csv"), *KOLBRING, "--yes").status == 0


def test_a_new_column_is_told_with_its_worksheet(run: Run, tmp_path: Path) -> None:
    """And columns that two worksheets share are not new in the second."""
    from openpyxl import Workbook

    def written(name: str, *more: str) -> str:
        book = Workbook(write_only=True)
        rings, others = book.create_sheet("Rings"), book.create_sheet("Others")
        for page, line, extra in ((rings, A, ()), (others, B, more)):
            page.append([*HEADER.split(","), *extra])
            page.append([*line.split(","), *("blue" for _ in extra)])
        book.save(tmp_path / name)
        return str(tmp_path / name)

    run("load", written("april.xlsx"), *KOLBRING, "--yes")
    ran = run("load", written("may.xlsx", "Colour"), *KOLBRING, "--yes")
    assert "Others: 'Colour' is new, is not known, and is left out" in " ".join(ran.out.split())
    assert ran.out.count(" is new, ") == 1


@pytest.mark.parametrize(
    ("name", "sheet_name"), [("~$prices.xlsx", "prices.xlsx"), (".~lock.prices.ods#", "prices.ods")]
)
def test_a_lock_file_is_told_from_a_sheet(run: Run, tmp_path: Path, name: str, sheet_name: str) -> None:
    """Spreadsheet programs lay it beside a sheet that is open there."""
    (tmp_path / name).write_bytes(b"\x08A person" + b" " * 100)
    ran = run("load", str(tmp_path / name), *KOLBRING, "--yes")
    assert ran.status != 0
    told = " ".join(ran.err.split())
    assert "this is a lock file: the sheet beside it is open" in told
    assert sheet_name in told.replace(name, "")


# -- JSON -----------------------------------------------------------------------------------------------


def test_the_report_as_json(run: Run, sheet: Callable[..., str]) -> None:
    """Counts, and the rows of each kind; what is said besides goes to the other stream."""
    run("load", sheet(A, B), *KOLBRING, "--yes")
    name = sheet(A.replace("1.00", "1.10"), BAD, B.replace("2.00", "9.00"))
    ran = run("load", name, *KOLBRING, "--yes", "--json")
    told = json.loads(ran.out)
    assert (told["supplier"], told["load"], told["same_file_as_load"]) == ("Kolbring", 2, None)
    assert {name: count for name, count in told["counts"].items() if count} == {
        "rows": 3,
        "changed": 1,
        "refused": 1,
        "doubtful": 1,
    }
    assert told["changed"] == [
        {
            "sheet": "",
            "row": 2,
            "code": "A-1",
            "part_number": "Kolbring:A-1",
            "listed_again": False,
            "changes": [{"field": "price", "before": "1", "now": "1.1"}],
        }
    ]
    assert [(one["row"], one["code"]) for one in told["not_taken"]] == [(3, "C-3")]
    assert told["doubtful"][0]["doubts"][0]["field"] == "price"
    assert "This is load 2" in ran.err


# -- as a process ---------------------------------------------------------------------------------------


def test_a_sheet_is_read_from_standard_input(shop: Path) -> None:
    """- is standard input; it is not asked there, so --yes is needed."""
    base = [sys.executable, "-m", "catalogue", "load", "-", *KOLBRING, "--catalogue", str(shop)]
    text = "\n".join([HEADER, A, B, ""])
    ran = subprocess.run(base, input=text, capture_output=True, text=True, check=False)
    assert ran.returncode == 1
    assert "the same command with --yes" in ran.stdout
    ran = subprocess.run([*base, "--yes"], input=text, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
    assert offered_codes(shop) == ["A-1", "B-2"]
    assert rows(shop, "SELECT file FROM load") == [("-",)]


def test_a_packed_sheet_from_standard_input(shop: Path) -> None:
    """gzip is seen by its bytes, without a name."""
    import gzip

    content = gzip.compress("\n".join([HEADER, A, ""]).encode())
    command = [sys.executable, "-m", "catalogue", "load", "-", *KOLBRING, "--yes", "--catalogue", str(shop)]
    ran = subprocess.run(command, input=content, capture_output=True, check=False)
    assert ran.returncode == 0, ran.stderr
    assert offered_codes(shop) == ["A-1"]
