"""Threads: whether two are one, how far they engage, what they hold; valves and screws in their places."""
