"""What an operator copies names settings and commands that there are."""
import re
import shutil
import subprocess

import pytest
import yaml
from django.core.management import get_commands

from core.settings import BASE_DIR

DEPLOY = BASE_DIR / "fixtures" / "deploy"
UNITS = sorted(DEPLOY.glob("*.service"))
OF_OTHERS = {"AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY"}      # read by the library for buckets
OF_LIBRARIES = {"UNDERPLATE_DATA_DIR", "PROMETHEUS_MULTIPROC_DIR"}


def settings_read():
    """Names of the environment that core/settings.py reads."""
    text = (BASE_DIR / "core" / "settings.py").read_text()
    return set(re.findall(r'env\.\w+\(\s*"([A-Z][A-Z0-9_]+)"', text))


def test_each_line_of_the_environment_is_a_setting():
    lines = re.findall(r"^#?([A-Z][A-Z0-9_]+)=", (DEPLOY / "environment.example").read_text(), re.M)
    assert lines and set(lines) <= settings_read() | OF_OTHERS


def test_each_setting_stands_in_the_readme():
    readme = (BASE_DIR / "README.md").read_text()
    listed = set(re.findall(r"`([A-Z][A-Z0-9_]+)`", readme))
    assert settings_read() - listed - {"DATABASE_CONNECTION_AGE"} == set()
    assert listed <= settings_read() | OF_LIBRARIES


@pytest.mark.parametrize("unit", UNITS, ids=lambda path: path.name)
def test_units_run_commands_that_there_are(unit):
    commands = re.findall(r"manage\.py (\w+)", unit.read_text())
    assert set(commands) <= set(get_commands()) and (commands or "gunicorn" in unit.read_text())


@pytest.mark.skipif(not shutil.which("systemd-analyze"), reason="systemd is not installed")
def test_units_are_as_systemd_wants_them(tmp_path):
    """With a program and an account that this machine has."""
    for path in [*UNITS, *DEPLOY.glob("*.timer")]:
        text = path.read_text().replace("/opt/underplate/.venv/bin/python", "/bin/true")
        text = re.sub(r"^(User|Group)=.*$", r"\1=root", text, flags=re.M)
        (tmp_path / path.name).write_text(text)
    done = subprocess.run(["systemd-analyze", "verify", "--man=no", *tmp_path.iterdir()],
                          capture_output=True, text=True, check=False)
    assert done.returncode == 0 and str(tmp_path) not in done.stderr, done.stderr


def test_services_of_the_compose_file_share_the_sites_settings():
    said = yaml.safe_load((DEPLOY / "compose.yml").read_text())
    services = said["services"]
    assert set(services) == {"database", "prepare", "web", "worker", "proxy"}
    for name in ("prepare", "web", "worker"):
        assert services[name]["environment"]["DATABASE_URL"]


def test_the_proxy_speaks_new_tls_alone_and_sends_all_else_there():
    text = (DEPLOY / "nginx.conf").read_text()
    assert re.findall(r"ssl_protocols (.*);", text) == ["TLSv1.2 TLSv1.3"]
    assert re.search(r"listen 80 [^}]*return 301 https://", text, re.S)
    assert "sslmode=verify-full" in (DEPLOY / "environment.example").read_text()
