"""One eyelet with all that goes into it: every size by its own name, and what adds up between the tabs.

A part fitted twice counts twice. Drawn, the two are two parts, each with its own tolerance, and their
deviations are independent; measured once, one reading stands for both, and its error counts twice the same
way. So a drawn size gets a name for each piece, and a measured one is one name that is added twice.
"""

from __future__ import annotations

from typing import NamedTuple

from fitcheck.setting import Known
from schema.bearings import Bearing
from schema.bushings import PlainBushing
from schema.dimension import Dimension
from schema.eyelets import REDUCERS, THROUGH, Eyelet, EyeletHardware
from schema.fields import meaning_of
from schema.fit import Fit, Fitted
from schema.model import Model

_LABELS = {"pin_set": "pin", "one_piece_pin": "pin", "reducer_pair": "reducer"}
_PLACE = {
    "width": "eyelet_width",
    "mount_width": "mount_width",
    "bolt_diameter": "bolt_diameter",
    "load": "load",
}


class Case(NamedTuple):
    """An eyelet with its hardware.

    ``stack`` are the sizes that add up between the tabs, ``filled`` those that lie between the shoulders or
    spacers, ``spigots`` those of reducers,
    ``bush_lengths`` those of several bushes, ``holes`` the bolt passes, ``on_pin`` go
    round the pin; a name may stand twice. ``between`` is the size from shoulder to
    shoulder, ``spacers`` what is to be taken off it. ``lacks`` is what is not told, in words.
    """

    place: Eyelet
    through: EyeletHardware | None
    bushings: tuple[Fitted, ...]
    bearings: tuple[Fitted, ...]
    sizes: dict[str, Known]
    surfaces: dict[str, str]
    of_part: frozenset[str]
    stack: tuple[str, ...]
    between: str
    spacers: tuple[str, ...]
    filled: tuple[str, ...]
    spigots: tuple[str, ...]
    holes: tuple[str, ...]
    on_pin: tuple[str, ...]
    outer_widths: tuple[str, ...]
    bush_lengths: tuple[str, ...]
    pin: Dimension | None
    lacks: tuple[str, ...]

    @property
    def bearing(self) -> Bearing | None:
        """The first bearing, whose seat is judged; those beside it are taken as alike."""
        return next((one.part for one in self.bearings if isinstance(one.part, Bearing)), None)


class _Sizes:
    """Collects sizes under names of their own."""

    def __init__(self) -> None:
        self.sizes: dict[str, Known] = {}
        self.surfaces: dict[str, str] = {}
        self.of_part: set[str] = set()

    def of_place(self, place: Eyelet) -> None:
        for field, name in _PLACE.items():
            value = getattr(place, field)
            if value is not None:
                self._keep(name, value, place, field)

    def each(self, part: Model, field: str, label: str, count: int, first: int = 1) -> tuple[str, ...]:
        """The names of one size of a part, one for each piece, counted from ``first``; () where not told."""
        size: Dimension | None = getattr(part, field)
        return self.given(part, field, size, label, count, first)

    def given(
        self, part: Model, field: str, size: Dimension | None, label: str, count: int, first: int = 1
    ) -> tuple[str, ...]:
        """The same for a size that the part does not tell itself."""
        if size is None:
            return ()
        numbered = first > 1 or (count > 1 and not size.measured)
        if size.measured:
            names = (f"{label}_{first}_{field}" if numbered else f"{label}_{field}",) * count
        else:
            names = tuple(
                f"{label}_{first + n}_{field}" if numbered else f"{label}_{field}" for n in range(count)
            )
        for name in names:
            self._keep(name, size, part, field)
            self.of_part.add(name)
        return names

    def _keep(self, name: str, size: Known, model: Model, field: str) -> None:
        self.sizes[name] = size
        self.surfaces[name] = meaning_of(model.declared[field]).measured_on


def case_of(fit: Fit) -> Case:
    """Everything known of an eyelet and what goes into it."""
    place = fit.place
    assert isinstance(place, Eyelet)
    kept = _Sizes()
    kept.of_place(place)
    hardware = [one for one in fit.parts if isinstance(one.part, EyeletHardware)]
    bearings = tuple(one for one in fit.parts if isinstance(one.part, Bearing))
    through = next((one.part for one in hardware if _style(one) in THROUGH), None)
    assert through is None or isinstance(through, EyeletHardware)
    found: dict[str, list[str]] = {
        name: [] for name in ("stack", "between", "spacers", "filled", "spigots", "holes", "on_pin")
    }
    lacks = [f"style of {one.part.name}" for one in hardware if not _style(one)]  # type: ignore[attr-defined]
    counted: dict[str, int] = {}
    for one in hardware:
        _hardware(one, kept, found, lacks, through, counted)
    if through is None and not _whole(hardware):
        _without_pin(place, bearings, kept, found, lacks)
    found["filled"].insert(0, "eyelet_width")
    pins = [one.part.outside_diameter for one in hardware if _style(one) in (*THROUGH, *REDUCERS)]  # type: ignore[attr-defined]
    pin = next((one for one in pins if one is not None), None)
    outer_widths = _bearing_sizes(place, bearings, pin, kept) if bearings else ()
    return Case(
        place,
        through,
        tuple(one for one in fit.parts if isinstance(one.part, PlainBushing)),
        bearings,
        kept.sizes,
        kept.surfaces,
        frozenset(kept.of_part),
        tuple(found["stack"]),
        found["between"][0] if found["between"] else "",
        tuple(found["spacers"]),
        tuple(found["filled"]),
        tuple(found["spigots"]),
        tuple(found["holes"]),
        tuple(found["on_pin"]),
        outer_widths,
        _bush_lengths(fit, kept),
        pin,
        tuple(lacks),
    )


def _bush_lengths(fit: Fit, kept: _Sizes) -> tuple[str, ...]:
    """The names of the lengths of all bushes, where more than one goes in; of one the bushing tells."""
    if fit.count(PlainBushing) < 2:
        return ()
    names: tuple[str, ...] = ()
    first = 1
    for one in fit.parts:
        if isinstance(one.part, PlainBushing):
            names += kept.each(one.part, "length", "bush", one.quantity, first) or ("bush_length",)
            first += one.quantity
    return names


def _style(one: Fitted) -> str:
    return one.part.found_style if isinstance(one.part, EyeletHardware) else ""


def _whole(hardware: list[Fitted]) -> bool:
    """Whether a pair of reducers tells its width over all."""
    return any(_style(one) == "reducer_pair" and one.part.width is not None for one in hardware)  # type: ignore[attr-defined]


def _hardware(
    one: Fitted,
    kept: _Sizes,
    found: dict[str, list[str]],
    lacks: list[str],
    through: EyeletHardware | None,
    counted: dict[str, int],
) -> None:
    """Enter the sizes of one part of the hardware where they count."""
    part, style = one.part, _style(one)
    assert isinstance(part, EyeletHardware)
    label, count = _LABELS.get(style, style), one.quantity
    if not style:
        return
    first = counted.get(label, 0) + 1
    counted[label] = first + count * (2 if style == "reducer_pair" else 1) - 1

    def names(field: str, times: int = count) -> tuple[str, ...]:
        return kept.each(part, field, label, times, first)

    if style in (*THROUGH, *REDUCERS) or through is None:  # a washer on a pin goes round the pin
        found["holes"] += names("inside_diameter") or (f"{label}_inside_diameter",)
    elif style == "washer":
        found["on_pin"] += names("inside_diameter")
    if style in THROUGH:
        found["stack"] += names("width") or _lacking(lacks, "pin's width over all")
        found["between"] += names("length")
    elif style == "reducer_pair":
        found["stack"] += names("width") or _lacking(lacks, "width of the reducers over all")
        found["spigots"] += names("length", 2 * count)
    elif style == "reducer":
        found["stack"] += names("thickness") or _lacking(lacks, "thickness of the reducer's flange")
        found["spigots"] += names("length")
    elif style == "washer":
        told = names("thickness") or _lacking(lacks, "thickness of the washer")
        found["filled"] += told
        if through is None:
            found["stack"] += told
    else:
        told = names("width") or _lacking(lacks, f"width of the {style}")
        if through is None:
            found["stack"] += told
        elif style == "spacer":
            found["spacers"] += told


def _lacking(lacks: list[str], words: str) -> tuple[str, ...]:
    lacks.append(words)
    return ()


def _without_pin(
    place: Eyelet,
    bearings: tuple[Fitted, ...],
    kept: _Sizes,
    found: dict[str, list[str]],
    lacks: list[str],
) -> None:
    """Without a pin that spans the gap the eyelet itself, or its bearings, are part of the stack."""
    if not bearings:
        if not found["stack"]:
            lacks.append("pin, reducers or spacers of the eyelet")
        if place.width is None:
            lacks.append("eyelet width")
        found["stack"].append("eyelet_width")
        return
    first = 1
    for one in bearings:
        assert isinstance(one.part, Bearing)
        size = one.part.known_sizes().get("width")
        names = kept.given(one.part, "width", size, "bearing", one.quantity, first)
        first += one.quantity
        found["stack"] += names or _lacking(lacks, _bearing_width(one.part))


def _bearing_width(bearing: Bearing) -> str:
    row = bearing.row
    if row is None or row.width_is_fixed:
        return "width of the bearing"
    listed = " or ".join(f"{width:g}" for width in row.widths)
    return f"width of the bearing ({row.designation} is sold {listed} mm wide)"


def _bearing_sizes(
    place: Eyelet, bearings: tuple[Fitted, ...], pin: Dimension | None, kept: _Sizes
) -> tuple[str, ...]:
    """Diameters of the first bearing, of what it sits in and on; the names of the outer widths of all."""
    bearing = bearings[0].part
    assert isinstance(bearing, Bearing)
    sizes = bearing.known_sizes()
    for field in ("inside_diameter", "outside_diameter"):
        kept.given(bearing, field, sizes.get(field), "bearing", 1)
    if place.bore is not None:
        kept.sizes["eyelet_bore"], kept.surfaces["eyelet_bore"] = place.bore, "bore"
    if pin is not None:
        kept.sizes["pin_outside_diameter"], kept.surfaces["pin_outside_diameter"] = pin, "outside"
        kept.of_part.add("pin_outside_diameter")
    names: tuple[str, ...] = ()
    first = 1
    for one in bearings:
        assert isinstance(one.part, Bearing)
        own = one.part.known_sizes()
        outer = own.get("outer_width") or own.get("width")
        told = kept.given(one.part, "outer_width", outer, "bearing", one.quantity, first)
        names += told or ("bearing_outer_width",)
        first += one.quantity
    return names
