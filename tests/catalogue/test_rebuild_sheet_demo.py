"""The rebuild sheets of the demo units: every family of places keeps what the sheet promises."""

from __future__ import annotations

import math
import re
from xml.etree.ElementTree import Element

import pytest

from schema.finding import Finding, Status
from tests.demo_units import NAMES, Demo, demo
from tests.sheet_page import by_id, text_of, tree_of, untraced, with_class


@pytest.fixture(name="shown", scope="module", params=NAMES)
def _shown(request: pytest.FixtureRequest) -> tuple[Demo, Element]:
    found = demo(request.param)
    return found, tree_of(found.html)


def test_every_number_names_its_source(shown: tuple[Demo, Element]) -> None:
    """No family tells a number that the sheet cannot trace."""
    assert untraced(shown[1]) == []


def test_ids_are_unique_and_links_resolve(shown: tuple[Demo, Element]) -> None:
    """Two drawings of one page share no id; every link leads somewhere."""
    _, tree = shown
    ids = [one.get("id") for one in tree.iter() if one.get("id")]
    assert len(ids) == len(set(ids))
    named = {one.get("href", "")[1:] for one in tree.iter() if one.get("href") is not None}
    named |= set(re.findall(r"url\(#([^)]+)\)", " ".join(str(one.attrib) for one in tree.iter())))
    assert named <= set(ids)


def test_every_finding_and_every_value_told_appears(shown: tuple[Demo, Element]) -> None:
    """Each finding stands at its place with its worst case, each value beside it with its own."""
    found, tree = shown
    for number, place in enumerate(found.verdict.places, start=1):
        told = text_of(by_id(tree, f"place-{number}"))
        for finding in place.verdict.findings:
            assert f"{finding.quantity}: " in told, (place.name, finding.rule)
            assert worst_case(finding) in told, (place.name, finding.rule)
        beside = told.partition("Worked out beside, not judged")[2]
        for value in place.verdict.told:
            assert f"{value.quantity}: " in beside, (place.name, value.rule)


def worst_case(finding: Finding) -> str:
    """The worst case as it must be readable, for lengths and percentages that fit; else ""."""
    decimals = {"mm": 3, "%": 1}.get(finding.unit)
    if decimals is None or finding.low is None or finding.high is None or finding.low == finding.high:
        return ""
    if finding.status is not Status.FITS or not math.isfinite(finding.low + finding.high):
        return ""
    return f"{finding.low:.{decimals}f} to {finding.high:.{decimals}f} {finding.unit}".replace("-", "−")


def test_every_source_of_a_finding_is_listed_with_its_grade(shown: tuple[Demo, Element]) -> None:
    """The list of sources has each source that a finding rests on, word for word."""
    found, tree = shown
    listed = [text_of(one) for one in with_class(tree, "sources")[0].iter("li")]
    for place in found.verdict.places:
        for finding in place.verdict.findings:
            wanted = " ".join(finding.source.split())
            assert not wanted or any(wanted in one for one in listed), finding.rule


def test_every_caution_appears_before_or_at_its_place(shown: tuple[Demo, Element]) -> None:
    """What one place warns of stands there and is pointed to; what several warn of stands with the steps."""
    found, tree = shown
    steps = text_of(with_class(tree, "cautions")[0])
    for number, place in enumerate(found.verdict.places, start=1):
        own = text_of(by_id(tree, f"place-{number}"))
        for caution in place.verdict.cautions:
            plain = " ".join(caution.split())[1:].rstrip(".")
            assert plain in steps or plain in own
    assert all(" ".join(one.text.split()) in steps for one in found.verdict.cautions)


def test_gas_chambers_have_curves_and_a_record(shown: tuple[Demo, Element]) -> None:
    """Each described chamber is drawn in both layouts and has its charge record."""
    found, tree = shown
    chambers = [one for one in found.verdict.places if one.kind == "gas_chamber"]
    assert chambers
    numbers = {one.name: number for number, one in enumerate(found.verdict.places, start=1)}
    for chamber in chambers:
        article = by_id(tree, f"place-{numbers[chamber.name]}")
        assert len(with_class(article, "wide-layout")) == len(with_class(article, "narrow-layout")) == 1
    records = [text_of(one.find("caption")) for one in with_class(tree, "gas", "table")]
    assert [one.partition(":")[0] for one in records] == [one.name for one in chambers]


def test_the_kit_adds_up(shown: tuple[Demo, Element]) -> None:
    """Each line of the kit stands in the table with its number of pieces."""
    found, tree = shown
    rows = [text_of(row) for row in with_class(tree, "kit", "table")[0].iter("tr")]
    for line in found.verdict.kit:
        assert any(f"{line.quantity} {line.part_number}" in row for row in rows), line.part_number
