"""``borebook names``: the closed lists of words, so that nobody has to guess them."""

from __future__ import annotations

import click


@click.command("names")
@click.argument("list_name", required=False, metavar="[LIST]")
def command(list_name: str | None) -> int:
    """Print the words that options and question files understand: all lists, or one LIST."""
    lists = _lists()
    if list_name is not None and list_name not in lists:
        from schema.nearest import not_among

        raise not_among(lists, field="list", given=list_name, problem="there is no such list")
    for name, words in lists.items():
        if list_name in (None, name):
            click.echo(f"{name}:")
            for word, meaning in words.items():
                click.echo(f"  {word:<24} {meaning}".rstrip())
    return 0


def _lists() -> dict[str, dict[str, str]]:
    from fitcheck.conditions import LAYERS, THINNING
    from fitcheck.decision import DECISION_RULES
    from schema.guidance import published_guidance
    from schema.instruments import instruments
    from schema.materials import fluids, materials

    guidance = published_guidance()
    squeeze = {row.guidance: row.source for row in guidance.squeeze}
    gaps = {row.guidance: f"{row.gap}; {row.source}" for row in guidance.gaps}
    limits = {
        f"{row.rule}={row.guidance}": f"{row.source}{' (default)' if row.default else ''}"
        for row in guidance.limits
    }
    return {
        "materials": {code: one.name for code, one in materials().items()},
        "fluids": fluids(),
        "instruments": {
            one.name: f"±{one.maximum_permissible_error_mm} mm; {one.source}"
            for one in instruments().values()
        },
        "decision-rules": {one.name: f"{one.words}; {one.source}" for one in DECISION_RULES.values()},
        "squeeze": squeeze,
        "gap": gaps,
        "limits": limits,
        "thinning": {name: law.source if law else "section not thinned" for name, law in THINNING.items()},
        "layers": dict.fromkeys(LAYERS, ""),
    }
