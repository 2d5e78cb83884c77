"""Which encoding a text file is written in, and why we think so.

What can be known is known: a byte order mark, the zero bytes of UTF-16, valid UTF-8 to the last byte. What
is left was written by an older program, where every byte means something in every code page. Then the
letters decide: which reading makes words of a price list rather than box lines and odd letters.
"""

from __future__ import annotations

import codecs
import re
from collections import Counter
from functools import lru_cache
from typing import BinaryIO, NamedTuple

from catalogue.sheets.refusals import SheetFileError

BLOCK = 1 << 18
_LAST_RESORT_BYTES = 1 << 14  # charset-normalizer takes seconds for more
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),  # before UTF-16, whose mark it begins with
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
# In the order in which they win a tie.
CANDIDATES = (
    "cp1252",
    "iso8859_15",
    "cp850",
    "cp437",
    "mac_roman",
    "cp1250",
    "iso8859_2",
    "cp852",
    "cp1251",
    "koi8_r",
    "cp866",
    "cp1253",
    "cp1254",
)
_CONTROLS = bytes(set(range(32)) - {9, 10, 13}) + b"\x7f"
_ACTION = "save the sheet as CSV UTF-8, or tell its encoding by --encoding NAME"


class Encoding(NamedTuple):
    """The encoding of a text file and the reason, in words for the person."""

    name: str
    why: str
    has_controls: bool  # control signs other than tab and line ends, which are taken out while reading


def find_encoding(file: BinaryIO, *, given: str = "", name: str = "") -> Encoding:
    """Tell the encoding of a whole file; ``given`` overrides. Raises SheetFileError."""
    file.seek(0)
    head = file.read(4096)
    if given:
        return _checked(file, _known(given, name), "told", name)
    for mark, encoding in _MARKS:
        if head.startswith(mark):
            return _checked(file, encoding, "byte order mark", name)
    if b"\x00" in head:
        return _checked(file, _by_zeros(head, name), "zero bytes between the letters", name)
    high, has_controls, is_utf8 = _walk(file, name)
    if is_utf8:
        return Encoding("utf-8", "valid UTF-8" if high else "plain ASCII", has_controls)
    return _guess(file, high, has_controls, name)


def _known(given: str, name: str) -> str:
    try:
        info = codecs.lookup(given)
    except (LookupError, ValueError):
        info = None
    if info is None or not getattr(info, "_is_text_encoding", True):
        raise SheetFileError(
            f"there is no encoding named {given!r}", "use a name such as utf-8, cp1252 or cp850", file=name
        )
    return "utf-8-sig" if info.name == "utf-8" else info.name


def _checked(file: BinaryIO, encoding: str, why: str, name: str) -> Encoding:
    """Decode the whole file once, so that a bad byte at its end is told before anything is loaded."""
    decoder = codecs.getincrementaldecoder(encoding)()
    shown = encoding.removesuffix("-sig")
    file.seek(0)
    at = 0
    try:
        while block := file.read(BLOCK):
            if "\x00" in decoder.decode(block):
                raise _binary(name)
            at += len(block)
        decoder.decode(b"", final=True)
    except UnicodeError as error:
        raise SheetFileError(
            f"this is not {shown} text (near byte {at + getattr(error, 'start', 0):,})",
            _ACTION,
            file=name,
        ) from error
    return Encoding(shown, why, True)


def _by_zeros(head: bytes, name: str) -> str:
    """UTF-16 or UTF-32 without a mark: the zero bytes stand at the same place of nearly every letter."""
    for encoding, width, zero in (
        ("utf-32-le", 4, (1, 2, 3)),
        ("utf-32-be", 4, (0, 1, 2)),
        ("utf-16-le", 2, (1,)),
        ("utf-16-be", 2, (0,)),
    ):
        whole = head[: len(head) // width * width]
        zeros = [whole[at::width].count(0) * width / len(whole) if whole else 0.0 for at in range(width)]
        if (
            all((zeros[at] > 0.7) == (at in zero) for at in range(width))
            and min(zeros[at] for at in zero)
            > max([zeros[at] for at in range(width) if at not in zero]) + 0.5
        ):
            return encoding
    raise _binary(name)


def _binary(name: str) -> SheetFileError:
    return SheetFileError(
        "this is a binary file, not text (it holds zero bytes)",
        "open it in the program that made it and save it as CSV or as a workbook",
        file=name,
    )


def _walk(file: BinaryIO, name: str) -> tuple[Counter[bytes], bool, bool]:
    """One pass: words with high bytes and how often, whether control signs occur, whether it is UTF-8."""
    decoder = codecs.getincrementaldecoder("utf-8")()
    words: Counter[bytes] = Counter()
    has_controls, is_utf8 = False, True
    file.seek(0)
    while block := file.read(BLOCK):
        if b"\x00" in block:
            raise _binary(name)
        has_controls = has_controls or len(block.translate(None, _CONTROLS)) != len(block)
        if not block.isascii() and (len(words) < 5000):
            words.update(_HIGH_WORD.findall(block))
        if is_utf8:
            try:
                decoder.decode(block)
            except UnicodeDecodeError:
                is_utf8 = False
    if is_utf8:
        try:
            decoder.decode(b"", final=True)
        except UnicodeDecodeError:
            is_utf8 = False
    return words, has_controls, is_utf8


_HIGH_WORD = re.compile(rb"[A-Za-z0-9]{0,20}[\x80-\xff][A-Za-z0-9\x80-\xff]{0,40}")
_TRADE = frozenset("Ø±½¼¾×µ°€²³®™–—„“”’…§")
_WESTERN = frozenset("äöüßéèêàâçùûîïôñóáíúòìœëå")  # letters that stand inside words of western lists
_NORTHERN = frozenset("øæåãõ")
_EASTERN = frozenset("ąćęłńśźżčďěňřšťůžőűýáéíóúöüäňľĺŕăâîșțşţđ")
# Words (or their beginnings) that stand in price lists. common practice, no source
_WORDS = re.compile(
    r"größe|stück|präzis|länge|stärke|härte|höhe|maß|für|über|gehäuse|dämpf|köpfe|zubehör|öl|gültig|währung"
    r"|référence|désignation|qté|quantité|unité|intérieur|extérieur|épaisseur|diamètre|matière|pièce|délai"
    r"|descripción|tamaño|código|artículo|año|precio|diámetro|válido|categoría|unidad|número"
    r"|quantità|qualità|unità|larghezza|è|één|reünie|geïso"
    r"|kód|množství|průměr|těsnění|kroužek|cena|název|ilość|średnica|uszczelka|pierścień|jednostka|rozměr"
    r"|артикул|цена|размер|кольцо|количество|наименование|диаметр|штук|материал|уплотн|цвет|вес"
    r"|størrelse|størr|længde|mål|bredde|mängd|längd|tätning"
)


def _guess(file: BinaryIO, words: Counter[bytes], has_controls: bool, name: str) -> Encoding:
    scored = sorted((-_score(words, encoding), place) for place, encoding in enumerate(CANDIDATES))
    for score, place in scored:
        if score < 0 and _decodes(file, CANDIDATES[place]):
            why = f"guessed: read so, the file says {_shown(words, CANDIDATES[place])}"
            return Encoding(CANDIDATES[place], why, has_controls)
    if found := _last_resort(file, words):
        return found
    if _decodes(file, "cp1252"):
        return Encoding("cp1252", "guessed: nothing speaks for any", has_controls)
    raise SheetFileError("the encoding of the file cannot be told", _ACTION, file=name)


def _decodes(file: BinaryIO, encoding: str) -> bool:
    """Whether every byte of the file has a meaning in an encoding."""
    try:
        _checked(file, encoding, "", "")
    except SheetFileError:
        return False
    return True


def _shown(words: Counter[bytes], encoding: str) -> str:
    """The three commonest words in question, as they read now: the person sees whether they are right."""
    return ", ".join(raw.decode(encoding, "replace") for raw, _ in words.most_common(3))


def _score(words: Counter[bytes], encoding: str) -> float:
    """How much the words speak for an encoding; a word counts once, and a little more if common."""
    total = 0.0
    for raw, count in words.most_common(2000):
        try:
            text = raw.decode(encoding)
        except UnicodeDecodeError:
            return float("-inf")
        total += _word_score(text) * min(3.0, 1 + count / 50)
    return total


@lru_cache(maxsize=50_000)
def _word_score(text: str) -> float:
    low = text.lower()
    score = 6.0 if _WORDS.search(low) else 0.0
    foreign = 0
    for at, sign in enumerate(text):
        if sign.isascii():
            continue
        before, after = text[at - 1 : at], text[at + 1 : at + 2]
        if sign in _TRADE:
            score += _trade_score(sign, before, after)
        elif sign.isalpha():
            foreign += 1
            score += _letter_score(sign, before, after)
        elif sign == "\xa0":
            score += 0.2
        else:  # box lines, control signs, currency signs nobody uses
            score -= 4 if ord(sign) < 0xA0 or 0x2500 <= ord(sign) < 0x2600 else 2
    western = sum(sign in _WESTERN for sign in low)
    if western and foreign >= 4 and foreign > len(text) * 0.6 and max(text) < "\u0400":
        score -= 3 * foreign  # a word of accents alone is another script read wrongly
    return score


def _trade_score(sign: str, before: str, after: str) -> float:
    """Trade signs stand beside numbers and spaces, not inside words."""
    if before.isalpha() and after.isalpha() and sign not in "’×":
        return -3
    beside = before.isdigit() or after.isdigit() or not (before or after)
    if sign in "²³":
        return 1.5 if before in "mM" and before else -1.0
    return 3.0 if beside else 1.0


def _letter_score(sign: str, before: str, after: str) -> float:
    if "а" <= sign.lower() <= "я" or sign in "ёЁ":
        mixed = (before and before.isascii() and before.isalpha()) or (after.isascii() and after.isalpha())
        swapped = sign.isupper() and before.islower()  # koi8_r and cp1251 read the other way round
        return -3.0 if mixed or swapped else 0.7
    if sign.isupper() and before.islower():
        return -3.0  # "GrÖe": no word has a capital in its middle
    if not before and not after:
        return 2.5 if sign in "Øø" else 0.0
    low = sign.lower()
    if after.isdigit() or before.isdigit():
        return 2.5 if sign == "Ø" else 1.0 if sign == "ø" else -2.0
    if low in _WESTERN:
        return 1.5
    if low in _NORTHERN:
        return 1.0
    return 0.8 if low in _EASTERN else -2.0


def _last_resort(file: BinaryIO, words: Counter[bytes]) -> Encoding | None:
    """What charset-normalizer says, where our own list finds nothing (it takes German cp1252 for cp1250)."""
    from charset_normalizer import from_bytes  # slow to load and seldom needed

    found = from_bytes(b" ".join(words)[:_LAST_RESORT_BYTES]).best()
    if found is None:
        return None
    if not _decodes(file, found.encoding):
        return None
    return Encoding(found.encoding, "guessed: by charset-normalizer", True)
