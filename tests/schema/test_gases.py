"""The published equations of nitrogen and air, and the figures of oils, as tables."""

from __future__ import annotations

import pytest

from schema.gases import GASES, gas_equation
from schema.oils import gas_limits, spread
from schema.tables import rows


def test_the_equations_have_as_many_terms_as_their_papers() -> None:
    """Nitrogen: 32 terms and 4 of the critical region; air: 19."""
    nitrogen, air = (gas_equation(gas) for gas in GASES)
    assert (len(nitrogen.residual), len(nitrogen.gaussian)) == (32, 4)
    assert (len(air.residual), len(air.gaussian)) == (19, 0)


@pytest.mark.parametrize(("gas", "total"), [("nitrogen", 2624.856120494748), ("air", -1.170808623724742)])
def test_the_residual_coefficients_have_their_sum(gas: str, total: float) -> None:
    """A slip of one digit changes the sum, which is that of the second transcription (jjgomera/pychemqt)."""
    equation = gas_equation(gas)
    found = sum(one.n for one in (*equation.residual, *equation.gaussian))
    assert found == pytest.approx(total, abs=1e-11)


def test_an_oil_without_a_figure_has_none() -> None:
    """Of silicone and brake fluid no expansion was found, and none is made up."""
    assert spread("expansion", "silicone_oil_or_grease") is None
    assert spread("expansion", "glycol_brake_fluid") is None


def test_no_limit_of_own_judgement_proves_a_fit() -> None:
    """What passes is derived; own judgement may only leave open."""
    for row in rows("gas_limits"):
        assert row["grade"] != "own_judgement", row["rule"]
    hot = gas_limits("travel_left_hot")
    assert (hot.low, hot.refuse_low) == (1.0, 0.0)
