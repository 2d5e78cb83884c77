"""The language of borebook: dimensions with limits, parts, places, services, published tables.

Nothing here calculates a fit or opens a catalogue; ``fitcheck`` and ``catalogue`` both speak it.
Import from the submodules: they are kept small so that a command loads only what it uses.
"""
