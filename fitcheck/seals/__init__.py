"""Lip seals and wipers in their seats, guide rings in their grooves."""
