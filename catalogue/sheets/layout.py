"""Where the header of a table stands, and which rows are no data: judged by shape, with a few words for ties.

A header is a row of several short texts, as wide as the rows below it, that stands above numbers. A footer
is told by words that no article begins with and by few filled cells. When in doubt a row is data: a row
that cannot be used is told to the person later with its reason, a row left out here is not looked at again.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from catalogue.sheets.cells import DATE, FAULT, NUMBER, plain
from catalogue.sheets.own_export import is_export

_LONGEST_NAME = 60  # letters of a column's name
_FEW = 2  # filled cells of a heading or a note
_NUMBER = re.compile(
    r"(?:(?:EUR|USD|GBP|CHF|[€$£])\s*)?[-+±<>≤≥~]?\s*(?:\d[\d.,'’ \xa0]*|[.,]\d+)"
    r"(?:\s*(?:[%€$£\"]|mm|cm|in|EUR|USD|GBP|CHF))?"
    r"|\d+\s*/\s*\d+",
    re.I,
)
# Words of headers in the languages of the trade, as beginnings. common practice, no source
_WORDS = re.compile(
    r"\b(?:art|artikel|article|articolo|artículo|code|código|codice|kód|item|part|ref|réf|sku|order|bestell|"
    r"sach|teile|num|no\b|nr\b|n°|desc|bezeich|désign|denom|omschr|benen|name|price|preis|prix|prezzo|precio|"
    r"prijs|netto|brutto|pack|pcs|qty|menge|qté|quant|cant|vpe|stück|unit|einheit|curr|währ|devise|valuta|"
    r"mat|werkstoff|matière|shore|hard|härte|dureté|durezza|size|größe|maß|dim|taille|misura|id\b|od\b|"
    r"inner|outer|innen|außen|aussen|dicke|thick|schnur|cord|section|width|breite|length|länge|stock|lager|"
    r"bestand|lead|liefer|délai|brand|marke|maker|hersteller|notes?|bemerk|remark|note|moq|min|ean|d[12i]\b)",
    re.I,
)
_TOTAL = re.compile(
    r"(?:(?:grand|sub)[ -]?)?(?:totals?|totale|totaal|summe|zwischensumme|gesamt\w*|endsumme|sum|somme|suma)"
    r"(?=[\s:.=*]|$)(?!\s*(?:seal|kit|dicht|length|länge))",
    re.I,
)
_PAGE = re.compile(
    r"(?:page|seite|pagina|página|blatt|p\.|s\.)\s*\d+(?:\s*(?:/|of|von|de|di|sur|van)\s*\d+)?\W*$", re.I
)
_NOTE = re.compile(
    r"(?:all|alle|tous|toutes|tutti|todos)\b.*\b(?:prices?|preise|prix|prezzi|precios|prijzen)\b"
    r"|(?:preise|prices|prix|prezzi|precios|prijzen)\b.*"
    r"\b(?:excl|zzgl|inkl|incl|ohne|plus|net\b|netto|hors|ht\b|iva|mwst|vat|btw|subject|freibleibend)"
    r"|(?:stand|as of|gültig|valid|valable|valido|válido|état|geldig|date|datum|printed|gedruckt|erstellt)\b"
    r"\s*(?:ab|from|until|bis|dal|du|:|am|on)?\s*[:\d\x02]"
    r"|(?:anzahl|number of|nombre d|numero di)\b.*\d|(?:excl|exkl|zzgl|hors)\b|\*+\s*\w"
    r"|(?:terms|conditions|lieferbedingungen|agb|irrtum|errors? (?:and|&) omissions|e\s*&\s*oe)\b"
    r"|(?:end of (?:list|file)|ende der liste|fin de (?:la )?liste|fine lista)\b"
    r"|(?:tel|fax|www|https?)\b[.:]",
    re.I,
)


class Found(NamedTuple):
    """A header: the places of its rows among those that were given, and how wide the table is."""

    first: int
    last: int
    width: int


def filled(cells: Sequence[str]) -> list[int]:
    """The places of the cells that hold anything."""
    return [at for at, cell in enumerate(cells) if cell]


def could_begin(cells: Sequence[str]) -> bool:
    """Whether a row could be the title or the header of a table: it has texts only."""
    return _could_be_header(cells, filled(cells))


def is_number(cell: str) -> bool:
    """Whether a cell is a number, a price or a length rather than a text."""
    return cell[:1] in (NUMBER, DATE) or _NUMBER.fullmatch(cell) is not None


def _is_name(cell: str) -> bool:
    """Whether a cell could name a column."""
    if cell[:1] in (NUMBER, DATE, FAULT) or len(cell) > _LONGEST_NAME or _NUMBER.fullmatch(cell):
        return False
    return any(sign.isalpha() for sign in cell) or cell in ("#", "€", "%", "$", "Ø", "∅")


def _could_be_header(cells: Sequence[str], at: list[int]) -> bool:
    return bool(at) and all(_is_name(cells[one]) for one in at)


def find_header(rows: Sequence[Sequence[str]], *, strict: bool = False) -> Found | None:
    """The first header among some rows. ``strict``: only one that cannot be data (a second table)."""
    places = [filled(row) for row in rows]
    for at, (row, here) in enumerate(zip(rows, places, strict=True)):
        if is_export([row[one] for one in here]):
            return Found(at, at, here[-1] + 1)
        if not _could_be_header(row, here):
            if strict and here:
                return None
            continue
        below = [one for one in range(at + 1, len(rows)) if places[one]][:30]
        usual = _usual_width(places[one] for one in below)
        if len(here) < max(min(2, usual), (usual + 1) // 2):
            if strict and len(here) > _FEW:
                return None
            continue
        words = sum(bool(_WORDS.search(row[one])) for one in here)
        numbers = _number_columns([rows[one] for one in below])
        over_numbers = sum(one in numbers for one in here)
        if strict and not (over_numbers and (words or not _has_digits(row, here)) and len(here) >= 3):
            return None
        if not (words or over_numbers or len(rows) == 1 or _stands_over_codes(row, here, rows, below)):
            continue
        return _with_neighbours(rows, places, _fullest(rows, places, at), numbers)
    return None


def _fullest(rows: Sequence[Sequence[str]], places: list[list[int]], at: int) -> int:
    """The header among the rows of texts that begin here; a title of two cells comes before a fuller one."""
    best, best_words = at, sum(bool(_WORDS.search(rows[at][one])) for one in places[at])
    for one in range(at + 1, len(rows)):
        if places[one] and not _could_be_header(rows[one], places[one]):
            break
        words = sum(bool(_WORDS.search(rows[one][cell])) for cell in places[one])
        if words > best_words and len(places[one]) > len(places[best]):
            best, best_words = one, words
    return best


def _has_digits(row: Sequence[str], here: list[int]) -> bool:
    return any(sign.isdigit() for one in here for sign in row[one])


def _stands_over_codes(
    row: Sequence[str], here: list[int], rows: Sequence[Sequence[str]], below: list[int]
) -> bool:
    """Whether a text without digits stands above texts with digits, as a name does above codes."""
    for one in here:
        cells = [rows[at][one] for at in below if one < len(rows[at]) and rows[at][one]]
        if cells and not _has_digits(row, [one]):
            coded = sum(any(sign.isdigit() for sign in cell) for cell in cells)
            if coded >= 0.8 * len(cells):
                return True
    return False


def _usual_width(places: Iterable[list[int]]) -> int:
    widths = Counter(len(one) for one in places)
    return max(widths.items(), key=lambda pair: (pair[1] * min(pair[0], 4), pair[0]), default=(1, 0))[0]


def _number_columns(rows: list[Sequence[str]]) -> set[int]:
    """Columns in which most filled cells of some rows are numbers."""
    found = set()
    for column in range(max(map(len, rows), default=0)):
        cells = [row[column] for row in rows if column < len(row) and row[column]]
        if cells and sum(map(is_number, cells)) >= 0.6 * len(cells):
            found.add(column)
    return found


def _with_neighbours(
    rows: Sequence[Sequence[str]], places: list[list[int]], at: int, numbers: set[int]
) -> Found:
    """A header with a row of units or second names below it, and a row of groups above."""
    first = last = at
    while last + 1 < len(rows) and last - at < 2:
        row, here = rows[last + 1], places[last + 1]
        over = [one for one in here if one in numbers]
        leaves_first = bool(places[at]) and places[at][0] not in here
        if not (_could_be_header(row, here) and over and (leaves_first or not _has_digits(row, here))):
            break
        if len(here) == 1 and len(places[at]) > 3 and not leaves_first:
            break
        last += 1
    if at and places[at - 1] and _names_groups(rows, places, at):
        first = at - 1
    width = max(one[-1] for one in places[first : last + 1] if one) + 1
    return Found(first, last, width)


def _names_groups(rows: Sequence[Sequence[str]], places: list[list[int]], at: int) -> bool:
    """Whether the row above is part of the header: it is no title, or names would be double or missing."""
    above, here = places[at - 1], places[at]
    names = [rows[at][one].lower() for one in here]
    doubled = len(set(names)) < len(names)
    fills = any(one not in here and one < here[-1] + 2 for one in above) and len(above) >= 2
    is_full = len(above) >= 3  # a title has one cell or two
    return _could_be_header(rows[at - 1], above) and (doubled or fills or is_full)


def joined(rows: Sequence[Sequence[str]], width: int) -> tuple[str, ...]:
    """The names of columns from the rows of a header; the same text twice is told once."""
    names = []
    for column in range(width):
        parts: list[str] = []
        for row in rows:
            part = " ".join(plain(row[column]).split()) if column < len(row) else ""
            if part and part not in parts:
                parts.append(part)
        names.append(" ".join(parts))
    return tuple(names)


def why_no_data(cells: Sequence[str], header_rows: Sequence[Sequence[str]], width: int) -> str:
    """ "repeated header", "footer" or "heading" for a row that is no data, else ""."""
    here = filled(cells)
    if not here:
        return ""
    for header in header_rows:
        if len(here) >= 2 and _same(cells, header, here):
            return "repeated header"
    first = plain(cells[here[0]])
    if len(here) <= max(_FEW + 1, (width + 1) // 2) and len(here) < width and _TOTAL.match(first):
        others = [cells[one] for one in here[1:]]
        counted = sum(any(sign.isdigit() for sign in plain(one)) for one in others)  # 603 articles, 6307.29
        if len(first.split()) <= 4 and counted >= len(others) - 1:
            return "footer"
    if len(here) > _FEW or width < 3:
        return ""
    if _PAGE.match(first) or _NOTE.match(first):
        return "footer"
    if len(here) == 1:
        return _lone(first)
    return ""


def _lone(text: str) -> str:
    """A single filled cell: a heading between rows, a sentence, or the rest of a row of data."""
    if len(text) > _LONGEST_NAME or (text.endswith(".") and len(text.split()) > 4):
        return "footer"
    has_letters = any(sign.isalpha() for sign in text)
    is_code = " " not in text and any(sign.isdigit() for sign in text)
    return "heading" if has_letters and not is_code else ""


def _same(cells: Sequence[str], header: Sequence[str], here: list[int]) -> bool:
    named = filled(header)
    same = sum(one < len(header) and cells[one].lower() == header[one].lower() for one in here)
    return same >= 2 and same >= 0.8 * max(len(here), len(named))
