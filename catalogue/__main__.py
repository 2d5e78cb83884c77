"""``python -m catalogue`` is the same command as ``borebook``."""

from catalogue.cli.main import main

main()
