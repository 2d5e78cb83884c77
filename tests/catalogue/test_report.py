"""The report: what it says beside the numbers, for findings made by hand."""

from __future__ import annotations

from catalogue.report import Style, report
from catalogue.strip import margin_strip
from catalogue.values import told_value
from schema.finding import Finding, Limits, Status, Told, Verdict


def limits(**changes: object) -> Limits:
    """Limits 0 to 5 %, refused beyond -2 and 8, meant for nominal sizes."""
    base = Limits(0.0, 5.0, "%", "nominal", "up-to-five", "a source", "published_once", -2.0, 8.0)
    return base._replace(**changes)  # type: ignore[arg-type]


def finding(status: Status = Status.NOT_PROVEN, **changes: object) -> Finding:
    """A stretch of 6 to 7 %, between what is recommended and what is refused."""
    base = Finding(
        "stretch",
        "stretch on its seat",
        status,
        unit="%",
        low=6.0,
        middle=6.5,
        high=7.0,
        limits=limits(),
        margin=-0.3,
        share_outside=0.4,
        meaning="stretched too far",
        source="one; two; three; four",
        grade="published_once",
    )
    return base._replace(**changes)  # type: ignore[arg-type]


def printed(one: Finding, **changes: object) -> str:
    """The report on one finding, on one line."""
    verdict = Verdict(one.status, "a ring in a gland", "a-rule", (one,), one.action)
    return " ".join(report(verdict, Style(**changes)).split())  # type: ignore[arg-type]


def test_between_guidance_and_refusal_the_reason_is_told() -> None:
    """Outside what is recommended and short of what is refused, the report says so with the figure."""
    told = "Why: outside the published guidance of up-to-five, but no source refutes it"
    assert f"{told} up to 8.0 %." in printed(finding())
    assert f"{told} down to -2.0 %." in printed(finding(low=-1.5, middle=-1.0, high=-0.5))
    assert "no source refutes" not in printed(finding(middle=4.0))
    assert "Why: too coarse." in printed(finding(reason="too coarse"))


def test_a_nominal_limit_marks_the_nominal_only() -> None:
    """The worst case beside a nominal limit is faint, and no share of assemblies is counted."""
    one = finding(Status.FITS, low=-3.0, middle=2.0, high=9.0)
    strip = margin_strip(one, 40)
    assert set(strip) == set("-~[]o")
    assert strip.index("[") < strip.index("o") < strip.index("]")
    assert "assemblies outside" not in printed(one)
    assert "assemblies outside" in printed(one._replace(limits=limits(basis="worst_case")))


def test_a_second_way_out_is_told_apart() -> None:
    """What would settle a finding and what else would do stand on lines of their own."""
    one = finding(action="Measure the ring.\nA thinner ring or a deeper gland.")
    verdict = Verdict(one.status, "a ring in a gland", "a-rule", (one,), one.action)
    lines = [line.strip() for line in report(verdict, Style()).splitlines()]
    assert lines.count("Else: a thinner ring or a deeper gland.") == 2
    assert "Do: Measure the ring." in lines


def test_a_long_list_of_sources_is_cut() -> None:
    """Two sources are named and the rest counted."""
    assert "Source: one; two; and 2 more (--explain) (one published source" in printed(finding())


def test_what_waits_is_said_conditionally() -> None:
    """A finding without data says what is at stake, not what happens."""
    lacks = {"reason": "missing: groove diameter", "lacks": ("groove diameter",)}
    one = finding(**lacks, low=None, middle=None, high=None, limits=None)
    text = printed(one)
    assert "--groove diameter of the groove floor" in text
    assert "At stake: stretched too far." in text
    unnamed = printed(one._replace(reason="missing: a published rating", lacks=("a published rating",)))
    assert "Still needed" not in unnamed
    assert "At stake: stretched too far. Why: missing: a published rating." in unnamed


def test_a_number_that_is_none_is_not_printed() -> None:
    """Beyond the range of a rule there is no number, and the report says why instead."""
    beyond = finding(low=float("nan"), middle=float("nan"), high=float("nan"), reason="beyond its range")
    text = printed(beyond)
    assert "nan" not in text
    assert "Why: beyond its range." in text


def test_a_limit_just_missed_is_shown_to_differ() -> None:
    """A value that is not its limit is never printed as if it were."""
    limits = Limits(0.0, 5.0, "%", "nominal", "own", "none", "published_once")
    near = finding(low=4.0, middle=5.004, high=6.0, limits=limits, status=Status.NOT_PROVEN, unit="%")
    assert "limits 0.000 to 5.000, held against the nominal 5.004" in printed(near)


def test_advice_is_in_the_unit_of_the_report() -> None:
    """A range in advice, in inches, is rounded inwards, so that both of its ends still hold."""
    one = finding(action="Measure the bore by calliper: 25.40 to 25.50 mm settles this.")
    verdict = Verdict(one.status, "a ring in a gland", "a-rule", (one,), one.action)
    assert "1.0000 to 1.0039 in settles this" in " ".join(report(verdict, Style(inches=True)).split())


def test_a_rating_says_what_its_ends_mean() -> None:
    """Its unit is no word that a person would read after the number."""
    at_most_two = limits(low=None, high=2.0, unit="rating 1 to 4", basis="worst_case")
    told = printed(
        finding(Status.FITS, unit="rating 1 to 4", low=1.0, middle=1.0, high=1.0, limits=at_most_two)
    )
    assert "rated 1 (1 best, 4 worst); at most 2" in told


def test_findings_that_fit_are_told_apart() -> None:
    """Names with a comma in them stay one name in a list of several."""
    named = [finding(Status.FITS, quantity=name, margin=0.5) for name in ("preload, over the proof", "play")]
    verdict = Verdict(Status.NOT_PROVEN, "a screw", "a-rule", (finding(), *named), "measure")
    assert "preload, over the proof; play" in " ".join(report(verdict, Style()).split())


def test_values_beside_are_told_as_a_person_writes_them() -> None:
    """A ratio has no unit, and a force above 10000 N no power of ten."""

    def value(low: float, high: float, unit: str) -> str:
        return told_value(Told("rule", "a value", unit, low, (low + high) / 2, high), inches=False)

    assert value(1.4024, 1.72, "1") == "1.402 to 1.72"
    assert value(7997.0, 24140.2, "N") == "7997 to 24140 N"
