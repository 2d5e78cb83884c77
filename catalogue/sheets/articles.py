"""The article that a row describes: its kind and fields from columns and description, built by its model.

A distributor's range is a few thousand sizes in a few dozen materials, so an article is worked out once for
each different set of texts. Every size comes in every rubber: for rings, sizes and what they are made of are
worked out apart from each other and then joined.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from catalogue.sheets.doubts import Doubt, doubts_of_new
from catalogue.sheets.mapping import LEAVE_OUT
from catalogue.sheets.merging import RINGS, STUFF, merged_fields, merged_stuff
from catalogue.sheets.problems import Missing, Problem, problem_of
from catalogue.sheets.told_kinds import no_kind
from catalogue.table_rows import add_part, no_rows
from schema.errors import InputError, InputErrors
from schema.same_part import typed_key
from schema.size_words import SizeWords, ToldWords, words_told
from schema.unit_parts import part_from

DIMENSION_COLUMNS = (
    "dimension",
    "text",
    "nominal_mm",
    "lower_mm",
    "upper_mm",
    "origin",
    "standard_uncertainty_mm",
    "tolerance_class",
)
VALUE_COLUMNS = ("field", "text", "low", "high", "in_unit")
HEAD_COLUMNS = ("material", "hardness_shore_a", "size_code", "size_grade", "size_source")
MOST_KEPT = 300_000  # different articles that are remembered
_SOME_SIZE = {"inside_diameter": "20 mm", "cross_section": "2 mm"}
_SOME_STUFF = {"material": "NBR", "hardness_shore_a": "70"}


class Article(NamedTuple):
    """An article apart from its number and description.

    ``texts`` are the fields as they are stored, ``head`` the columns of ``part`` that repeat some of them,
    ``dimensions`` and ``values`` the rows of its sizes and other fields without the part's number, ``stuff``
    those of what a ring is made of. Rings of one size share their rows, and so do rings of one rubber.
    ``remarks`` say what was left out or taken, ``doubts`` which sizes look like inches under millimetres.
    """

    kind: str
    texts: tuple[tuple[str, str], ...]
    head: tuple[Any, ...]
    dimensions: tuple[tuple[Any, ...], ...]
    values: tuple[tuple[Any, ...], ...]
    stuff: tuple[tuple[Any, ...], ...]
    typed_key: str
    remarks: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()


# What one row tells of its article: its cells in the order of the fields, those of what it is made of, and
# the words of its description. A cell that could not be read is a Problem, and counts as telling nothing.
Told = tuple[tuple[Any, ...], tuple[Any, ...], ToldWords]
Problems = tuple[Problem, ...]
NO_PART: Problems = ()  # stands for a row that the mapping leaves out
NO_KIND: Problems = (no_kind("", ""),)  # stands for a row of which nothing tells the kind


class Articles(dict[Told, Article | Problems]):
    """The articles met so far, by what rows told of them; () for a row that is no part by the mapping.

    ``fields`` and ``stuff`` name the fields of the cells, ``every`` has the texts that all rows
    share, ``headers`` the header of each field's column. ``as_kept``: cells are all that tells of an article,
    text by text, and not its description.
    """

    def __init__(
        self,
        *,
        fields: Sequence[str],
        stuff: Sequence[str],
        every: Mapping[str, str],
        headers: Mapping[str, str],
        as_kept: bool = False,
    ) -> None:
        super().__init__()
        self._as_kept = as_kept
        self._fields, self._stuff = tuple(fields), tuple(stuff)
        self._every = {name: text for name, text in every.items() if name not in STUFF}
        self._every_stuff = {name: text for name, text in every.items() if name in STUFF}
        self._headers = headers
        self._halves: dict[Any, Article | Problems] = {}

    def __missing__(self, told: Told) -> Article | Problems:
        found = self._found(told)
        if len(self) >= MOST_KEPT:
            self.clear()
        self[told] = found
        return found

    def _found(self, told: Told) -> Article | Problems:
        fields, stuff, (words_kind, words_size, words_fields, words_material, words_hardness) = told
        of_size = (fields, words_kind, words_size, words_fields)
        sizes = self._halves.get(of_size)
        if isinstance(sizes, Article):  # a ring of this size was met before, perhaps in this rubber too
            made_of = self._halves.get((sizes.kind, stuff, words_material, words_hardness))
            if isinstance(made_of, Article):
                return _joined(sizes, made_of)
        texts = _texts(self._fields, fields) | self._every
        kind = texts.pop("kind", "") or words_kind
        if kind == LEAVE_OUT:
            return NO_PART
        if not kind:
            return NO_KIND  # told with the words of the row
        stuff_texts = _texts(self._stuff, stuff) | self._every_stuff
        if self._as_kept:
            return self._caught(lambda: _built(kind, texts | stuff_texts, ()))
        words = words_told(told[2])
        if kind not in RINGS:
            return self._caught(lambda: _whole(kind, texts, stuff_texts, words))
        sizes = self._half(of_size, lambda: _ring_sizes(kind, texts, words))
        made_of = self._half(
            (kind, stuff, words_material, words_hardness), lambda: _ring_stuff(kind, stuff_texts, words)
        )
        if isinstance(sizes, Article) and isinstance(made_of, Article):
            return _joined(sizes, made_of)
        return (*_problems(sizes), *_problems(made_of))

    def _half(self, key: tuple[Any, ...], build: Callable[[], Article]) -> Article | Problems:
        if key not in self._halves:
            if len(self._halves) >= MOST_KEPT:
                self._halves.clear()
            self._halves[key] = self._caught(build)
        return self._halves[key]

    def _caught(self, build: Callable[[], Article]) -> Article | Problems:
        try:
            return build()
        except (InputError, InputErrors) as error:
            return tuple(self._told(error))

    def _told(self, error: InputError | InputErrors) -> Iterator[Problem]:
        for one in error.errors if isinstance(error, InputErrors) else (error,):
            field = one.field.rpartition(".")[2]
            column = self._headers.get({"code": "size"}.get(field, field), "")
            given = "" if one.given is None else str(one.given)
            problem = problem_of(one, column=column, value=given)
            if not column:
                problem = problem._replace(reason=f"{field}: {problem.reason}")
                if not given and one.problem.startswith("is missing"):
                    problem = Missing(*problem)
            yield problem


def _texts(names: Sequence[str], cells: Sequence[Any]) -> dict[str, str]:
    return {name: text for name, text in zip(names, cells, strict=True) if text and type(text) is str}


def _problems(found: Article | Problems) -> Problems:
    return () if isinstance(found, Article) else found


# -- articles of all kinds, and of rings in halves -----------------------------------------------------


def _whole(kind: str, texts: Mapping[str, str], stuff: Mapping[str, str], words: SizeWords) -> Article:
    fields, made_of = merged_fields(kind, texts, words), merged_stuff(kind, stuff, words)
    return _built(kind, fields.texts | made_of.texts, (*fields.remarks, *made_of.remarks))


def _ring_sizes(kind: str, texts: Mapping[str, str], words: SizeWords) -> Article:
    """A ring of no material; its key is the beginning of that of every ring of its size."""
    fields = merged_fields(kind, texts, words)
    found = _built(kind, fields.texts, fields.remarks)
    key = _built(kind, fields.texts | _SOME_STUFF, ()).typed_key
    return found._replace(typed_key=key.rsplit("|", len(STUFF))[0])


def _ring_stuff(kind: str, texts: Mapping[str, str], words: SizeWords) -> Article:
    """What a ring is made of, without its sizes; its key is the end of that of every ring of that stuff."""
    made_of = merged_stuff(kind, texts, words)
    found = _built(kind, _SOME_SIZE | made_of.texts, made_of.remarks)
    return found._replace(
        texts=tuple(made_of.texts.items()),
        stuff=tuple(row for row in found.values if row[0] in STUFF),
        typed_key="|".join(found.typed_key.rsplit("|", len(STUFF))[1:]),
    )


def _joined(sizes: Article, made_of: Article) -> Article:
    return Article(
        sizes.kind,
        (*sizes.texts, *made_of.texts),
        (*made_of.head[: len(STUFF)], *sizes.head[len(STUFF) :]),
        sizes.dimensions,
        sizes.values,
        made_of.stuff,
        f"{sizes.typed_key}|{made_of.typed_key}" if sizes.typed_key and made_of.typed_key else "",
        (*sizes.remarks, *made_of.remarks),
        sizes.doubts,
    )


def _built(kind: str, texts: Mapping[str, str], remarks: tuple[str, ...]) -> Article:
    """Build a part and make its rows as the catalogue writes them, without its number."""
    told = {"kind": kind, **texts}
    model = part_from(told, number="?", path="row")
    tables = no_rows()
    add_part(tables, told, model, number="?", source="?")
    return Article(
        kind,
        tuple(texts.items()),
        tuple(tables["part"][0][name] for name in HEAD_COLUMNS),
        tuple(tuple(row[name] for name in DIMENSION_COLUMNS) for row in tables["part_dimension"]),
        tuple(tuple(row[name] for name in VALUE_COLUMNS) for row in tables["part_value"]),
        (),
        typed_key(model),
        remarks,
        doubts_of_new((row["dimension"], row["nominal_mm"]) for row in tables["part_dimension"]),
    )
