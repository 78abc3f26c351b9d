"""The parts that two hosts share: PostgreSQL with the accounts of grants.sql, objects, nginx."""
from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import psycopg

from tests.drills.two_hosts_network import ADDRESS, FRONT, HOSTS, Running

ROOT = Path(__file__).resolve().parents[2]
DEPLOY = ROOT / "fixtures" / "deploy"
HERE, PORT, BUCKET = ADDRESS[FRONT], 5432, "evidence"
NAME = "units.example"
PYTHON = sys.executable


def postgres_programs() -> Path:
    return sorted(Path("/usr/lib/postgresql").glob("*/bin"))[-1]


def address(account: str, database: str = "underplate") -> str:
    return f"postgres://{account}@{HERE}:{PORT}/{database}"


def start_postgres(running: Running, folder: Path) -> None:
    """Durable as shipped, checksums on; the hosts' network is let in."""
    data, programs = folder / "postgres", postgres_programs()
    data.mkdir()
    shutil.chown(data, "postgres")
    subprocess.run(["runuser", "-u", "postgres", "--", programs / "initdb", "-D", data,
                    "--auth=trust", "--encoding=UTF8", "--data-checksums"], check=True,
                   stdout=subprocess.DEVNULL, cwd="/")
    with (data / "pg_hba.conf").open("a") as rules:
        rules.write("host all all 10.77.0.0/24 trust\n")
    running.start("postgres", FRONT, [
        "runuser", "-u", "postgres", "--", str(programs / "postgres"), "-D", str(data),
        "-c", f"listen_addresses={HERE}", "-c", f"unix_socket_directories={data}"], cwd=Path("/"))
    wait_for(lambda: psycopg.connect(address("postgres", "postgres")).close())


def ask(sql: str, *values: object, account: str = "postgres", database: str = "underplate") -> list:
    with psycopg.connect(address(account, database), autocommit=True) as server:
        found = server.execute(sql, values)
        return found.fetchall() if found.description else []


def lay_out(environment: dict[str, str]) -> None:
    """By the runbook: accounts, tables by their owner, and then what each may do."""
    ask("CREATE DATABASE underplate", database="postgres")
    grant()
    ask("ALTER DATABASE underplate OWNER TO underplate_owner", database="postgres")
    manage(environment | {"DATABASE_URL": address("underplate_owner")}, "migrate", "-v0")
    grant()


def grant(database: str = "underplate") -> None:
    subprocess.run(["psql", "-q", "-v", "ON_ERROR_STOP=1", "-f", DEPLOY / "grants.sql",
                    address("postgres", database)], check=True, stderr=subprocess.DEVNULL)


def start_objects(running: Running) -> None:
    import boto3

    command = shutil.which("moto_server", path=Path(PYTHON).parent) or "moto_server"
    running.start("objects", FRONT, [command, "-H", HERE, "-p", "9000"])
    client = boto3.client("s3", endpoint_url=f"http://{HERE}:9000", region_name="us-east-1",
                          aws_access_key_id="drill", aws_secret_access_key="drill")
    for bucket in (BUCKET, "restored"):
        wait_for(lambda bucket=bucket: client.create_bucket(Bucket=bucket))


def start_nginx(running: Running, folder: Path) -> Path:
    """The example with the hosts' addresses put in, and a certificate made just now: its place."""
    certificate = folder / "fullchain.pem"
    subprocess.run(["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "1",
                    "-subj", f"/CN={NAME}", "-addext", f"subjectAltName=DNS:{NAME}", "-keyout",
                    folder / "key.pem", "-out", certificate], check=True, capture_output=True)
    text = (DEPLOY / "nginx.conf").read_text()
    for old, new in (("# server 10.0.0.2:8001", f"server {ADDRESS[HOSTS[1]]}:8001"),
                     ("127.0.0.1:8001", f"{ADDRESS[HOSTS[0]]}:8001"),
                     ("/etc/ssl/underplate", str(folder)),
                     ("/var/log/nginx", str(folder / "logs")),
                     ("/var/lib/underplate-static", str(folder / "static"))):
        text = text.replace(old, new)
    (folder / "site.conf").write_text(text)
    (folder / "nginx.conf").write_text(
        f"user root; daemon off; pid {folder}/nginx.pid; error_log {folder}/logs/nginx-error.log;\n"
        "worker_processes 1; events {}\n"
        f"http {{ include /etc/nginx/mime.types; include {folder}/site.conf;\n"
        f"client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxied; }}\n")
    running.start("nginx", FRONT, ["nginx", "-c", str(folder / "nginx.conf")])
    return certificate


def environment_of(host: str, folder: Path) -> dict[str, str]:
    """As environment.example, with what this drill has."""
    return {
        "ALLOWED_HOSTS": f"{NAME},{ADDRESS.get(host, HERE)}", "SITE_URL": f"https://{NAME}",
        "HTTPS": "1", "BEHIND_PROXY": "1", "SECRET_KEY": "drill-" + "0123456789abcdefghij" * 3,
        "DATABASE_URL": address("underplate_web"), "S3_BUCKET": BUCKET,
        "S3_ENDPOINT": f"http://{HERE}:9000", "AWS_ACCESS_KEY_ID": "drill",
        "AWS_SECRET_ACCESS_KEY": "drill", "AWS_DEFAULT_REGION": "us-east-1",
        "UNDERPLATE_DATA_DIR": str(folder / host), "STATIC_ROOT": str(folder / "static"),
        "WORKERS": "1", "LOG_FORMAT": "json", "METRICS_TOKEN": "drill", "API_WRITES": "100000",
        "API_READS_OF_OWNER": "100000", "PROMETHEUS_MULTIPROC_DIR": str(folder / f"{host}-counts")}


def start_host(running: Running, host: str, folder: Path) -> None:
    environment = environment_of(host, folder)
    counts = Path(environment["PROMETHEUS_MULTIPROC_DIR"])
    shutil.rmtree(counts, ignore_errors=True)       # as systemd does with a RuntimeDirectory
    counts.mkdir()
    web = [PYTHON, "-m", "gunicorn", "core.wsgi", "--preload", "--bind", f"{ADDRESS[host]}:8001",
           "--workers", "2", "--threads", "4", "--timeout", "60", "--log-level", "warning"]
    running.start(f"web {host}", host, web, environment, ROOT)
    running.start(f"worker {host}", host, [PYTHON, "manage.py", "qcluster"], environment, ROOT)


def manage(environment: dict[str, str], *arguments: str, check: bool = True) -> str:
    done = subprocess.run([PYTHON, "manage.py", *arguments], cwd=ROOT, env=os.environ | environment,
                          capture_output=True, text=True, check=False)
    if check and done.returncode:
        raise SystemExit(f"manage.py {' '.join(arguments[:2])}:\n{done.stdout}{done.stderr}")
    return done.stdout


def wait_for(what, seconds: float = 60):
    """Its answer, once it raises nothing and answers something that is not False."""
    until = time.monotonic() + seconds
    while True:
        try:
            if (found := what()) is not False:
                return found
            problem: object = "answers no"
        except Exception as error:
            problem = error
        if time.monotonic() > until:
            raise SystemExit(f"Waited for {seconds} s in vain: {problem}")
        time.sleep(0.2)
