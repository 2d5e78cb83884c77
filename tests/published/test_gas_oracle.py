"""CoolProp and scipy answer the same questions of nitrogen and air, each in an environment of its own."""

from __future__ import annotations

import json
import math
import subprocess
import sys
from typing import Any

import pytest

from fitcheck.gas.least import least_gas_volume
from fitcheck.gas.real_gas import gas_density, gas_entropy, gas_pressure, heated, squeezed_fast

pytestmark = pytest.mark.slow

TEMPERATURES = [250.0 + 10.0 * step for step in range(16)]  # K
PRESSURES = [0.1, 0.2, 0.4, 0.7, 1.0, 1.4, 2.0, 3.0, 5.0, 7.0, 10.0, 14.0, 17.5, 20.0, 25.0]  # MPa
RATIOS = [0.8, 1.1, 1.5, 2.0, 3.0]

DUMP = """
import json, sys
from CoolProp.CoolProp import PropsSI
from scipy.optimize import brentq

temperatures, pressures, ratios = json.loads(sys.argv[1])
found = {"states": [], "isentropes": [], "heated": [], "least": []}
for gas, name in (("nitrogen", "Nitrogen"), ("air", "Air")):
    for t in temperatures:
        for p in pressures:
            d = PropsSI("Dmolar", "T", t, "P", p * 1e6, name)
            s = PropsSI("Smolar", "T", t, "P", p * 1e6, name)
            found["states"].append([gas, t, p, d / 1000, s])
            if t in (250.0, 290.0, 350.0, 400.0):
                for r in ratios:
                    end = PropsSI("P", "Smolar", s, "Dmolar", d * r, name) / 1e6
                    hot = PropsSI("T", "Smolar", s, "Dmolar", d * r, name)
                    found["isentropes"].append([gas, t, d / 1000, r, end, hot])
        d = PropsSI("Dmolar", "T", 293.15, "P", 2e6, name)
        found["heated"].append([gas, t, PropsSI("P", "T", t, "Dmolar", d, name) / 1e6])
    d = PropsSI("Dmolar", "T", 293.15, "P", 1.5e6, name)

    def above(volume):
        hot = d * volume / (volume - 2000.0)
        s = PropsSI("Smolar", "T", 353.15, "Dmolar", hot, name)
        end = hot * (volume - 2000.0) / (volume - 6000.0)
        return PropsSI("P", "Smolar", s, "Dmolar", end, name) - 6e6

    found["least"].append([gas, brentq(above, 7000.0, 100000.0, xtol=1e-6)])
json.dump(found, sys.stdout)
"""


@pytest.fixture(scope="module")
def oracle(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[list[Any]]]:
    home = tmp_path_factory.mktemp("gas_oracle")
    python = home / "venv" / ("Scripts" if sys.platform == "win32" else "bin") / "python"
    subprocess.run([sys.executable, "-m", "venv", str(home / "venv")], check=True)
    install = [str(python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    subprocess.run([*install, "CoolProp==8.0.0", "scipy>=1.11,<2"], check=True)
    script = home / "dump.py"
    script.write_text(DUMP, encoding="utf-8")
    command = [str(python), str(script), json.dumps([TEMPERATURES, PRESSURES, RATIOS])]
    done = subprocess.run(command, cwd=home, check=True, capture_output=True, text=True)
    answers: dict[str, list[list[Any]]] = json.loads(done.stdout)
    return answers


def test_densities_agree(oracle: dict[str, list[list[Any]]]) -> None:
    """480 states of both gases, 250 to 400 K, 0.1 to 25 MPa, agree to 1e-7 in density and in pressure."""
    assert len(oracle["states"]) == 2 * 16 * 15
    for gas, t, p, density, _ in oracle["states"]:
        assert gas_density(gas, t, p) == pytest.approx(density, rel=1e-7), (gas, t, p)
        assert gas_pressure(gas, t, density) == pytest.approx(p, rel=2e-7), (gas, t, p)


def test_entropies_agree_but_for_their_datum(oracle: dict[str, list[list[Any]]]) -> None:
    """Differences of entropy agree to 1e-5 J/(mol K); the datum of air is another one in CoolProp."""
    for gas in ("nitrogen", "air"):
        offsets = [gas_entropy(gas, t, d) - s for name, t, _, d, s in oracle["states"] if name == gas]
        assert max(offsets) - min(offsets) < 1e-5
    assert abs(max(one for one in offsets)) > 1.0


def test_isentropes_agree(oracle: dict[str, list[list[Any]]]) -> None:
    """Fast compression by 0.8 to 3 agrees to 1e-6 in pressure and temperature wherever it is in range."""
    judged = 0
    for gas, t, density, ratio, end, hot in oracle["isentropes"]:
        found = squeezed_fast(gas, t, density, ratio)
        if math.isnan(found.pressure_mpa):
            assert hot > 700.0 or hot < 200.0 or density * ratio > 15.6, (gas, t, density, ratio)
            continue
        judged += 1
        assert found.pressure_mpa == pytest.approx(end, rel=1e-6), (gas, t, density, ratio)
        assert found.temperature_k == pytest.approx(hot, rel=1e-6), (gas, t, density, ratio)
    assert judged > 400


def test_heating_in_a_fixed_room_agrees(oracle: dict[str, list[list[Any]]]) -> None:
    """2 MPa of 20 degC, heated and cooled at one volume, agrees to 1e-6."""
    for gas, t, pressure in oracle["heated"]:
        density = gas_density(gas, 293.15, 2.0)
        assert heated(gas, 293.15, density, t).pressure_mpa == pytest.approx(pressure, rel=1e-6)


def test_the_least_gas_volume_agrees_with_a_root_of_scipy(oracle: dict[str, list[list[Any]]]) -> None:
    """The smallest gas volume for a limit of pressure is the root that scipy finds over CoolProp."""
    for gas, volume in oracle["least"]:
        found = least_gas_volume(
            gas=gas,
            charge_mpa=1.5,
            displaced_volume_mm3=4000.0,
            oil_growth_mm3=2000.0,
            set_temperature_deg_c=20.0,
            temperature_deg_c=80.0,
            limit_mpa=6.0,
        )
        assert found == pytest.approx(volume, rel=2e-5)
