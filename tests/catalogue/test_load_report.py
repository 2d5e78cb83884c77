"""What a load says of its rows in lines and as JSON, and the words for articles and prices."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from catalogue.load_report import load_json, load_lines
from catalogue.row_words import article_words, described, price_words
from catalogue.sheets.outcome import Counts, LoadReport
from catalogue.store import open_store
from tests.catalogue.sheets.small_loads import load

SIZES = {"inside_diameter": "10 mm", "cross_section": "2 mm", "material": "NBR", "hardness_shore_a": "70"}
RING = "Code,Words,Kind,ID,CS,Rubber,Shore,Price"


@pytest.fixture(name="blank")
def _blank(tmp_path: Path) -> Path:
    """An empty catalogue."""
    path = tmp_path / "blank.sqlite"
    open_store(path, write=True).close()
    return path


def _one(report: LoadReport, code: str) -> str:
    """The line of a code."""
    (line,) = [one for one in load_lines(report) if f" {code}: " in one]
    return line


@pytest.mark.parametrize(
    ("kind", "texts", "words"),
    [
        ("o_ring", SIZES, "O-ring 10 mm x 2 mm NBR 70"),
        ("o_ring", {"size": "AS568-214", "material": "FKM"}, "O-ring AS568-214 FKM"),
        (
            "lip_seal",
            {"width": "7 mm", "made_for_bore": "24 mm", "made_for_shaft": "16 mm", "material": "NBR"},
            "lip seal 16 mm x 24 mm x 7 mm NBR",
        ),
        ("screw", {"thread": "M8x1", "length": "20 mm", "material": "steel"}, "screw M8x1 x 20 mm steel"),
        ("wiper", {"made_for_shaft": "16 mm", "maker": "Someone"}, "wiper, made for shaft 16 mm"),
        ("fluid", {"notes": "keep closed"}, "fluid"),
    ],
)
def test_an_article_in_words(kind: str, texts: dict[str, str], words: str) -> None:
    """Sizes as they are kept, in the order of the trade; those that no order is usual for by name."""
    assert article_words(kind, texts) == words


@pytest.mark.parametrize(
    "description",
    ["O-ring 10 x 2 NBR 70", "NBR70 o ring 10x2 mm", "O-RING 10 mm / 2 mm, nbr, 70 Shore"],
)
def test_a_description_that_says_it_all_stands_alone(description: str) -> None:
    """Nothing is said twice."""
    assert described(description, "o_ring", SIZES) == description


@pytest.mark.parametrize(
    "description",
    [
        "O-ring",
        "O-ring 10 x 3 NBR 70",  # another size
        "O-ring 10 x 2 nitrile 70",  # another word for the material
        "O-ring 10 x 2 FNBR 70",  # inside another word
        "O-ring 10 x 2 NBR",  # no hardness
        "Seal 10 x 2 NBR 70",  # no kind
        'O-ring 10" x 2" NBR 70',  # another unit
        "O-ring 100 x 2 NBR 70",  # a number inside another one
    ],
)
def test_what_a_description_does_not_say_is_told_behind_it(description: str) -> None:
    """Whatever is missing or other there, all that was read is visible."""
    told = described(description, "o_ring", SIZES)
    assert told == f"{description} (read as O-ring 10 mm x 2 mm NBR 70)"


def test_a_long_description_is_cut_and_what_was_read_is_not() -> None:
    """Sizes at the end of a long text are out of sight, so they are told."""
    told = described(f"O-ring {'very ' * 20}round 10 x 2 mm NBR 70", "o_ring", SIZES)
    assert "..." in told
    assert told.endswith("(read as O-ring 10 mm x 2 mm NBR 70)")


@pytest.mark.parametrize(
    ("price", "words"),
    [
        (("1.85", "EUR", 1), "1.85 EUR"),
        (("12.5", "EUR", 100), "12.50 EUR for 100"),
        (("7", "USD", None), "7.00 USD"),
        (("0.1234", "GBP", 1), "0.1234 GBP"),
        ((None, None, None), ""),
    ],
)
def test_a_price_in_words(price: tuple[str | None, str | None, int | None], words: str) -> None:
    """Two decimals at least, and for how many pieces where that is not one."""
    assert price_words(*price) == words


def test_an_article_that_changed_is_told_as_it_is_now(blank: Path) -> None:
    """Beside the field that changed, the whole of it; a price alone tells no article."""
    load(blank, RING, "A-1,Ring,o_ring,301,3.5,NBR,70,1.00", "B-2,Ring,o_ring,302,3.5,NBR,70,1.00")
    told = load(
        blank,
        RING,
        "A-1,Ring,o_ring,303,3.5,NBR,70,1.00",
        "B-2,Ring,o_ring,302,3.5,NBR,70,1.10",
        apply=False,
        take_doubtful=True,
    )
    assert "301 mm -> 303 mm" in _one(told, "A-1")
    assert _one(told, "A-1").endswith("; now O-ring 303 mm x 3.5 mm NBR 70")
    assert "O-ring" not in _one(told, "B-2")


def test_the_article_of_a_new_row_as_json(blank: Path) -> None:
    """Kind and texts by field, as they would be kept."""
    report = load(blank, RING, "A-1,Ring,o_ring,301,3.5,NBR,70,1.00", apply=False)
    told = json.loads(json.dumps(load_json(report)))
    assert told["new"][0]["article"] == {
        "kind": "o_ring",
        "inside_diameter": "301 mm",
        "cross_section": "3.5 mm",
        "material": "NBR",
        "hardness_shore_a": "70",
    }


def test_offers_that_are_not_on_a_sheet_of_some_are_counted() -> None:
    """They stay listed; nothing is said where there are none."""
    report = LoadReport("Kolbring", "a.csv", "", "", "", "some", counts=Counts(rows=3, unchanged=3), absent=2)
    told = "\n".join(load_lines(report))
    assert "Not on the sheet: 2 offers of Kolbring; they stay listed" in told
    assert load_json(report)["absent"] == 2
    report.absent = 0
    assert "Not on the sheet" not in "\n".join(load_lines(report))


@pytest.mark.parametrize(("parts", "words"), [(0, "0 new parts"), (1, "1 new part"), (2, "2 new parts")])
def test_one_new_part_is_one_part(parts: int, words: str) -> None:
    """Numbers and words agree."""
    counts = Counts(rows=2, new=2, new_parts=parts)
    report = LoadReport("Kolbring", "a.csv", "", "", "", "some", counts=counts)
    (told,) = [line for line in load_lines(report) if line.startswith("New (")]
    assert told.endswith(f", {words}")


def test_a_sheet_that_nothing_was_taken_of_says_nothing_of_the_catalogue() -> None:
    """A header alone is no list that the catalogue has already."""
    told = "\n".join(load_lines(LoadReport("Kolbring", "a.csv", "", "", "", "some")))
    assert "No row of this sheet is an article that could be taken" in told
    assert "says all of this already" not in told
