"""A whole unit: all places at once, and what no place shows by itself."""
