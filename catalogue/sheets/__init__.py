"""Supplier sheets: messy files in, a clean catalogue out, nothing lost.

The modules in the order of the work: a file is opened and its tables found (``opening`` to ``tables``), its
columns are matched to fields (``headers``, ``mapping``), each row is read and judged (``rows``), held
against the catalogue (``comparing``), written in one transaction (``writing``) and can be taken back
(``undoing``). ``loading`` is the door: the command line and programs come in by it.
"""
