"""Fuzz the readers: python -m tests.fuzz [--minutes 60] [parser …]

Prints for each reader how many things it was asked; what broke one is printed made small, as a test
that can be pasted. Exits with 1 when something did.
"""
import argparse
import os
import resource
import sys
import time

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
import django  # noqa: E402

django.setup()
from hypothesis import HealthCheck, Phase, given, seed, settings  # noqa: E402

from tests.fuzz.damaging import damaged  # noqa: E402
from tests.fuzz.guard import TooSlow, within_a_while  # noqa: E402
from tests.fuzz.parsers import PARSERS, check  # noqa: E402

MEMORY = 3 << 30            # bytes of address space: more than a reader needs beside its libraries
ROUND = 500                 # things that a reader is asked before its turn is over
READY = '''
def test_{words}_is_read_or_refused():
    check("{name}", {value!r})
'''


def main() -> int:
    asked = arguments()
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    names, counts, broken = asked.parsers or list(PARSERS), {}, {}
    end, turn = time.monotonic() + asked.minutes * 60, 0
    while time.monotonic() < end and len(broken) < len(names):
        for name in names:
            if name not in broken and time.monotonic() < end:
                count, found = one_round(name, turn)
                counts[name] = counts.get(name, 0) + count
                if found:
                    broken[name] = found
                    print(found, flush=True)
        turn += 1
    for name in names:
        print(f"{name}: {counts.get(name, 0)} asked, {'broken' if name in broken else 'sound'}")
    return 1 if broken else 0


def arguments():
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--minutes", type=float, default=60)
    parser.add_argument("parsers", nargs="*", choices=[*PARSERS, []], metavar="parser")
    return parser.parse_args()


def one_round(name, turn):
    """(how many were asked, "" or what broke the reader as a ready test)"""
    parser, told = PARSERS[name], {"count": 0}

    @seed(f"{name} {turn}")
    @settings(max_examples=ROUND, deadline=None, database=None,
              phases=[Phase.generate, Phase.shrink], suppress_health_check=list(HealthCheck))
    @given(damaged(parser.seeds(), parser.longest))
    def ask(value):
        told["count"] += 1
        told["last"] = value
        with within_a_while():
            check(name, value)

    try:
        ask()
    except (Exception, TooSlow) as error:
        words = f"a_{name.replace(' ', '_')}_{turn}"
        return told["count"], (f"{name}: {type(error).__name__}: {error}\n"
                               + READY.format(words=words, name=name, value=told["last"]))
    return told["count"], ""


if __name__ == "__main__":
    sys.exit(main())
