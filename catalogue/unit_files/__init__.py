"""Unit files: one YAML file that describes one unit, read, written, checked, and taken into the catalogue.

In the program a unit is its texts, a plain dict of the shape of the file (``schema.unit``), in normal form
(``catalogue.unit_files.shape``). Reading needs PyYAML; nothing on the way of a single check imports this.
"""
