"""Many at once: nothing is lost, nothing doubled, one audit entry a change, on either database.

The drill runs beside the test process, for threads see only databases that are kept outside of it.
"""
import os
import subprocess
import sys

DRILL = [sys.executable, "-m", "tests.bench.concurrency", "16", "16"]


def test_sixteen_at_once_lose_and_double_nothing(tmp_path):
    done = subprocess.run(DRILL, capture_output=True, text=True,
                          env=os.environ | {"UNDERPLATE_DATA_DIR": str(tmp_path)})
    assert done.returncode == 0, done.stdout + done.stderr
    assert "edits: 0 lost, 0 doubled, 16 audit entries" in done.stdout
    assert "double submits: 0 lost, 0 doubled, 16 audit entries" in done.stdout
    assert "replays: 0 lost, 0 doubled, 1 audit entries" in done.stdout
    assert "hand-ins of one sheet: 0 lost, 0 doubled, 1 audit entries" in done.stdout
    assert "limits: of 100 asks 20 granted" in done.stdout
