"""What the rebuild sheet tells: every finding at its place, what to measure, what is missing."""

from __future__ import annotations

import re
from datetime import date
from xml.etree.ElementTree import Element

from schema.finding import Finding, Status
from tests.rebuild_unit import BUSHING, NO_PARTS, NO_PLACES, checked, sheet, texts, with_bushing
from tests.sheet_page import by_id, classes, text_of, tree_of, with_class


def test_every_finding_appears_at_its_place(tree: Element) -> None:
    """Each finding of the verdict stands in the article of its place, with its numbers."""
    _, verdict = checked()
    verdict = with_bushing(verdict)
    for number, place in enumerate(verdict.places, start=1):
        article = by_id(tree, f"place-{number}")
        told = text_of(article)
        assert place.name in text_of(article.find(".//h3"))
        for finding in place.verdict.findings:
            assert finding.quantity in told, (place.name, finding.rule)
            assert printed(finding) in told, (place.name, finding.rule)
    whole = text_of(next(one for one in tree.iter("section") if one.get("aria-labelledby") == "whole"))
    assert all(finding.quantity in whole for finding in verdict.findings)


def test_a_working_sheet_tells_what_fits_in_a_row_and_the_rest_in_full() -> None:
    """A place that fits has its parts and its tightest finding with its source; any other its article."""
    tree = tree_of(sheet(extent="working"))
    _, verdict = checked()
    for number, place in enumerate(with_bushing(verdict).places, start=1):
        told = by_id(tree, f"place-{number}")
        first = place.verdict.findings[0]
        assert place.name in text_of(told) and first.quantity in text_of(told)
        assert "cite" in {name for one in told.iter() for name in classes(one)}
        in_a_row = place.verdict.status is Status.FITS and place.kind != "gas_chamber"
        assert str(told.tag).endswith("tr" if in_a_row else "article")
        for finding in place.verdict.findings:
            assert (finding.quantity in text_of(told)) or finding.status is Status.FITS
    assert len(sheet(extent="working")) < 0.8 * len(sheet())


def printed(finding: Finding) -> str:
    """The worst case of a finding as it must be readable; "" where it has no number."""
    if finding.low is None or finding.high is None or finding.low != finding.low:
        return ""
    decimals = {"mm": 3, "%": 1}.get(finding.unit)
    if decimals is None or finding.low == finding.high:
        return ""
    return f"{finding.low:.{decimals}f} to {finding.high:.{decimals}f} {finding.unit}".replace("-", "−")


def test_places_have_one_number_everywhere(tree: Element) -> None:
    """Index, article, kit and links give a place the number of its turn in the work."""
    _, verdict = checked()
    names = [one.name for one in with_bushing(verdict).places]
    index = [text_of(one) for one in tree.find(".//nav").iter("li")]
    for number, name in enumerate(names, start=1):
        assert index[number - 1].startswith(f"{number} {name}")
        assert text_of(by_id(tree, f"place-{number}").find(".//h3")) == f"{number} {name}"
    kit = [text_of(row) for row in with_class(tree, "kit", "table")[0].iter("tr")]
    assert any("R-217" in row and row.endswith("place 1") for row in kit)
    assert any("P-1" in row and row.endswith("place 8") for row in kit)


def test_what_comes_first(tree: Element) -> None:
    """Question, verdict, next step and cautions come before tools, kit and places; the maker leads."""
    heads = [text_of(one) for one in tree.iter() if one.tag in ("h1", "h2")]
    order = [
        "Can lapwing-190",
        "Places, in",
        "Before anything",
        "Tools",
        "Kit",
        "The unit as a whole",
        "Place by place",
        "Does not fit",
        "Not proven",
        "Fits",
        "To measure",
        "Gas charge",
        "Signed",
        "What was not",
        "Sources",
        "Equations",
        "Made by",
    ]
    assert [head[: len(start)] for head, start in zip(heads, order, strict=True)] == order
    first = next(with_class(tree, "cautions")[0].iter("li"))
    assert "The maker's service instructions and limits come first" in text_of(first)


def test_what_is_weak_says_so_beside_its_value(tree: Element) -> None:
    """A figure from memory is called that where it stands, not only in the list of sources."""
    article = text_of(by_id(tree, "place-8"))
    assert "By source 25 from memory" in re.sub(r"source \d+", "source 25", article)
    sources = [text_of(one) for one in with_class(tree, "sources")[0].iter("li")]
    assert any("a table recalled by a fitter (from memory)" in one for one in sources)


def test_what_is_not_judged_stands_apart(tree: Element) -> None:
    """Values worked out beside the findings have a heading that says that they decide nothing."""
    article = text_of(by_id(tree, "place-8"))
    beside = article.partition("Worked out beside, not judged")[2]
    assert "press force: 212.4 to 733.9 N" in beside
    assert "bare value without a source: 1 mm" in beside
    assert BUSHING.verdict.findings[0].quantity not in beside


def test_every_size_that_an_open_finding_waits_for_has_a_box(tree: Element) -> None:
    """The list to measure has each size of each open finding, what was told of it, and boxes for a pen."""
    _, verdict = checked()
    rows = {text_of(row): row for row in with_class(tree, "measure", "table")[0].find("tbody").iter("tr")}
    wanted = {
        (one.dimension.replace("_", " "), finding.inputs[one.dimension])
        for place in verdict.places
        if place.verdict.status is Status.NOT_PROVEN
        for finding in place.verdict.findings
        if finding.status is Status.NOT_PROVEN
        for one in finding.influences
    }
    assert ("groove diameter", "31.50 ±0.30 mm") in wanted
    for words, told in wanted:
        found = [row for text, row in rows.items() if told in text and words.split()[-1] in text]
        assert found, (words, told)
        assert all(len(with_class(row, "pen")) == 2 for row in found)
    assert any(text.startswith("place 6 Ring: not told") for text in rows)
    assert any("Stroke: 55 +0.5/0 mm" in text and text.startswith("unit") for text in rows)


def test_what_settles_a_place_has_a_box_there(tree: Element) -> None:
    """Where a measurement would settle a place, the reading and the instrument are written beside it."""
    article = by_id(tree, "place-3")
    assert "Measure the groove diameter" in text_of(article)
    assert len(with_class(article, "pen")) == 2


def test_a_shaft_that_places_share_is_measured_once() -> None:
    """Two open places on one shaft have one line for its diameter, with both their numbers."""
    given = texts()
    for name in ("shaft-seal", "shaft-end"):
        given["places"][name]["groove_diameter"] = "31.50 ±0.30 mm"
    table = with_class(tree_of(sheet(given)), "measure", "table")[0]
    shaft = [text_of(row) for row in table.iter("tr") if "Shaft diameter (damper shaft)" in text_of(row)]
    assert len(shaft) == 1
    assert shaft[0].startswith("place 3, place 7")


def test_another_date_is_another_sheet(html: str) -> None:
    """Date and number are told at the head of the page, on the screen and in print."""
    other = sheet(made_on=date(2027, 1, 2), sheet_number="7")
    assert '@top-center { content: "2027-01-02" }' in other
    assert '@top-right { content: "Sheet 7" }' in other
    assert '@top-left { content: "lapwing-190" }' in html
    assert "Rebuild sheet 2026-041" in text_of(next(tree_of(html).iter("header")))


def test_inches() -> None:
    """Results and what is to be measured are in inches; sizes stand as they were written."""
    tree = tree_of(sheet(unit_of_length="in"))
    article = text_of(by_id(tree, "place-3"))
    assert re.search(r"Measure the groove diameter by calliper inside jaws: 1\.\d{4} to 1\.\d{4} in", article)
    assert "groove diameter 31.50 ±0.30 mm" in article.replace("\u00a0", " ")
    assert re.search(r"side room in the groove: 0\.\d{4} to 0\.\d{4} in", article)


def test_a_unit_without_places_says_what_to_do() -> None:
    """Nothing is said to fit; index, kit and tools say that they are empty."""
    tree = tree_of(sheet(NO_PLACES))
    assert text_of(with_class(tree, "verdict")[0]) == "Not proven"
    assert with_class(tree, "next") == []
    missing = [text_of(one) for one in with_class(tree, "missing")]
    assert [one.partition(":")[0].partition(".")[0] for one in missing] == [
        "No place is described",
        "No tools are told of this unit",
        "No part is on the list of this unit",
        "No finding waits for a measurement",
    ]


def test_a_place_without_its_ring_is_told(tree: Element) -> None:
    """It is not proven, and says which part is missing and what to do."""
    article = text_of(by_id(tree, "place-6"))
    assert "No part is listed for this place." in article
    assert "Give the ring that goes in, by its part number." in article


def test_gas_without_a_described_chamber_still_has_its_record(tree: Element) -> None:
    """A unit whose places hold gas gets a charge record with boxes; one without gas gets none."""
    gas = with_class(tree, "gas", "table")[0]
    rows = [text_of(row) for row in gas.find("tbody").iter("tr")]
    assert [row.partition(":")[0] for row in rows] == [
        "Gas",
        "Charge, gauge",
        "Temperature of the unit when charged",
        "Piston depth",
        "Gauge used, its number or range",
    ]
    assert len(with_class(gas, "pen")) == 10
    assert with_class(tree_of(sheet(NO_PARTS)), "gas", "table") == []


def test_what_was_not_asked_and_what_was_taken_are_told(tree: Element) -> None:
    """Of the unit and of each place."""
    section = next(one for one in tree.iter("section") if one.get("aria-labelledby") == "not-asked")
    assert "wear of the bushing, at place 8" in text_of(section)
    assert "gas chamber" in text_of(section)
    assert "Taken: a friction of 0.08 to 0.15." in text_of(by_id(tree, "place-8"))
