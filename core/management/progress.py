"""How far a long command is: a bar on a terminal, a line each tenth elsewhere."""
import sys
from time import monotonic

WIDTH, OFTEN = 30, 0.1          # characters; s between two drawings


class Bar:
    """Call it with what is done, how much of it, and of how much."""

    def __init__(self, stream=None):
        self.stream = stream or sys.stderr
        self.drawn, self.said = 0.0, ("", -1)

    def __call__(self, what: str, done: int, total: int) -> None:
        if self.stream.isatty():
            self._draw(what, done, total)
        elif total and (what, 10 * done // total) != self.said:
            self.said = what, 10 * done // total
            self.stream.write(f"{what}: {done} of {total}\n")

    def _draw(self, what, done, total):
        if done < total and monotonic() - self.drawn < OFTEN:
            return
        self.drawn = monotonic()
        full = WIDTH * done // total if total else WIDTH
        self.stream.write(f"\r{what} [{'#' * full}{'.' * (WIDTH - full)}] {done} of {total}"
                          + ("\n" if done >= total else ""))
        self.stream.flush()
