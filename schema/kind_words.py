"""What kind of part a description names, by the words of the trade in six languages.

The words are in ``published/kind_words.csv``. Some name no kind that is known here (a kit, pliers, a piston
seal): they are listed without a kind, so that ``circlip pliers`` is no circlip.
"""

from __future__ import annotations

import re
from functools import cache

from schema.tables import rows
from schema.trade_words import Found, WordList, folded

# What follows says what the part is for, not what it is: spacer for bearing, Öl für Dämpfer, junta para eje.
_FOR = re.compile(
    r"\b(?:for|f\.|suits?|fits|with|für|fuer|passend|mit|pour|avec|para|con|per|voor|met)(?=\s)", re.I
)
# In these languages the head of a name comes first (joint de valve), in the others last (valve seal).
_HEAD_FIRST = ("fr", "es", "it")
# What goes into or onto something else, and is named with it.
_GOES_INTO = (
    "o_ring",
    "four_lobed_ring",
    "back_up_ring",
    "lip_seal",
    "wiper",
    "guide_ring",
    "retaining_ring",
    "plain_bushing",
)
_BEFORE_NUMBER = ("OR", "TC")
# Many parts in one: beside such a word nothing is a single part (kit O-ring, O-Ringe Set).
_COLLECTION_WORDS = (
    "kit assortment sortiment set satz assortiment assortimento surtido coffret pochette jeu juego"
)
_COLLECTIONS = frozenset(_COLLECTION_WORDS.split())
# These say so wherever they stand; a set may also be how a single size is packed (O-ring 20x3, set of 10).
_ANYWHERE = _COLLECTIONS - {"set", "satz", "jeu", "juego", "pochette"}


def kind_word(text: str) -> tuple[str, str] | None:
    """The kind of part a text names and the word that says so; None where no word does.

    >>> kind_word("O-RING 214 NBR70")
    ('o_ring', 'O-RING')
    >>> kind_word("shaft seal 16x24x5"), kind_word("valve core O-ring"), kind_word("circlip pliers")
    (('lip_seal', 'shaft seal'), ('o_ring', 'O-ring'), None)
    """
    found = found_kind(text)
    return (found.value, found.word) if found is not None and found.value else None


def found_kind(text: str) -> Found[str] | None:
    """The deciding word with its place in the text; its kind is "" for a word that names none known here."""
    found = kind_words_in(text)
    if not found:
        return None
    purpose = _FOR.search(text)
    if purpose is not None:
        found = [one for one in found if one.end <= purpose.start()] or found
    # Words that touch are one name: bearing spacer. What stands apart says more of the same part.
    name = [found[0]]
    for one in found[1:]:
        if text[name[-1].end : one.start].strip(" -"):
            break
        name.append(one)
    for one in found:
        if not one.value[0] and _is_collection(one.word, _COLLECTIONS if one in name else _ANYWHERE):
            return Found("", one.word, one.start, one.end)
    head = name[0] if all(one.value[1] in _HEAD_FIRST for one in name) else _last_head(name)
    return Found(head.value[0], head.word, head.start, head.end)


def _last_head(name: list[Found[tuple[str, str]]]) -> Found[tuple[str, str]]:
    """The deciding word of a name whose last word leads, its kind "" where two kinds are named alike.

    A shaft or a piston behind a seal says where it goes (O-ring piston 40 x 3): nobody makes a piston of that
    name. Two seals, or a seal before a screw or a valve, can be either.
    """
    last = name[-1]
    others = [one for one in name[:-1] if one.value[0] in _GOES_INTO and one.value[0] != last.value[0]]
    if not others:
        return last
    if last.value[0] in ("shaft", "piston"):
        if len({one.value[0] for one in others}) == 1:
            return others[0]
    elif last.value[0] not in (*_GOES_INTO, "screw", "valve_fitting"):
        return last
    return last._replace(value=("", last.value[1]), word=f"{others[0].word} {last.word}")


def _is_collection(word: str, collections: frozenset[str]) -> bool:
    """Whether a word or one of its parts, also in the plural, is one of these."""
    return any(
        run in collections or run[:-1] in collections for run in folded(word).replace("-", " ").split()
    )


def kind_words_in(text: str) -> list[Found[tuple[str, str]]]:
    """All kind words of a text: (kind, language), the word, its place."""
    return _words().found_in(text)


@cache
def _words() -> WordList[tuple[str, str]]:
    return WordList(
        {row["word"]: (row["kind"], row["language"]) for row in rows("kind_words")},
        plurals=True,
        before_number=_BEFORE_NUMBER,
    )
