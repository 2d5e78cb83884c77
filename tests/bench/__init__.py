"""Benchmarks: ratios against a floor measured in the same run. ``make bench`` prints them.

Nothing here is asserted: a machine is not a standard. Read the median of the ratios.
"""
