"""Plain and wrapped bushings in their seats."""
