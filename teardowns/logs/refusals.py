"""Why a log was not read, in words that name the place and the remedy."""
from dataclasses import dataclass


@dataclass(eq=False)      # not frozen: whoever catches an exception notes its way on it
class RefusedLog(ValueError):
    """A log, or one cell of it, that cannot be read as it stands."""

    code: str                     # stable name of the reason, for tests and messages
    why: str                      # what is wrong, and what would mend it, in one or two sentences
    line: int | None = None       # 1 is the first line of the file
    column: int | None = None     # 1 is the first column of the table

    def __str__(self):
        return f"{self.place}: {self.why}" if self.place else self.why

    @property
    def place(self) -> str:
        """ "Line 12, column 3", as far as it is known."""
        line = [] if self.line is None else [f"line {self.line:,}".replace(",", " ")]
        column = [] if self.column is None else [f"column {self.column}"]
        return ", ".join(line + column).capitalize()
