"""What an operator copies names settings and commands that there are."""
import re
import shutil
import subprocess

import pytest
import yaml
from django.core.management import get_commands
from gunicorn.config import Config

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


def test_what_the_compose_file_names_is_there():
    said = yaml.safe_load((DEPLOY / "compose.yml").read_text())
    proxy = (DEPLOY / "nginx.conf").read_text()
    kept = {mount.split(":")[0]: mount.split(":")[1] for service in said["services"].values()
            for mount in service.get("volumes", ()) if not mount.startswith("./")}
    assert set(kept) == set(said["volumes"])
    site = said["services"]["web"]["environment"]
    assert (kept["files"], kept["static"]) == (site["UNDERPLATE_DATA_DIR"], site["STATIC_ROOT"])
    assert f"alias {kept['static']}/" in proxy and "/etc/ssl/underplate/" in proxy
    for service in said["services"].values():
        for other, how in service.get("depends_on", {}).items():
            asked = said["services"][other]
            assert how["condition"] != "service_healthy" or asked["healthcheck"]["test"]


def test_commands_of_the_compose_file_are_taken():
    services = yaml.safe_load((DEPLOY / "compose.yml").read_text())["services"]
    commands = " ".join(service.get("command", "") for service in services.values())
    assert set(re.findall(r"manage\.py (\w+)", commands)) <= set(get_commands())
    web = services["web"]["command"].split()
    assert web[:3] == ["python", "-m", "gunicorn"]
    said = Config().parser().parse_args(web[3:])
    assert (said.bind, said.preload_app) == (["0.0.0.0:8001"], True)
    assert "http://127.0.0.1:8001/health/ready'" in services["web"]["healthcheck"]["test"][-1]


@pytest.mark.skipif(not (shutil.which("nginx") and shutil.which("openssl")),
                    reason="nginx is not installed")
def test_the_site_for_nginx_is_as_nginx_wants_it(tmp_path):
    """With a certificate and folders of this test."""
    subprocess.run(["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt",
                    "ec_paramgen_curve:prime256v1", "-nodes", "-days", "1", "-subj", "/CN=a",
                    "-keyout", "key.pem", "-out", "fullchain.pem"],
                   cwd=tmp_path, check=True, capture_output=True)
    text = (DEPLOY / "nginx.conf").read_text()
    for place in ("/etc/ssl/underplate", "/var/log/nginx"):
        text = text.replace(place, str(tmp_path))
    (tmp_path / "site.conf").write_text(text)
    folders = " ".join(f"{kind}_temp_path {tmp_path}/{kind};" for kind in (
        "client_body", "proxy", "fastcgi", "uwsgi", "scgi"))
    (tmp_path / "nginx.conf").write_text(
        f"pid {tmp_path}/pid; error_log {tmp_path}/errors; events {{}}\n"
        f"http {{ {folders} include {tmp_path}/site.conf; }}\n")
    done = subprocess.run(["nginx", "-t", "-c", str(tmp_path / "nginx.conf")],
                          capture_output=True, text=True, check=False)
    assert done.returncode == 0 and "[warn]" not in done.stderr, done.stderr


def test_the_proxy_speaks_new_tls_alone_and_sends_all_else_there():
    text = (DEPLOY / "nginx.conf").read_text()
    assert re.findall(r"ssl_protocols (.*);", text) == ["TLSv1.2 TLSv1.3"]
    assert re.search(r"listen 80 [^}]*return 301 https://", text, re.S)
    assert "sslmode=verify-full" in (DEPLOY / "environment.example").read_text()
