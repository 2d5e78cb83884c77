"""Sources and equations of a sheet, each numbered once in the order in which the sheet first names it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from catalogue.values import GRADE_WORDS
from fitcheck.rule import RULES
from fitcheck.words import dimension_words

# What is no published figure; it is said beside the value, not only in the list of sources.
WEAK = ("common_practice", "disputed", "from_memory", "no_tolerance", "own_judgement")
GIVEN, MEASURED, WORKED_OUT = "given", "measured", "worked_out"
_OWN_WORDS = {
    GIVEN: "as given to this check",
    MEASURED: "as measured on this unit",
    WORKED_OUT: "worked out here",
}
UNITS = ("mm3", "mm2", "mm", "mpa", "n", "deg_c", "percent", "kg_m3", "um", "k", "nmm")


class Cite(NamedTuple):
    """A mention of a source: its number, how well it is confirmed, and whether that is to be said at once."""

    number: int
    grade: str
    weak: bool


class Source(NamedTuple):
    """A source as the sheet lists it, with the numbers of the places that name it."""

    number: int
    citation: str
    grade: str
    places: tuple[int, ...]


class Equation(NamedTuple):
    """An equation as the sheet lists it: its symbols in words, what it takes from others, its source."""

    number: int
    name: str
    equation: str
    symbols: str
    takes: tuple[int, ...]
    source: str


class Sources:
    """All sources of one sheet."""

    def __init__(self) -> None:
        self._numbers: dict[tuple[str, str], int] = {}
        self._places: dict[int, dict[int, None]] = {}
        self._equations: dict[str, dict[str, None]] = {}

    def cite(self, citation: str, grade: str, place: int = 0) -> Cite:
        """The mention of a source, at a place by its number or at none."""
        key = (citation, grade)
        number = self._numbers.setdefault(key, len(self._numbers) + 1)
        used = self._places.setdefault(number, {})
        if place:
            used[place] = None
        return Cite(number, grade_words(grade), grade in WEAK)

    def equation(self, chain: Sequence[str]) -> int:
        """The number of the last of a chain of rules, innermost first; 0 where the list has none of them."""
        known = [name for name in chain if name in RULES]
        if not known:
            return 0
        takes = self._equations.setdefault(known[-1], {})
        takes |= dict.fromkeys(known[:-1])
        for name in known[:-1]:
            self._equations.setdefault(name, {})
        return list(self._equations).index(known[-1]) + 1

    def equations(self) -> list[Equation]:
        """The equations named so far, each with its source beside it."""
        found = []
        numbers = {name: number for number, name in enumerate(self._equations, start=1)}
        for name, takes in self._equations.items():
            rule = RULES[name]
            symbols = "; ".join(f"{sign} {_symbol(text)}" for sign, text in rule.symbols.items())
            words = dimension_words(name)
            from_others = tuple(sorted(numbers[one] for one in takes))
            found.append(Equation(numbers[name], words, rule.equation, symbols, from_others, rule.source))
        return found

    def listed(self) -> list[Source]:
        """Every source that was named."""
        return [
            Source(
                number, citation, _unless(citation, grade_words(grade)), tuple(sorted(self._places[number]))
            )
            for (citation, grade), number in self._numbers.items()
        ]


def grade_words(grade: str) -> str:
    """A grade as a person reads it."""
    return _OWN_WORDS.get(grade) or GRADE_WORDS.get(grade, grade.replace("_", " ")).lower()


def _unless(citation: str, grade: str) -> str:
    """A grade, unless the citation says it already."""
    return "" if citation.startswith(grade) else grade


def _symbol(text: str) -> str:
    """A symbol in words: an argument's name without its unit, and the unit in brackets.

    >>> _symbol("travel_to_metal_mm"), _symbol("room left [mm]")
    ('travel to metal [mm]', 'room left [mm]')
    """
    for unit in UNITS:
        if text.endswith(f"_{unit}"):
            shown = {"mpa": "MPa", "n": "N", "deg_c": "degC", "percent": "%", "k": "K", "nmm": "N mm"}
            return f"{text.removesuffix(f'_{unit}').replace('_', ' ')} [{shown.get(unit, unit)}]"
    return text.replace("_", " ")
