"""Demo data of an invented van workshop: parts, units, places and rebuild lists."""
