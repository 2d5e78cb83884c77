"""Turns what a person named into a full question: catalogue names, standard sizes, or neither."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from catalogue.store import location, open_store
from schema.errors import InputError, InputErrors, StoreError, UnknownName
from schema.fit import Fit
from schema.ring_sizes import RingSize, ring_size


def resolved(
    ring: str | None, place: str | None, given: dict[str, Any], catalogue: Path | None
) -> dict[str, Any] | Fit:
    """The question for ``schema.question.question_from``; of a place that is no gland, the Fit itself.

    A ring is first looked for in the catalogue, then among the standard sizes; a place only in the
    catalogue. A gland that no ring is told for gets the one on its list. Without a catalogue a standard size
    and a gland by options still work.
    """
    at = location(catalogue)
    if place is None and ring is not None and not at.exists():
        return _standard(ring, given, UnknownName(field="ring", given=ring, problem=_no_catalogue(at)))
    connection = open_catalogue(at, wanted=place or ring or "")
    from catalogue.fits import fit_of, is_fit
    from catalogue.lookup import listed_ring, question_dict

    try:
        if place is not None and is_fit(connection, place):
            return fit_of(connection, ring, place, given)
        if place is not None and ring is None and not _tells_ring(given.get("part")):
            ring = listed_ring(connection, place)
        given = _of_ring(ring, given)
        try:
            return question_dict(connection, ring, place, given)
        except (UnknownName, InputErrors) as error:
            unknown = _unknown_part(error)
            if ring is None or unknown is None:
                raise
            try:
                with_size = _standard(ring, given, unknown)
            except InputError:
                if isinstance(error, InputErrors):
                    raise error from None  # ring and place are unknown: both are told
                raise
            return question_dict(connection, None, place, with_size)
    finally:
        connection.close()


def _of_ring(ring: str | None, given: dict[str, Any]) -> dict[str, Any]:
    """Fields told under the number of the ring (``QV-1202.cross_section``), in the section of the part."""
    place = given.get("place")
    if ring is None or not isinstance(place, dict):
        return given
    under = [name for name, text in place.items() if isinstance(text, dict) and name.lower() == ring.lower()]
    part = given.get("part") or {}
    if not under or not isinstance(part, dict):
        return given
    own = {name: text for name, text in place.items() if name not in under}
    told = {field: text for name in under for field, text in place[name].items()}
    return {**given, "place": own, "part": {**part, **told}}


def _tells_ring(part: Any) -> bool:
    """Whether the section part of a question tells a ring of its own, by its size or by what it measures."""
    return isinstance(part, dict) and bool(
        part.get("size") or part.get("code") or part.get("inside_diameter")
    )


def open_catalogue(catalogue: Path | None, *, wanted: str) -> sqlite3.Connection:
    """The catalogue, for reading; StoreError says what cannot be looked up where there is none."""
    at = location(catalogue)
    if not at.exists():
        told = f"{_no_catalogue(at)}, so {wanted!r} cannot be looked up"
        raise StoreError(f"{told}. Make the demo one: borebook demo")
    return open_store(at)


def _unknown_part(error: UnknownName | InputErrors) -> InputError | None:
    errors = error.errors if isinstance(error, InputErrors) else [error]
    return next((one for one in errors if isinstance(one, UnknownName) and one.field == "part"), None)


def standard_size(code: str, *, field: str = "size") -> RingSize:
    """A standard size from its code; the refusal of one written otherwise names the size it may mean.

    Raises UnknownName or InputError.
    """
    try:
        return ring_size(code, field=field)
    except UnknownName as unknown:
        if not unknown.nearest:
            unknown.nearest = tuple(_likely(code))
        raise


def _likely(code: str) -> Iterator[str]:
    """Codes that 2-214, AS-568-214 or G25 may mean, as far as there are such sizes."""
    plain = " ".join(code.split())
    tries = [f"JIS-{plain}", plain.replace("/", "-")]
    if dash := re.search(r"(?:^|[^\d])-?(\d{3})$", plain):
        tries.append(f"AS568-{dash[1]}")
    for one in tries:
        try:
            yield ring_size(one).code
        except InputError:
            continue


def _no_catalogue(at: Path) -> str:
    return f"there is no catalogue at {at}"


def _standard(ring: str, given: dict[str, Any], unknown: InputError) -> dict[str, Any]:
    """The ring as a standard size; when it is none either, both reasons are told."""
    try:
        code = standard_size(ring, field="ring").code
    except InputError as error:
        near = (*getattr(unknown, "nearest", ()), *getattr(error, "nearest", ()))
        raise UnknownName(
            field="ring",
            given=ring,
            problem=f"{unknown.problem}; and {error.problem}",
            allowed="" if near else f"a part number of the catalogue, or {error.allowed}",
            example="" if near else error.example,
            nearest=near,
        ) from error
    section = given.get("part")
    return {**given, "part": {"size": code, **(section if isinstance(section, dict) else {})}}
