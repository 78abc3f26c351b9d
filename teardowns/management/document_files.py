"""Files named on the command line: read within bounds, refused in words."""
from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError

from teardowns.exchange.document import DocumentError, read_document
from teardowns.exchange.parsing import MOST_BYTES
from teardowns.management.terminal import plain

BAD_INPUT = 2               # exit code


def document_of(name: str) -> dict[str, Any]:
    """The document in a file, or on standard input for "-"; CommandError says what is wrong."""
    try:
        return read_document(_bytes_of(name))
    except DocumentError as error:
        raise refusal(name, error) from None
    except OSError as error:
        raise CommandError(
            f"{name}: cannot be read ({error.strerror}); check the path and its permissions",
            returncode=BAD_INPUT,
        ) from None


def refusal(name: str, error: DocumentError) -> CommandError:
    lines = "\n".join(f"  {plain(problem)}" for problem in error.problems)
    return CommandError(f"{name}: this document cannot be taken.\n{lines}", returncode=BAD_INPUT)


def _bytes_of(name):
    if name == "-":
        return sys.stdin.buffer.read(MOST_BYTES + 1)
    with Path(name).open("rb") as file:
        return file.read(MOST_BYTES + 1)
