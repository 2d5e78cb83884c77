"""The gas side of a damper: what the charge does over the stroke, cold and hot."""
