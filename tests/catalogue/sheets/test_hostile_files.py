"""Files that are damaged, or made to do harm: each is refused in words, in bounded memory and time."""

from __future__ import annotations

import gzip
import io
import time
import tracemalloc
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from catalogue.sheets import limits
from catalogue.sheets.opening import SheetFileError, open_sheet_file
from tests.catalogue.sheets.opened import opened, whole, workbook
from tests.catalogue.sheets.test_workbooks import SHEET, changed

LIST = b"Code;Price\nA;1,20\nB;2,40\n"
SECONDS = 20.0
BYTES = 300_000_000


@pytest.fixture(autouse=True)
def _bounded(request: pytest.FixtureRequest) -> Iterator[None]:
    """Every test of this module stays within its time and memory, and puts nothing on the disk."""
    tracemalloc.start()
    begun = time.monotonic()
    yield
    taken, (_, peak) = time.monotonic() - begun, tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert taken < SECONDS, request.node.name
    assert peak < BYTES, request.node.name


def refused(content: bytes, said: str, **options: str) -> None:
    """The file is refused in these words, when it is opened or when its rows are read."""
    with pytest.raises(SheetFileError, match=said) as error:
        for table in opened(content, **options).tables:
            whole(table)
    assert "To do: " in str(error.value)


def zipped(name: str, content: bytes) -> bytes:
    """A zip of one file."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, content)
    return out.getvalue()


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9, 0.99])
def test_a_truncated_workbook(share: float) -> None:
    """A download that was cut short is told as that."""
    content = workbook([["Code", "Price"], *([f"A{at}", at] for at in range(2_000))])
    refused(content[: int(len(content) * share)], "damaged.*fetch the file once more")


def test_a_workbook_with_damaged_content() -> None:
    """Bytes changed in the middle are found by the check sum of the part."""
    content = bytearray(workbook([["Code", "Price"], *([f"A{at}", at] for at in range(5_000))]))
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        at = archive.getinfo(SHEET).header_offset + 2_000
    content[at : at + 50] = bytes(50)
    refused(bytes(content), "the workbook is damaged")


def bomb(name: str) -> bytes:
    """A zip of a file of 400 million zero bytes, packed 1 : 1000."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive, archive.open(name, "w") as part:
        for _ in range(400):
            part.write(bytes(1_000_000))
    return out.getvalue()


def test_a_zip_that_unpacks_to_far_more_than_it_should() -> None:
    """Unpacking stops as soon as it is clear."""
    refused(bomb("list.csv"), "unpacks to over 250 times its size")


def test_a_workbook_that_unpacks_to_far_more_than_it_should() -> None:
    """What its list of parts says is enough to refuse it."""
    out = io.BytesIO(bomb("xl/worksheets/sheet1.xml"))
    with zipfile.ZipFile(out, "a") as archive:
        archive.writestr("xl/workbook.xml", "<workbook/>")
    refused(out.getvalue(), "unpacks to over 250 times its size")


def test_a_gzip_that_unpacks_to_far_more_than_it_should() -> None:
    """Its own word on its size is not believed; what comes out is counted."""
    out = io.BytesIO()
    with gzip.GzipFile(fileobj=out, mode="wb") as packed:
        for _ in range(400):
            packed.write(b"A;1\n" * 250_000)
    refused(out.getvalue(), "unpacks to over 250 times its size")


def test_a_file_that_unpacks_to_more_than_allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    """At an honest ratio too there is an end."""
    monkeypatch.setattr(limits, "LARGEST_UNPACKED", 1 << 20)
    refused(gzip.compress(LIST * 60_000), "unpacks to more than 1 MB")


def test_a_file_larger_than_allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Told before anything of it is read."""
    monkeypatch.setattr(limits, "LARGEST_FILE", 1 << 20)
    refused(LIST * 60_000, "larger than 1 MB.*split it")


def test_an_honest_sheet_of_repeated_values_is_no_bomb() -> None:
    """A list in which most rows are alike packs well, and is read."""
    rows = [["Code", "Text", "Unit", "Currency", "Price"]]
    rows += [[f"A{at}", "O-ring NBR 70", "pcs", "EUR", "1.00"] for at in range(4_000)]
    (table,) = opened(workbook(rows)).tables
    assert sum(len(batch.rows) for batch in table.batches()) == 4_000


def test_a_cell_of_ten_megabytes() -> None:
    """The row is named."""
    refused(LIST + b"C;" + b"x" * 5_000_000 + b"\n", r"row 4: a cell is longer than 131,072 characters")


def test_a_quoted_cell_of_ten_megabytes() -> None:
    """With line ends inside it is a quote that was never closed."""
    refused(LIST + b'C;"' + b"x\n" * 5_000_000 + b'"\n', "row 4: a quote .* opens in this row")


def test_a_line_that_never_ends() -> None:
    """A file without line ends is not taken into memory to look for one."""
    refused(LIST + b"x" * 12_000_000, "longer than")


def test_a_million_columns() -> None:
    """A header of a million names is refused by its number."""
    refused(
        b";".join(b"c%d" % at for at in range(1_000_000)) + b"\n1\n", "row 1: the row has 1,000,000 cells"
    )


def test_a_million_columns_in_a_later_row() -> None:
    """Also where the header is an honest one."""
    refused(LIST * 500 + b";" * 1_000_000 + b"\n", "row 1501: the row has 1,000,001 cells")


@pytest.mark.parametrize(
    "content",
    [
        LIST + b"C;\x00;1\n",
        bytes(range(256)) * 50,
        b"\x00" * 5_000,
        LIST * 50_000 + b"\x00",
        b"\x93NUMPY\x01\x00v\x00{'descr': '<f8'}" + bytes(500),
    ],
    ids=["one zero byte", "every byte", "only zeros", "at the end", "numbers"],
)
def test_zero_bytes_are_a_binary_file(content: bytes) -> None:
    """Whatever its name: no text holds them, but for UTF-16 and UTF-32."""
    refused(content, "this is a binary file, not text", name="list.csv")


def test_an_empty_file() -> None:
    """It is told as empty, not as a table without rows."""
    refused(b"", "the file is empty")


@pytest.mark.parametrize(
    "content", [b"\n\n\n", b" ; ;\r\n;;\r\n", b"\xef\xbb\xbf", b"\xef\xbb\xbf\n", b"sep=;\n"]
)
def test_only_blank_rows(content: bytes) -> None:
    """A mark of the encoding and delimiters are no content."""
    refused(content, "nothing but blank rows")


def test_a_header_only() -> None:
    """It is a table without rows; the next stage says so."""
    (table,) = opened(b"Code;Price\n").tables
    assert (table.header, whole(table).rows) == (("Code", "Price"), [])


@pytest.mark.parametrize("name", ["../../x.csv", "/etc/x.csv", "C:\\x.csv", "..\\x.csv"])
def test_a_path_inside_a_zip_is_never_written_to(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The content is read, and no file appears by its name."""
    deep = tmp_path / "a" / "b"
    deep.mkdir(parents=True)
    monkeypatch.chdir(deep)
    assert whole(opened(zipped(name, LIST)).tables[0]).rows == [["A", "1,20"], ["B", "2,40"]]
    assert [one for one in tmp_path.rglob("*") if one.is_file()] == []


def test_an_encrypted_zip() -> None:
    """The flag of encryption in both of its headers is enough to tell."""
    content = bytearray(zipped("list.csv", LIST))
    content[6] |= 1
    content[content.rindex(b"PK\x01\x02") + 8] |= 1
    refused(bytes(content), "protected by a password.*unpack it with the password")


@pytest.mark.parametrize("damage", [slice(-20, None), slice(30, 60)], ids=["cut short", "changed"])
def test_a_damaged_gzip(damage: slice) -> None:
    """Cut short or changed in its middle."""
    content = bytearray(gzip.compress(b"".join(b"A%d;%d\n" % (at, at * 7919) for at in range(5_000))))
    content[damage] = b"" if damage.stop is None else bytes(30)
    refused(bytes(content), "damaged|cannot be unpacked")


ENTITIES = '<!DOCTYPE l [<!ENTITY a0 "x">' + "".join(
    f'<!ENTITY a{at + 1} "{f"&a{at};" * 10}">' for at in range(9)
)


@pytest.mark.parametrize("part", [SHEET, "xl/sharedStrings.xml", "xl/workbook.xml", "xl/styles.xml"])
def test_entities_in_a_workbook(part: str) -> None:
    """The reader would not unfold them but leave the cell empty, so that a price would be lost unseen."""
    content = workbook([["Code", "Price"], ["A", "x"]])
    refused(changed(content, part, lambda text: ENTITIES + "]>" + text), "defines entities of its own")


def test_a_workbook_without_its_list_of_sheets() -> None:
    """A zip with the content types of an office file and nothing behind them."""
    refused(zipped("[Content_Types].xml", b"<Types/>"), "an office document, not a sheet")


@pytest.mark.parametrize("kind", [b"d0cf11e0a1b11ae1", b"504b0304"], ids=["xls", "zip"])
def test_a_beginning_without_the_rest(kind: bytes) -> None:
    """The first bytes of a workbook before noise."""
    noise = bytes((at * 7919) % 251 for at in range(5_000))
    refused(
        bytes.fromhex(kind.decode()) + noise + "Workbook".encode("utf-16-le") + noise,
        "damaged|cannot be read",
    )


def test_a_file_opened_by_its_path_is_closed_when_it_is_refused(tmp_path: Path) -> None:
    """No handle is left open, so that the person can mend the file."""
    path = tmp_path / "list.csv"
    path.write_bytes(b"\x00")
    with pytest.raises(SheetFileError, match=r"^list\.csv: this is a binary file"):
        open_sheet_file(path)
    path.unlink()
