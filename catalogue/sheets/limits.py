"""How much a file may hold: far above any honest sheet, far below what fills a computer's memory."""

from __future__ import annotations

LARGEST_FILE = 2 << 30  # bytes, of the file as given
LARGEST_UNPACKED = 1 << 30  # bytes, of all parts of a packed file together
# Deflate packs at best 1 : 1032. A sheet of a single repeated value reaches about 1 : 100, so a file that
# unpacks to more than SMALL bytes at a higher ratio than this was made to fill a disk.
HIGHEST_RATIO = 250
SMALL_UNPACKED = 64 << 20  # bytes; what unpacks to less does no harm at any ratio
MOST_PARTS = 10_000  # files inside a zip

MOST_COLUMNS = 16_384  # what the widest workbook has
MOST_CELLS = 50_000_000  # height by width; the reader of workbooks takes 32 bytes for each, empty or not
LONGEST_LINE = 8_000_000  # characters between two line ends of a text file
# The longest cell of a text file is that of the csv module, 131,072 characters unless a program sets another.
# The limit is one for the whole process, so it is left alone here.

PROBE_SECONDS = 120  # how long a workbook that looks dangerous may be tried in a process of its own
PROBE_BYTES = 4 << 30  # memory of that process

HEAD_ROWS = 60  # rows in which a header is looked for
SCAN_ROWS = 50_000  # rows of a text file that are looked through for a second table
SAMPLE_ROWS = 2_000  # first data rows shown to the person and to the guess of columns
