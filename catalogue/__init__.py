"""The shop: everything that touches disk, screen or network."""
