"""Write the nomenclature's codes into the published schema: python -m tests.exchange.renew_codes"""
import json
import re
from textwrap import fill

from teardowns.engine.quantities import CODES
from teardowns.exchange.schema import FILE

CODE_LIST = re.compile(r'("code": \{[^}]*?"enum": \[\n)[^\]]*?(\n {6}\])')


def renewed(text):
    """The schema's text with the codes of today, in the order of the nomenclature."""
    codes = fill(", ".join(map(json.dumps, CODES)), 116, initial_indent=" " * 8,
                 subsequent_indent=" " * 8)
    return CODE_LIST.sub(lambda found: found[1] + codes + found[2], text)


if __name__ == "__main__":
    FILE.write_text(renewed(FILE.read_text("utf-8")), "utf-8")
