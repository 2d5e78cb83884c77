"""The words of a finding: what it is called, what it means for the unit, and what to do about it."""

from __future__ import annotations

from typing import NamedTuple

from schema.finding import Status


class Words(NamedTuple):
    """Words of one finding. ``needs`` names what it is worked out from, ``rule`` the equation behind it."""

    quantity: str
    rule: str
    needs: tuple[str, ...]
    good: str
    too_low: str = ""
    too_high: str = ""
    raise_it: str = ""
    lower_it: str = ""

    def meaning(self, status: Status, low_side: bool) -> str:
        """What the outcome means for the unit."""
        if status is Status.FITS:
            return self.good
        return (self.too_low if low_side else self.too_high) or self.too_high or self.too_low

    def action(self, low_side: bool) -> str:
        """What to do about an outcome that is not a fit."""
        return (self.raise_it if low_side else self.lower_it) or self.lower_it or self.raise_it


_DIMENSIONS = {
    "inside_diameter": "ring's inside diameter",
    "cross_section": "ring's section",
    "shaft_diameter": "shaft diameter",
    "bore_diameter": "bore diameter",
    "groove_diameter": "groove diameter",
    "throat_diameter": "throat diameter",
    "land_diameter": "land diameter",
    "groove_outer_diameter": "outer wall of the groove",
    "groove_inner_diameter": "inner wall of the groove",
    "groove_depth": "groove depth",
    "groove_width": "groove width",
    "guide_clearance": "guide clearance",
    "runout": "run-out",
    "passes_over": "diameter passed over",
    "back_up_width": "back-up ring's width",
    "face_gap": "gap between the faces",
    "corner_radius": "corner radius",
    "lead_in_length": "lead-in length",
    "length_under_the_head": "length under head or collar",
}


def dimension_words(name: str) -> str:
    """A dimension in the words of a job card."""
    return _DIMENSIONS.get(name, name.replace("_", " "))


def with_article(words: str) -> str:
    """Words with the article that they are spoken with.

    >>> with_article("eyelet bore"), with_article("ring's section")
    ('an eyelet bore', "a ring's section")
    """
    return f"{'an' if words[:1].lower() in set('aeio') else 'a'} {words}"


def joined(words: list[str]) -> str:
    """Words as a list in a sentence: a, b and c."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)
