"""An O-ring or four-lobed ring in its gland: squeeze, stretch, fill, clearance, and their limits."""
