"""How large a log may be; a form names the first two, the others tell a log from other text."""

MOST_BYTES = 200_000_000
MOST_ROWS = 10_000_000
MOST_COLUMNS = 64
LONGEST_LINE = 64_000        # characters
LONGEST_CELL = 200           # characters
LONGEST_BLANK = 1_000_000    # bytes of nothing but empty lines
