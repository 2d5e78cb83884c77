"""The marks of sizes in a description: patterns for codes of standards, groups of sizes, threads, packs.

Nothing is decided here; ``schema.size_words`` does that. Every pattern is searched in text in which what was
already understood is blanked out, so that no number is used twice.
"""

from __future__ import annotations

import re

_FRACTION = r"(?:\d+[ -])?\d+/(?:128|64|32|16|8|4|2)(?!\d)"
NUMBER = rf"(?:{_FRACTION}|\d+(?:[.,]\d+)?|[.,]\d+)"
_UNIT = r"(?:mm\b|inch(?:es)?\b|in\b|zoll\b|″|\"|'')"
_TIMES = r"\s*[x×*]\s*"
_ONE = rf"[øØ⌀∅]?\s?({NUMBER})\s?({_UNIT})?"
# Not the end of another number or word, not a tolerance.
_FREE = r"(?<![\w.,/±+])"
_END = r"(?![\d]|(?<=2)R[SZ]|[.,/]\d|\s?[x×*]\s?[\d.])"

STANDARD = re.compile(
    r"\b(?:DIN|ISO|EN|ASTM|SAE|BS|NF|UNI|JIS|MIL|GB|IS|AS|ARP)(?:[\s/:-]|[A-Z]{1,2}(?![A-Z]))*\d", re.I
)
AS568 = re.compile(
    r"\b(?:AS|ARP)[\s-]*568[\s-]*(?:[A-Z](?![A-Z]))?[\s:/-]*(\d{1,3})(?!\d|[.,]\d|\s?[x×*])", re.I
)
ISO3601 = re.compile(
    rf"\bISO[\s-]*3601(?:-1)?[\s-]*(?:class\s*)?([AB])?[\s:-]*({NUMBER}){_TIMES}({NUMBER})(?:\s?mm\b)?", re.I
)
BS4518 = re.compile(r"\bBS[\s-]*4518[\s-]*(\d{4})[\s-](\d{2})(?!\d)", re.I)
JIS = re.compile(r"\bJIS(?:[\s-]*B\s*2401)?[\s-]*([PG])[\s-]*(\d+(?:\.\d+)?A?)(?![\d.])", re.I)
RETAINING = re.compile(
    r"\b(DIN|IS|GB)\s*(471|472|3075|6799|7993|9925|9926|895\.[12])(?:\s*[-:]\s*(?:19|20)?\d\d(?=\s*-))?"
    rf"\s*[-: ]\s*[AJ]?\s*(\d+(?:[.,]\d+)?)(?:{_TIMES}(\d+(?:[.,]\d+)?))?(?![\d])",
    re.I,
)
# A standard's own number is no size: DIN 3771, EN ISO 6194-1.
OTHER_STANDARD = re.compile(
    r"\b(?:(?:DIN|ISO|EN|ASTM|SAE|BS|NF|UNI|JIS|MIL|GB|IS|AS|ARP)[\s/-]*)+(?:[A-Z]{1,2}[\s-]*)?\d+(?:[-.]\d+)*"
    r"(?![\d]|\s?[x×*])",
    re.I,
)
PACK = re.compile(
    r"\b(?:pack(?:s|et|ung)?|set|bag|box|lot|jeu|sachet|qty|menge|ve|satz|beutel|confezione|bolsa)"
    r"[\s.:]*(?:of|de|da|à|mit|with|=)?[\s.:]*\d+(?:\s*(?:pcs?|stk|stück))?\b(?!\s*[x×*.,/]\s*\d)"
    r"|\b\d+[\s-]*(?:pcs?|pieces?|stk|stck|stück|st|er|pack|pk|off|pz|pezzi|uds?|stuks|pièces?)\b"
    r"|\(\s*\d+\s*\)|^\d{1,3}\s?x\s?(?=[a-z])|/\s?\d+\s?(?:pcs?|pk|stk)\b",
    re.I,
)
GROUP = re.compile(rf"{_FREE}{_ONE}{_TIMES}{_ONE}(?:{_TIMES}{_ONE})?(?:{_TIMES}{_ONE})?{_END}", re.I)
# Three sizes with dashes or strokes between them, as oil seals and bearings are marked.
DASHED = re.compile(
    r"(?<![\w.,/-])(\d{1,3}(?:[.,]\d)?)([-/])(\d{1,3}(?:[.,]\d)?)\2(\d{1,2}(?:[.,]\d+)?)(?![\w.,/-])"
)
LABELLED = re.compile(
    rf"\b(?:(?P<label>ID|OD|CS|d1|d2|W|L)\s?[:=]?\s?(?P<number>{NUMBER})\s?(?P<unit>{_UNIT})?(?![\w])"
    rf"|(?P<number_>{NUMBER})\s?(?P<unit_>{_UNIT})?\s?(?P<label_>ID|OD|CS)\b)",
    re.I,
)
# Codes of three digits, with the dash of AS568 or without.
_CODE_END = r"(?![\w×*]|[.,/-]\w|\s[x×*]\s)"
DASH_CODE = re.compile(rf"(?<![\w.,/×*-])-\s?(\d{{3}}){_CODE_END}")
BARE_CODE = re.compile(rf"(?<![\w.,/×*-])(\d{{3}}){_CODE_END}")

METRIC_THREAD = re.compile(
    rf"(?<![\w.,])M\s?(\d+(?:[.,]\d+)?)(?:{_TIMES}(\d*[.,]?\d+))?(?:{_TIMES}(\d*[.,]?\d+))?(?:\s?mm\b)?"
    r"(?:\s?-\s?(\d[a-h](?:\d[a-h])?)\b)?(?![\w])",
    re.I,
)
UNIFIED_THREAD = re.compile(
    r"(?<![\w.,/])((?:#|no\.?\s?)?\d+(?:\s\d+/\d+|/\d+)?|\.\d+)\s?\"?\s?-\s?(\d\d)\s?-?\s?(UN[A-Z]*)?(-[123][AB])?"
    rf"(?![\w])(?:{_TIMES}({NUMBER})\s?({_UNIT})?)?",
    re.I,
)
VALVE_THREAD = re.compile(r"\b(\d{1,2}V\d|CTV\d-\d+|Vg\s?\d+|0\.305-32)(?![\w])", re.I)
_SHIELDS = r"(?:2RS[RH12]?|RS[12]?|2Z|ZZ|Z|LLU|LLB|DDU|VV|2RS)"
BEARING_WITH_SHIELD = re.compile(rf"(?<![\w.,/-])(\d{{3,5}})[\s-]?({_SHIELDS})(?![\w])", re.I)
BEARING_NUMBER = re.compile(r"(?<![\w.,/-])(\d{3,5}|(?:GE|HK)\s?\d{1,4}\s?[A-Z]{0,2})(?![\w.,/-])", re.I)

# Digits in these places may be a name (2RS, 0.305-32, 1/4): a text of the same shape may have none.
MAYBE_NAMED = re.compile(r"\d\s?-?\s?\d?(?:RS|Z|LL|DD|VV)|\d\.\d{3}-\d\d|\d/\d", re.I)
