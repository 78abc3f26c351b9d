import runpy
from pathlib import Path

import pytest
from django.core import management

MANAGE = Path(__file__).parents[1] / "manage.py"


def test_a_command_that_is_broken_off_says_so_in_a_word(monkeypatch, capsys):
    def broken_off(_):
        raise KeyboardInterrupt
    monkeypatch.setattr(management, "execute_from_command_line", broken_off)
    with pytest.raises(SystemExit, match="130"):        # 128 and SIGINT's number, as shells have it
        runpy.run_path(str(MANAGE), run_name="__main__")
    assert capsys.readouterr().err == "Stopped.\n"
