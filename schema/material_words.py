"""The material and the hardness that a description names: NBR70, FKM-75, Viton 75, 70 NBR, NBR 70 Shore A.

Only what the words tell is taken. A material without figures here (FFKM) has no code and is never taken for
its neighbour; polyurethane alone may be AU or EU. Shore D and IRHD are other scales than Shore A: their
values are told in the remark and not converted.
"""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from schema.materials import materials
from schema.tables import rows
from schema.trade_names import TradeName, named_material
from schema.trade_words import Found, WordList

Span = tuple[int, int]
SOFTEST, HARDEST = 20, 98  # Shore A, as the models of rings and seals take it
# Names that a check judges by AU, the stricter of the two; of a part that is sold they tell only the family.
_URETHANE = ("polyurethane", "urethane", "pu", "pur", "tpu", "Polyurethan", "polyuréthane", "poliuretano")
_URETHANE_REMARK = "polyurethane may be a polyester (AU) or a polyether urethane (EU): which one is not told"
_GENERIC = ("names no kind of", "polyurethane may be")
# Words that are others' as well (EU stock, ECO pack, Nr. 5): as a material only before a number, in capitals.
_BEFORE_NUMBER = ("AU", "CR", "ECO", "EP", "EU", "NR", "Q", "SI")
_NOT_OF_THE_PART = re.compile(
    r"[\s-]*(?:grease|oil|free\b|spray|fett|öl|frei|graisse|huile|grasa|grasso|olio)", re.I
)
_SCALE = (
    r"(?:°|deg\.?)?\s*(?:(?P<shore>sh(?:ores?|r)?\.?|duro(?:meter)?s?)(?:[\s-]*(?P<letter>[ad])\b|(?![a-z]))"
    r"|(?P<irhd>irhd)\b)"
)
_AFTER = re.compile(
    r"[\s\-/:,(]{0,3}(?P<value>\d\d)(?!\d|\s*%|\s*°\s*[cf]\b|[.,/]\d|\s*[x×*]\s*[\d.ø]|\s*(?:mm|in|inch|pcs?|stk?)\b|\s*\")"
    rf"(?:\s*{_SCALE}|\s*°|A\b)?",
    re.I,
)
_BEFORE = re.compile(
    rf"(?<![\w.,/x×*-])(?<!\b[a-z]\s)(?<![x×*]\s)(?P<value>\d\d)(?:\s*{_SCALE}|\s*°|A\b)?[\s-]{{0,2}}$", re.I
)
_SCALED = re.compile(rf"(?<![\d.,])(?P<value>\d\d)(?:\s?[±+/-]+\s?\d)?\s*{_SCALE}", re.I)
_SHORE_FIRST = re.compile(
    r"\b(?:shore|duro(?:meter)?)[\s-]*(?P<letter>[ad]\b)?[\s:-]*(?P<value>\d\d)(?!\d)(?P<irhd>)", re.I
)


class MaterialFound(NamedTuple):
    """What a text says of a material. ``where`` are the places of its words and of its hardness."""

    name: TradeName
    hardness_shore_a: float | None
    remark: str
    where: tuple[Span, ...] = ()
    hardness_where: Span | None = None
    elastomer: bool = False


_SHORT_CODE = re.compile(r"\s*(?P<code>[A-Za-z]{2})[\s-]*(?P<rest>(?:\d.*)?)")
_NOTHING = MaterialFound(TradeName("", "", "not told"), None, "")


def material_and_hardness(text: str) -> tuple[TradeName, float | None, str]:
    """The material a text names, its hardness [Shore A], and what could not be taken.

    >>> name, hardness, remark = material_and_hardness("FKM-75")
    >>> name.code, hardness, remark
    ('FKM', 75.0, '')
    >>> material_and_hardness("PTFE 60 Shore D")[1:]
    (None, '60 Shore D is another scale than Shore A')
    >>> material_and_hardness("CR 60")[0].code, material_and_hardness("CR 60")[1]
    ('CR', 60.0)
    """
    found = material_in(text)
    if not found.name.code and (short := _SHORT_CODE.fullmatch(text)):
        # in running text two letters may be anything; alone in a cell they are the code
        name = named_material(short["code"])
        if name.code == short["code"].upper():
            beside = material_in(f"rubber {short['rest']}") if short["rest"] else found
            return name, beside.hardness_shore_a, name.remark
    return found.name, found.hardness_shore_a, found.remark


def material_in(text: str) -> MaterialFound:
    """The same, with the places where it was found."""
    found = _words().found_in(text)
    words = _coded(found, text)
    names = {one.value.code or _unknown(one.value): one for one in words}
    name, remarks = _NOTHING.name, []
    if len(names) == 1:
        name = words[0].value._replace(text=words[0].word)
    elif names:
        told = ", ".join(one.word for one in names.values())
        name = TradeName(told, "", f"several materials are named: {told}")
    elastomer = any(_is_elastomer(one.value) for one in words)
    value, where, scale = _hardness(text, found, elastomer)
    if value is not None and scale != "Shore A":
        remarks.append(f"{value:g} {scale} is another scale than Shore A")
        value = None
    elif value is not None and not SOFTEST <= value <= HARDEST:
        remarks.append(f"a hardness of {value:g} Shore A is not made")
        value = None
    if words and not name.code:
        remarks.append(name.remark)
    places = tuple((one.start, one.end) for one in words)
    return MaterialFound(name, value, "; ".join(remarks), places, where, elastomer)


def _coded(found: list[Found[TradeName]], text: str) -> list[Found[TradeName]]:
    """What counts: a code before a mere ``rubber``; silicone grease is no silicone ring."""
    of_part = [one for one in found if not _NOT_OF_THE_PART.match(text, one.end)]
    return [one for one in of_part if not one.value.remark.startswith(_GENERIC)] or of_part


def _hardness(
    text: str, words: list[Found[TradeName]], elastomer: bool
) -> tuple[float | None, Span | None, str]:
    """The hardness, where it stands and its scale: with a scale anywhere, else beside the rubber's name."""
    found = _SCALED.search(text) or _SHORE_FIRST.search(text)
    if found is None and elastomer:
        found = next((one for word in words if (one := _AFTER.match(text, word.end))), None)
        if found is None:
            found = next((one for word in words if (one := _BEFORE.search(text[: word.start]))), None)
    if found is None:
        return None, None, ""
    scale = "Shore A"
    if found["irhd"]:
        scale = "IRHD"
    elif (found["letter"] or "").upper() == "D":
        scale = "Shore D"
    return float(found["value"]), (found.start("value"), found.end()), scale


def _unknown(name: TradeName) -> str:
    return name.remark if name.remark.startswith(_GENERIC) else name.text.lower()


def _is_elastomer(name: TradeName) -> bool:
    known = materials().get(name.code)
    return known.kind == "elastomer" if known else name.text.lower() not in _NO_RUBBER


_NO_RUBBER = frozenset(("peek", "pctfe", "uhmw pe", "pe uhmw", "fep", "pfa")).union(
    ("plastic", "kunststoff", "plastique", "thermoplastic", "felt", "phenolic", "foam")
)


@cache
def _words() -> WordList[TradeName]:
    words = {word: TradeName(word, "", _URETHANE_REMARK) for word in _URETHANE}
    for row in rows("material_names"):
        words.setdefault(row["name"], named_material(row["name"]))
    for row in rows("materials"):
        for word in (row["material"], row["name"], *row["spellings"].split(";")):
            words.setdefault(word, named_material(word))
    return WordList(words, capitals=2, before_number=_BEFORE_NUMBER)
