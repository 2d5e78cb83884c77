"""``borebook parts``: the parts of the catalogue."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from catalogue.cli.arguments import Command
from catalogue.cli.page import say, table

# Told in lines of their own, or of use to the program alone.
_TOLD_BELOW = (
    "dimensions",
    "values",
    "places",
    "offers",
    "typed_key",
    "load",
    "sheet",
    "row",
    "loaded_from",
)


@click.command("parts", cls=Command)
@click.argument("words", nargs=-1)
@click.option("--kind", metavar="KIND", help="only one kind: o_ring, back_up_ring, wiper ...")
@click.option("--number", metavar="PART", help="all that is known of one part")
@click.option("--json", "as_json", is_flag=True, help="print as JSON")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")
def command(
    words: tuple[str, ...], kind: str | None, number: str | None, as_json: bool, catalogue: str | None
) -> int:
    """List the parts that have every one of the WORDS (number, size code, material, description)."""
    from catalogue.lookup import part_record, parts
    from catalogue.store import open_store

    connection = open_store(Path(catalogue) if catalogue else None)
    try:
        if number is not None:
            record = part_record(connection, number)
            if as_json:
                click.echo(json.dumps(record, indent=2, ensure_ascii=False))
            else:
                _say_record(record)
            return 0
        found = parts(connection, kind, " ".join(words))
        alone = {} if found else {word: len(parts(connection, kind, word)) for word in words}
    finally:
        connection.close()
    if as_json:
        click.echo(json.dumps(found, indent=2, ensure_ascii=False))
        return 0
    table((one["part_number"], one["kind"], _stuff(one), one["description"]) for one in found)
    click.echo(f"{len(found)} parts" if len(found) != 1 else "1 part", err=True)
    if alone:
        click.echo(_why_nothing(alone, kind), err=True)
    return 0


def _stuff(one: dict[str, Any]) -> str:
    return " ".join(_text(one[name]) for name in ("material", "hardness_shore_a") if one[name] is not None)


def _why_nothing(alone: dict[str, int], kind: str | None) -> str:
    """Which word finds nothing, or that only all of them together do."""
    among = f" of kind {kind}" if kind else ""
    unmatched = [word for word, count in alone.items() if not count]
    if unmatched:
        return f"no part{among} has {' or '.join(map(repr, unmatched))} in number, size, material or words"
    counts = ", ".join(f"{word!r} {count}" for word, count in alone.items())
    return f"no part{among} has all of these words; each by itself finds: {counts}"


def _say_record(record: dict[str, Any]) -> None:
    from catalogue.values import GRADE_WORDS

    for name, value in record.items():
        if name in _TOLD_BELOW or value in (None, "", "as given"):
            continue
        if name == "size_grade":
            if value != "given":
                say(f"size confirmed by: {GRADE_WORDS.get(value, value)}")
        else:
            say(f"{name.replace('_', ' ')}: {_text(value)}")
    if record["loaded_from"]:
        say(f"from {record['loaded_from']}")
    for one in record["dimensions"]:
        say(f"  {one['dimension'].replace('_', ' ')}: {one['text']}")
    for one in record["values"]:
        say(f"  {one['field'].replace('_', ' ')}: {one['text']}")
    for one in record["places"]:
        say(f"  used in {one['unit']}/{one['place']} x {one['quantity']}")
    for one in record["offers"]:
        say(f"  {_offer(one)}")


def _offer(offer: dict[str, Any]) -> str:
    """One offer in words: ``offered by Kolbring as KV-2140: 12.50 EUR for 100; packs of 10; from load 3``."""
    from catalogue.row_words import counted, price_words

    price = price_words(offer["price"], offer["currency"], offer["price_per"])
    asked = f"the sheet says {offer['price_text']!r}" if offer["price_text"] else "no price"
    told = [price or asked]
    if offer["pack_size"]:
        told.append(f"packs of {offer['pack_size']}")
    if offer["minimum"]:
        told.append(f"at least {offer['minimum']}")
    if offer["lead_time_days"] is not None:
        told.append(f"sent in {counted(offer['lead_time_days'], 'day')}")
    if offer["stock"] is not None:
        told.append(f"stock {offer['stock']}")
    if not offer["listed"]:
        told.append(f"not listed any more since {offer['loaded_from']}")
    else:
        told.append(f"from {offer['loaded_from']}")
    return f"offered by {offer['supplier']} as {offer['code']}: {'; '.join(told)}"


def _text(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)
