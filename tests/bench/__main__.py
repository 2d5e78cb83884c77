"""Runs all benchmarks: ``python -m tests.bench``."""

from tests.bench import cold_start, column_rate, whole_unit

cold_start.report()
column_rate.report()
whole_unit.report()
