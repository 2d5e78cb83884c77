"""Oils and greases: viscosity, and what rubber stands them."""
