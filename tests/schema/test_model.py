"""What every frozen model does."""

from __future__ import annotations

import copy

import pytest

from schema.model import Model, plain


class Peg(Model):
    """A model of two fields."""

    length: float = plain()
    colour: str = plain("grey")


class LongPeg(Peg):
    """One that inherits them and adds a third."""

    taper: float = plain(0.0)

    def __post_init__(self) -> None:
        if self.length < 10:
            raise ValueError("too short")


def test_fields_are_given_by_name_and_defaults_fill_the_rest() -> None:
    """A field that is not given has its default; inherited ones come first."""
    assert vars(LongPeg(length=12.0)) == {"length": 12.0, "colour": "grey", "taper": 0.0}
    assert list(LongPeg.declared) == ["length", "colour", "taper"]


def test_a_missing_field_is_refused() -> None:
    """A field without default must be given."""
    with pytest.raises(TypeError, match="Peg needs length"):
        Peg()  # type: ignore[call-arg]


def test_an_unknown_field_is_refused() -> None:
    """A field that is not declared is not taken."""
    with pytest.raises(TypeError, match="Peg has no width"):
        Peg(length=1.0, width=2.0)  # type: ignore[call-arg]


def test_a_model_cannot_be_changed_in_place() -> None:
    """Models are frozen."""
    peg = Peg(length=1.0)
    with pytest.raises(AttributeError, match="frozen"):
        peg.length = 2.0  # type: ignore[misc]


def test_a_changed_copy_is_checked_anew() -> None:
    """A change that contradicts is refused, and the original stays as it was."""
    peg = LongPeg(length=12.0)
    assert peg.changed(colour="red").colour == "red"
    with pytest.raises(ValueError, match="too short"):
        peg.changed(length=9.0)
    assert peg.length == 12.0


def test_models_are_equal_by_class_and_fields() -> None:
    """Two models of a class with equal fields are equal and hash alike; another class never is."""
    assert Peg(length=12.0) == Peg(length=12.0, colour="grey")
    assert hash(Peg(length=12.0)) == hash(Peg(length=12.0))
    assert Peg(length=12.0) != Peg(length=13.0)
    assert Peg(length=12.0) != LongPeg(length=12.0)
    assert copy.deepcopy(Peg(length=12.0)) == Peg(length=12.0)


def test_a_model_shows_what_differs_from_its_defaults() -> None:
    """The readable form leaves defaults out."""
    assert repr(Peg(length=12.0)) == "Peg(length=12.0)"
