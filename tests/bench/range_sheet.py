"""A distributor's range as a sheet of 20 columns: invented makers and codes, AS568 and metric sizes."""

from __future__ import annotations

import csv
import random
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

from catalogue.sheets.mapping import Column, Mapping, checked
from schema.tables import rows

SUPPLIER = "Bigrange"
COLUMNS = {
    "Article": "code",
    "Description": "description",
    "Kind": "kind",
    "Size": "size",
    "ID mm": "inside_diameter mm",
    "CS mm": "cross_section mm",
    "Material": "material",
    "Hardness": "hardness_shore_a",
    "Maker": "maker",
    "Maker code": "maker_code",
    "Price": "price",
    "Currency": "currency",
    "Per": "price_per",
    "Pack": "pack_size",
    "MOQ": "minimum",
    "Lead time days": "lead_time_days",
    "Stock": "stock",
    "Colour": "",
    "Country": "",
    "Customs code": "",
}
_MATERIALS = (
    ("NBR", (50, 60, 70, 80, 90)),
    ("FKM", (70, 75, 80, 90)),
    ("EPDM", (70, 80)),
    ("VMQ", (50, 60, 70)),
    ("HNBR", (70, 75, 90)),
    ("FVMQ", (70,)),
    ("CR", (60, 70)),
    ("EU", (85, 90)),
    ("AU", (85, 90)),
)
_MAKERS = (
    "Pellowgate Mouldings",
    "Ombersett Ring Works",
    "Cawdlemere Plastics",
    "Skerrowby Turned Parts",
    "Thrawlbeck Damper Works",
)
_COLOURS = ("black", "brown", "green", "red", "blue")
_SECTIONS = ("1", "1.5", "1.8", "2", "2.5", "2.65", "3", "3.5", "3.55", "4", "5", "5.3", "6", "7")


def mapping() -> Mapping:
    """The mapping of these columns."""
    columns = {
        header: Column(header, *field.split()) if field else Column(header, "")
        for header, field in COLUMNS.items()
    }
    return checked(supplier=SUPPLIER, covers="whole_range", columns=columns)


def write_range(path: Path, count: int, *, changed: float = 0.0, seed: int = 1) -> Path:
    """Write the sheet; of the rows the share ``changed`` has another price than without it."""
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(COLUMNS)
        writer.writerows(range_rows(count, changed=changed, seed=seed))
    return path


def range_rows(count: int, *, changed: float = 0.0, seed: int = 1) -> Iterator[list[object]]:
    """The rows of the sheet, the same for the same seed."""
    pick, other = random.Random(seed), random.Random(seed + 7)
    sizes = list(_sizes())
    for number in range(count):
        code, inside, section = pick.choice(sizes)
        material, hardnesses = pick.choice(_MATERIALS)
        hardness, maker = pick.choice(hardnesses), pick.choice(_MAKERS)
        price = Decimal(pick.randint(5, 4000)) / 100
        pack = pick.choice((1, 10, 25, 50, 100))
        colour = pick.choice(_COLOURS)
        maker_code = f"{maker[:2].upper()}{pick.randint(0, 99_999_999):08d}"
        lead, stock = pick.choice((1, 2, 3, 5, 7, 14, 21, 28)), pick.randint(0, 5000)
        if changed and other.random() < changed:
            price = (price * Decimal("1.03") + Decimal("0.01")).quantize(Decimal("0.01"))
        yield [
            100_000_000 + number * 7,
            f"O-ring {inside} x {section} {material} {hardness} {colour}",
            "O-ring",
            code,
            inside,
            section,
            material,
            hardness,
            maker,
            maker_code,
            price,
            "EUR",
            1,
            pack,
            pack,
            lead,
            stock,
            colour,
            "GB",
            "40169300",
        ]


def _sizes() -> Iterator[tuple[str, str, str]]:
    """Size code ("" for none), inside diameter and section in mm."""
    for row in rows("as568"):
        inside, section = (
            Decimal(row[f"{name}_in"]) * Decimal("25.4") for name in ("inside_diameter", "cross_section")
        )
        yield f"AS568-{row['code']}", f"{inside:.2f}", f"{section:.2f}"
    for section_text in _SECTIONS:
        for half in range(4, 340):
            yield "", f"{half / 2 + 1:g}", section_text
