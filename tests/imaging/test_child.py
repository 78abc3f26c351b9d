import json
import os
import subprocess
import sys

import pytest

from teardowns.imaging import child
from teardowns.imaging.derive import ROOT

START = (f"import sys; sys.path.insert(0, {str(ROOT)!r}); import json, os, resource, socket; "
         "from teardowns.imaging import child; child.limit_resources(); child.give_up_the_rest(); ")


def said(code):
    """What a process says that has given up what the child gives up."""
    done = subprocess.run([sys.executable, "-I", "-c", START + code], env={}, cwd="/",
                          capture_output=True, stdin=subprocess.DEVNULL)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


@pytest.mark.parametrize("attempt", ["open('/etc/hostname')", "open('new', 'w')",
                                     "socket.socket()", "os.pipe()"])
def test_no_file_and_no_connection_can_be_opened(attempt):
    status, _, error = said(attempt)
    assert status == 1
    assert "Too many open files" in error


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can become somebody else")
def test_root_becomes_nobody_and_cannot_come_back():
    _, out, _ = said("print(json.dumps([*os.getresuid(), *os.getresgid(), *os.getgroups()]))")
    assert json.loads(out) == [child.NOBODY] * 6
    assert "PermissionError" in said("os.setuid(0)")[2]


def test_memory_beyond_the_limit_is_refused():
    assert "MemoryError" in said("bytearray(1_700 * 10**6)")[2]


def test_time_output_and_core_files_are_limited():
    code = ("print(json.dumps([resource.getrlimit(k)[1] for k in (resource.RLIMIT_CPU, "
            "resource.RLIMIT_FSIZE, resource.RLIMIT_CORE)]))")
    assert json.loads(said(code)[1]) == [10, 64 * 10**6, 0]


def test_it_yields_to_whoever_reads_a_page():
    least = min(19, os.nice(0) + child.YIELDS)          # 19 is as far as a process can yield
    assert said("print(os.nice(0))")[1].strip() == str(least)
