"""``borebook names``: the closed lists of words, so that nobody has to guess them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

import click

from catalogue.cli.arguments import Command
from catalogue.cli.page import say
from schema.service import MEDIA, MOTIONS, PRESSURE_SIDES

if TYPE_CHECKING:
    from schema.guidance import LimitRow


@click.command("names", cls=Command)
@click.argument("list_name", required=False, metavar="[LIST]")
def command(list_name: str | None) -> int:
    """Print the words that options and files understand: all lists, or one LIST.

    LIST may also be a kind of place or part (borebook names rod_gland), or unit: then its fields are
    printed, as a unit file tells them.
    """
    from catalogue.cli.kinds import fields_in_words

    lists = _lists()
    fields = fields_in_words((list_name or "").lower().replace("-", "_").replace(" ", "_"))
    if list_name is not None and list_name not in lists and not fields:
        from schema.nearest import not_among

        known = (*lists, "unit", *lists["places"], *lists["parts"])
        raise not_among(known, field="list", given=list_name, problem="there is no such list or kind")
    for name, rows in fields.items():
        _say_list(name, dict(rows))
    for name, words in lists.items() if not fields else ():
        if list_name in (None, name):
            _say_list(name, words)
    return 0


def _say_list(name: str, words: Mapping[str, str]) -> None:
    click.echo(f"{name}:")
    head = max(map(len, words))
    for word, meaning in words.items():
        if head > WIDEST_WORD:
            say(f"  {word}: {meaning}", 6)
        else:
            say(f"  {word:<{head}}  {meaning}", head + 4)


WIDEST_WORD = 24  # beyond it a list has no second column
_MEANINGS = {
    "o_ring": "O-ring: round section",
    "four_lobed_ring": "four-lobed ring",
    "rod_gland": "groove in the housing, the ring seals on the shaft (--shaft --groove --throat --width)",
    "piston_gland": "groove in the piston, the ring seals in the bore (--bore --groove --land --width)",
    "face_gland": "groove in a flat face (--depth --width, --outer-wall or --inner-wall)",
    "static": "nothing moves over the ring",
    "reciprocating": "shaft or piston strokes",
    "liquid": "oil or another liquid is sealed",
    "gas": "gas is on either side of it",
    "one_side": "pressure always from the same side (rod and piston glands)",
    "both_sides": "pressure now from one side, now from the other (rod and piston glands)",
    "inside": "from within the ring; it lies against the outer wall (face glands)",
    "outside": "from around the ring; it lies against the inner wall (face glands)",
    "stretch": "the section grows thinner on a stretched ring",
    "eccentricity": "shaft or piston stands off centre by the clearance",
    "temperature": "ring and metal shrink and grow",
    "swell": "the ring grows or shrinks in the fluid",
}


def _told(names: Iterable[str]) -> dict[str, str]:
    return {name: _MEANINGS.get(name, "") for name in names}


def _lists() -> dict[str, dict[str, str]]:
    from catalogue.cli.kinds import kinds_in_words
    from fitcheck.decision import DECISION_RULES
    from fitcheck.rings.conditions import LAYERS, THINNING
    from schema.guidance import published_guidance
    from schema.instruments import instruments
    from schema.materials import fluids_in_words, materials
    from schema.parts import PART_MODELS, BackUpRing
    from schema.places import METALS, PLACE_MODELS

    guidance = published_guidance()
    thinning = {name: law.source if law else "section not thinned" for name, law in THINNING.items()}
    return {
        "kinds": _told(kind for kind in PART_MODELS if kind != BackUpRing.kind),
        "glands": _told(PLACE_MODELS),
        "motion": _told(MOTIONS),
        "medium": _told(MEDIA),
        "from": _told(PRESSURE_SIDES),
        "metals": _told(METALS),
        "materials": {code: one.in_words for code, one in materials().items()},
        "fluids": fluids_in_words(),
        "instruments": {
            one.name: f"±{one.maximum_permissible_error_mm} mm; {one.source}"
            for one in instruments().values()
        },
        "decision-rules": {one.name: f"{one.words}; {one.source}" for one in DECISION_RULES.values()},
        "squeeze": {row.guidance: row.source for row in guidance.squeeze},
        "gap": {row.guidance: f"{row.gap}; {row.source}" for row in guidance.gaps},
        "limits": _limits(guidance.limits),
        "thinning": thinning,
        "thickening": {
            "none": "the section is not thickened",
            "constant-volume": "rubber keeps its volume: a compressed ring has a thicker section",
        },
        "layers": _told(LAYERS),
        **kinds_in_words(),
    }


def _limits(rows: Iterable[LimitRow]) -> dict[str, str]:
    """Guidance of each rule, for which cases it is the default or can be chosen, and its sources."""
    found: dict[str, list[LimitRow]] = {}
    for row in rows:
        found.setdefault(f"{row.rule}={row.guidance}", []).append(row)
    return {name: f"{_cases(same)}. {_sources(same)}" for name, same in found.items()}


def _cases(rows: list[LimitRow]) -> str:
    """Such as: default for all glands (static gas), choice for rod glands."""
    services: dict[tuple[bool, str], set[tuple[str, str]]] = {}
    for row in rows:
        services.setdefault((row.default, row.gland), set()).add((row.motion, row.medium))
    told = []
    for (default, gland), pairs in services.items():
        motions, media = ({pair[at] for pair in pairs} for at in (0, 1))
        where = "all glands" if gland == "any" else f"{gland} glands"
        everything = [
            ("any" in motions or motions == set(MOTIONS)),
            ("any" in media or media == set(MEDIA)),
        ]
        named = [" ".join(word for word in pair if word != "any") for pair in sorted(pairs)]
        only = "" if all(everything) else f" ({', '.join(named)})"
        told.append(f"{'default' if default else 'choice'} for {where}{only}")
    return ", ".join(told)


def _sources(rows: list[LimitRow]) -> str:
    return "; ".join(dict.fromkeys(one for row in rows for one in row.source.split("; ")))
