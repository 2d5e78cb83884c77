"""The bench: pure calculation. Part + place + service -> findings -> verdict.

No file, no database, no clock, no printing. Each rule is one small function that works on floats
and on numpy arrays alike; the published limits arrive as arguments.
"""
