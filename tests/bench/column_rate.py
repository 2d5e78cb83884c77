"""The O-ring rules over columns, against what memory bandwidth allows for the same columns.

The floor is a numpy triad (a = b + 3 c) in the same run: its bytes per second, divided by the bytes of
the columns a sweep reads and writes per pair, is the rate that no program could exceed. Target: a tenth.
"""

from __future__ import annotations

import statistics
import time
import tracemalloc
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitcheck.rings.circumstances import Circumstances
from fitcheck.rings.conditions import Conditions
from fitcheck.rings.sweep import CHUNK_ROWS, limit_sets, sweep, verdicts
from schema.guidance import Choices, published_guidance
from tests.examples import PISTON_RULES

PAIRS = 2_000_000
TRIAD_LENGTH = 20_000_000
RUNS = 5
SECTIONS = (1.778, 2.616, 3.531, 5.334)
Sizes = dict[str, tuple[NDArray[np.float64], NDArray[np.float64]]]


def random_pairs(count: int, *, together: bool, seed: int = 1) -> tuple[Sizes, NDArray[np.int32]]:
    """Random rings in random piston glands; ``together``: pairs of one section lie side by side."""
    rng = np.random.default_rng(seed)
    of_pair = rng.integers(0, len(SECTIONS), count).astype(np.int32)
    if together:
        of_pair.sort()
    section = np.array(SECTIONS)[of_pair]
    inside = rng.uniform(10, 80, count)
    groove = inside * rng.uniform(0.99, 1.06, count)
    bore = groove + 2 * section * rng.uniform(0.75, 0.95, count)

    def limits(middle: Any, half: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        return middle - half, middle + half

    return {
        "inside_diameter": limits(inside, 0.2),
        "cross_section": limits(section, 0.08),
        "bore_diameter": limits(bore, 0.012),
        "groove_diameter": limits(groove, 0.02),
        "land_diameter": limits(bore - 0.08, 0.012),
        "groove_width": limits(section * 1.4, 0.06),
    }, of_pair


def triad_bytes_per_second() -> float:
    """Best of several triads: 5 columns of 8 bytes move for each element."""
    b, c, a = np.random.rand(TRIAD_LENGTH), np.random.rand(TRIAD_LENGTH), np.empty(TRIAD_LENGTH)
    best = float("inf")
    for _ in range(RUNS):
        start = time.perf_counter()
        np.multiply(c, 3.0, out=a)
        np.add(a, b, out=a)
        best = min(best, time.perf_counter() - start)
    return 40.0 * TRIAD_LENGTH / best


def report() -> None:
    """Print the rate for pairs that lie together and for pairs in random order, and the peak memory."""
    conditions = Conditions(
        gland="piston",
        rubber_expansion_per_k=1.6e-4,
        metal_expansion_per_k=23.1e-6,
        cold_rise_k=-30.0,
        hot_rise_k=40.0,
    )
    each = [
        Circumstances("o_ring", "piston", "reciprocating", "liquid", section, 70.0, 2.5, "NBR", "both_sides")
        for section in SECTIONS
    ]
    limits = limit_sets(PISTON_RULES, each, published_guidance(), Choices())
    bandwidth = triad_bytes_per_second()
    print(f"memory bandwidth by triad: {bandwidth / 1e9:.1f} GB/s")
    for together in (True, False):
        sizes, of_pair = random_pairs(PAIRS, together=together)
        bytes_in = 16 * len(sizes) + of_pair.itemsize
        bytes_out = len(PISTON_RULES) * (3 * 8 + 1) + 1
        floor = bandwidth / (bytes_in + bytes_out)
        rates = []
        for _ in range(RUNS):
            start = time.perf_counter()
            fitting = sum(
                int((verdicts(found) == 0).sum()) for _, found in sweep(sizes, conditions, limits, of_pair)
            )
            rates.append(PAIRS / (time.perf_counter() - start))
        rate = statistics.median(rates)
        order = "pairs of a section together" if together else "pairs in random order"
        print(
            f"{len(PISTON_RULES)} rules over columns, {order}: {rate / 1e6:.1f} M pairs/s, {fitting} fit; "
            f"floor {floor / 1e6:.0f} M, ratio {rate / floor:.3f}; target 0.1"
        )
    tracemalloc.start()
    for _part, _found in sweep(sizes, conditions, limits, of_pair):
        pass
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    print(
        f"peak memory of a sweep of {PAIRS} pairs beside its input: {peak / 1e6:.0f} MB (chunk {CHUNK_ROWS})"
    )
