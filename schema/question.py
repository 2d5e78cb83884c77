"""The one question: does this part fit this place, in this service, as drawn or measured?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from schema.errors import InputError, InputErrors
from schema.fields import collect, read_model
from schema.guidance import Choices
from schema.model import Model, plain
from schema.nearest import not_among
from schema.parts import PART_MODELS, BackUpRing, FourLobedRing, ORing, Ring
from schema.places import PLACE_MODELS, Gland
from schema.ring_sizes import ring_size
from schema.service import Service


class Question(Model):
    """A ring, a gland, a service, and by what it shall be judged."""

    ring: Ring = plain()
    gland: Gland = plain()
    service: Service = plain()
    back_up: BackUpRing | None = plain(None)
    choices: Choices = plain(Choices())

    def __post_init__(self) -> None:
        face = self.gland.kind == "face_gland"
        sides = ("inside", "outside") if face else ("one_side", "both_sides")
        if self.service.pressure_from not in (None, *sides):
            raise InputError(
                field="service.pressure_from",
                given=self.service.pressure_from,
                problem=f"a {self.gland.words_for} has no such side"
                + ("; where pressure comes from both, ask once for each" if face else ""),
                allowed=", ".join(sides),
                example=sides[0],
            )
        if self.back_up is not None and not self.gland.back_up_rings:
            raise InputError(
                field="place.back_up_rings",
                given=0,
                problem="a back-up ring is given, but none is in the groove",
                allowed="1 or 2",
                example="1",
            )

    @property
    def measured(self) -> bool:
        """Whether any size of part or place was measured."""
        models = (self.ring, self.gland, *((self.back_up,) if self.back_up else ()))
        sizes = (size for model in models for size in vars(model).values())
        return any(getattr(size, "measured", False) for size in sizes)

    def __str__(self) -> str:
        service = self.service
        asked = [
            service.motion or "",
            f"against {service.medium}" if service.medium else "",
            f"at {service.pressure.text}" if service.pressure else "",
            f"from {service.pressure_from.replace('_', ' ')}" if service.pressure_from else "",
            service.temperature.text if service.temperature else "",
            "in " + " and ".join(service.fluid).replace("_", " ") if service.fluid else "",
        ]
        told = ", ".join(one for one in asked if one) or "service not told"
        seen = "as measured" if self.measured else "as drawn"
        where = f"{self.gland.name} ({self.gland.words_for})"
        return f"{self.ring.words_for} {self.ring.name} in {where}, {told}, {seen}"


def ring_from(given: Mapping[str, Any], *, path: str = "part") -> Ring:
    """Build a ring from texts: a standard ``size`` code, or its two sizes; sizes given lead over the code's.

    Raises InputErrors with every field that cannot be used.
    """
    values = dict(given)
    kind = _kind(values.pop("kind", None)) or "o_ring"
    model = PART_MODELS.get(kind)
    if model is None or model is BackUpRing:
        rings = tuple(known for known in PART_MODELS if known != BackUpRing.kind)
        problem = "this is not a ring that can be checked in a gland"
        raise InputErrors([not_among(rings, field=f"{path}.kind", given=kind, problem=problem)])
    errors: list[InputError] = []
    code = str(values.pop("size", "") or values.pop("code", "") or "")
    values.pop("code", None)
    if code:
        size = collect(lambda: ring_size(code, field=f"{path}.size"), errors)
        if size is not None:
            from_code = {
                "inside_diameter": size.inside_diameter,
                "cross_section": size.cross_section,
                "code": size.code,
                "size_source": size.source,
            }
            own = [name for name in ("inside_diameter", "cross_section") if values.get(name)]
            grade = "given" if len(own) == 2 else size.grade
            values = {
                **from_code,
                "size_grade": grade,
                **{k: v for k, v in values.items() if v not in (None, "")},
            }
    if material := values.get("material"):
        from schema.materials import material_code

        known = collect(lambda: material_code(str(material), field=f"{path}.material"), errors)
        values["material"] = known
    ring = None
    if not errors or not code:
        ring = collect(lambda: read_model(model, values, path=path), errors)
    if errors or ring is None:
        raise InputErrors(errors)
    assert isinstance(ring, (ORing, FourLobedRing))
    return ring


def _kind(given: object) -> str:
    """A kind as the models name it, from the words people use: O-ring, X-ring, four-lobed ring."""
    kind = str(given or "").strip().lower().replace("-", "_").replace(" ", "_")
    return {"x_ring": "four_lobed_ring", "four_lobed": "four_lobed_ring"}.get(kind, kind)


def gland_from(given: Mapping[str, Any], *, path: str = "place") -> Gland:
    """Build a gland from texts; ``kind`` says which. Raises InputErrors with every unusable field."""
    values = dict(given)
    kind = _kind(values.pop("kind", None))
    model = PLACE_MODELS.get(kind) or PLACE_MODELS.get(f"{kind}_gland")
    if model is None:
        problem = "this is not a gland" if kind else "the kind of gland is missing"
        unknown = not_among(
            PLACE_MODELS, field=f"{path}.kind", given=kind, problem=problem, example="rod_gland"
        )
        raise InputErrors([unknown])
    return read_model(model, values, path=path)


def choices_from(given: Mapping[str, Any], *, path: str = "choices") -> Choices:
    """Read the choices of a question; names of guidance are checked where they are used."""
    allowed = ("decision_rule", "squeeze", "gap", "limits", "thinning", "thickening", "layers_off")
    errors: list[InputError] = [
        not_among(allowed, field=f"{path}.{name}", given=name, problem="there is no such choice")
        for name in given
        if name not in allowed
    ]
    if errors:
        raise InputErrors(errors)
    base = Choices()
    limits = given.get("limits") or {}
    if not isinstance(limits, Mapping):
        raise InputErrors(
            [
                InputError(
                    field=f"{path}.limits",
                    given=limits,
                    problem="limits are given as rule and guidance",
                    example='{"fill": "eighty-five"}',
                )
            ]
        )
    off = given.get("layers_off") or ()
    if not isinstance(off, (str, list, tuple)):
        raise InputErrors(
            [
                InputError(
                    field=f"{path}.layers_off",
                    given=off,
                    problem="layers are given as a list of names",
                    example='["swell"]',
                )
            ]
        )
    return Choices(
        squeeze_guidance=str(given.get("squeeze") or ""),
        gap_guidance=str(given.get("gap") or ""),
        limit_guidance={str(rule): str(name) for rule, name in limits.items()},
        decision_rule=str(given.get("decision_rule") or base.decision_rule),
        thinning=str(given.get("thinning") or base.thinning),
        thickening=str(given.get("thickening") or base.thickening),
        layers_off=tuple(off.replace(",", " ").split()) if isinstance(off, str) else tuple(map(str, off)),
    )


def question_from(given: Mapping[str, Any]) -> Question:
    """Build a question from nested texts: part, place, service, back_up_ring, choices.

    Every unusable field of every section is told in one InputErrors.
    """
    sections = ("part", "place", "service", "back_up_ring", "choices")
    errors: list[InputError] = [
        not_among(sections, field=name, given=name, problem="there is no such section")
        for name in given
        if name not in sections
    ]
    for name in sections:
        if given.get(name) is not None and not isinstance(given[name], Mapping):
            errors.append(InputError(field=name, given=given[name], problem="a section holds named fields"))
    if errors:
        raise InputErrors(errors)
    ring = collect(lambda: ring_from(given.get("part") or {}), errors)
    gland = collect(lambda: gland_from(given.get("place") or {}), errors)
    service = collect(lambda: read_model(Service, given.get("service") or {}, path="service"), errors)
    choices = collect(lambda: choices_from(given.get("choices") or {}), errors)
    back_up = None
    if given.get("back_up_ring"):
        back_up = collect(lambda: read_model(BackUpRing, given["back_up_ring"], path="back_up_ring"), errors)
    if errors or ring is None or gland is None or service is None or choices is None:
        raise InputErrors(errors)
    try:
        return Question(ring=ring, gland=gland, service=service, back_up=back_up, choices=choices)
    except InputError as error:
        raise InputErrors([error]) from error
