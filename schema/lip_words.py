"""How many lips of a seal run on the shaft, by the words of a description. Common practice, no source."""

from __future__ import annotations

import re

_LIP = r"(?:lips?|lipp\w*|l[èe]vres?|labios?|labbr[oi])\b"
_DUST = r"(?:dust|staub|schutz|anti-?poussi[èe]re|para-?polvere|guardapolvo)"
_WITHOUT = re.compile(
    rf"\b(?:without|no|ohne|sans|sin|senza)\s+(?:a\s+)?(?:{_DUST}[\s-]*{_LIP}|{_LIP}\s+{_DUST})", re.I
)
_DUAL = re.compile(
    rf"\b(?:double|dual|twin|two|2|doppel|zwei|deux|doble|dos|doppio|due)[\s-]*{_LIP}|\b{_DUST}[\s-]*{_LIP}|{_LIP}\s+{_DUST}",
    re.I,
)
_SINGLE = re.compile(rf"\b(?:single|one|1|ein(?:fach)?|simple|une|un|singolo)[\s-]*{_LIP}", re.I)


def lips_in(text: str) -> str:
    """``single`` or ``dual``, as the model of shaft seals takes it; "" where nothing or both is told.

    >>> lips_in("oil seal 20x30x7 double lip"), lips_in("mit Staublippe"), lips_in("oil seal 20x30x7")
    ('dual', 'dual', '')
    """
    plain = _WITHOUT.sub(" single lip ", text)
    dual, single = bool(_DUAL.search(plain)), bool(_SINGLE.search(plain))
    return "" if dual == single else "dual" if dual else "single"
