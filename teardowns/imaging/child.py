"""The process in which pictures are decoded: limited, without network, files or privileges.

Standard input is the original, standard output takes the derivatives, the largest first, standard
error a line of JSON about them; all three are files that the parent holds open. The job is the
one argument.
"""
import json
import os
import resource

from .limits import ADDRESS_SPACE, CPU_SECONDS, OUTPUT_BYTES

NOBODY = 65534
YIELDS = 10             # added niceness: whoever reads a page goes before a picture


def main(argument: str) -> None:
    """Limits first; then all imports, because afterwards no file can be opened any more."""
    limit_resources()
    from . import making
    making.prepare(argument)
    give_up_the_rest()
    os.write(2, b"\n" + json.dumps(making.outcome(argument)).encode())


def limit_resources() -> None:
    os.nice(YIELDS)
    for kind, limit in ((resource.RLIMIT_CPU, CPU_SECONDS), (resource.RLIMIT_AS, ADDRESS_SPACE),
                        (resource.RLIMIT_FSIZE, OUTPUT_BYTES), (resource.RLIMIT_CORE, 0)):
        resource.setrlimit(kind, (limit, limit))


def give_up_the_rest() -> None:
    """No further file or socket can be opened; root becomes nobody."""
    resource.setrlimit(resource.RLIMIT_NOFILE, (3, 3))
    if os.geteuid() == 0:
        try:
            os.setgroups([])
            os.setresgid(NOBODY, NOBODY, NOBODY)
            os.setresuid(NOBODY, NOBODY, NOBODY)
        except OSError:              # a container without that right: the limits still hold
            pass
