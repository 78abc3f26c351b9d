"""Several processes, one folder: whoever is asked answers for all of them."""
import os
import subprocess
import sys

COUNT = "from core.operation import counts; counts.count_request('GET', 'unit_detail', 200, 0.02)"
TELL = ("from core.operation import counts; print(counts.counted().get_sample_value("
        "'underplate_requests_total', {'method': 'GET', 'route': 'unit_detail', 'status': '200'}))")


def test_two_processes_count_together(tmp_path):
    environment = os.environ | {"PROMETHEUS_MULTIPROC_DIR": str(tmp_path)}
    answers = [subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True,
                              text=True, check=True).stdout for code in (COUNT, COUNT, TELL)]
    assert answers[-1].strip() == "2.0"
