"""Settings come from the environment, and a wrong one names its variable."""
import os
import subprocess
import sys

import pytest


def start(tmp_path, **environment):
    return subprocess.run(
        [sys.executable, "manage.py", "check"], capture_output=True, text=True,
        env=os.environ | {"UNDERPLATE_DATA_DIR": str(tmp_path)} | environment,
    )


@pytest.mark.parametrize(
    ("variable", "value"),
    [("DEBUG", "perhaps"), ("WORKERS", "many"), ("LOG_LEVEL", "LOUD"),
     ("DATABASE_URL", "nonsense")],
)
def test_a_wrong_setting_is_named(tmp_path, variable, value):
    done = start(tmp_path, **{variable: value})
    assert done.returncode != 0 and variable in done.stderr


def test_debug_is_off_unless_asked_for(settings):
    assert settings.DEBUG is False
