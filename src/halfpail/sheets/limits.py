"""What one file may ask of this machine. Our defaults, not published."""

MOST_BYTES = 5_000_000
MOST_UNPACKED_BYTES = 50_000_000
MOST_PACKED_FILES = 300
# Rows of a table repeat themselves, but no honest one packs more tightly than this.
TIGHTEST_PACKING = 150
SMALL_ENOUGH_TO_PACK_TIGHTLY = 200_000

MOST_SHEETS = 24
MOST_ROWS = 20_000
MOST_COLUMNS = 45
MOST_CELLS = 100_000
# A label may have 4000 letters; what is longer is cut here and refused where it is read.
MOST_LETTERS = 4100
MOST_LETTERS_IN_ALL = 4_000_000

MOST_MEMORY_BYTES = 400 * 2**20
MOST_CPU_SECONDS = 10
MOST_SECONDS = 15.0
