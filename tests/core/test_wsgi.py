"""What a process has read before it is asked for anything."""
import subprocess
import sys

ASK = ("import core.wsgi; from core.words.said import catalogue; "
       "print(catalogue.cache_info().currsize)")


def test_no_reader_of_a_language_waits_for_its_catalogue():
    told = subprocess.run([sys.executable, "-c", ASK], capture_output=True, text=True, check=True)
    assert int(told.stdout) >= 1
