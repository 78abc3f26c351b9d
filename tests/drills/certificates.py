"""The site proves itself to its database by a certificate, and takes no other server for it.

    sudo python -m tests.drills.certificates

A PostgreSQL of the drill's own asks for a client's certificate in place of a password; the site's
DATABASE_URL names it, with sslmode=verify-full. Then each thing that must not be let through.
"""
from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from contextlib import suppress
from pathlib import Path

from tests.drills.one_host import HERE, Findings, Postgres, Site, needs_root

WEB = "underplate_web"
LOGGED = "SELECT ssl, client_dn FROM pg_stat_ssl WHERE pid = pg_backend_pid()"


def openssl(*arguments: object) -> None:
    subprocess.run(["openssl", *map(str, arguments)], check=True, capture_output=True)


def authority(folder: Path, name: str) -> tuple[Path, Path]:
    key, certificate = folder / f"{name}.key", folder / f"{name}.crt"
    openssl("req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes",
            "-days", 1, "-subj", f"/CN={name}", "-keyout", key, "-out", certificate)
    return key, certificate


def signed(folder: Path, by: tuple[Path, Path], name: str, file: str) -> tuple[Path, Path]:
    key, request, certificate = (folder / f"{file}.{end}" for end in ("key", "csr", "crt"))
    names = folder / f"{file}.ext"
    names.write_text(f"subjectAltName=DNS:{name}")
    openssl("req", "-new", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes",
            "-subj", f"/CN={name}", "-keyout", key, "-out", request)
    openssl("x509", "-req", "-days", 1, "-in", request, "-CA", by[1], "-CAkey", by[0],
            "-CAcreateserial", "-extfile", names, "-out", certificate)
    key.chmod(0o600)
    return key, certificate


def locked(server: Postgres, ours, key: Path, certificate: Path) -> None:
    """From now on it lets nobody in but the web's account, by a certificate of our authority."""
    for source, name in ((key, "server.key"), (certificate, "server.crt"), (ours[1], "root.crt")):
        shutil.copy(source, server.data / name)
        shutil.chown(server.data / name, "postgres")
    (server.data / "server.key").chmod(0o600)
    (server.data / "postgresql.conf").open("a").write("\nssl = on\nssl_ca_file = 'root.crt'\n")
    (server.data / "pg_hba.conf").write_text(f"hostssl all {WEB} 127.0.0.1/32 cert\n")
    server.stop()
    server.start()


def url(server: Postgres, host: str = "localhost", mode: str = "verify-full", **files: Path) -> str:
    named = "".join(f"&{name}={path}" for name, path in files.items())
    return f"postgres://{WEB}@{host}:{server.port}/postgres?sslmode={mode}{named}"


def is_refused(address: str) -> bool:
    import psycopg

    try:
        psycopg.connect(address, connect_timeout=5).close()
    except psycopg.OperationalError:
        return True
    return False


def main() -> int:
    needs_root()
    findings = Findings("Certificates between the site and its database")
    folder = Path(tempfile.mkdtemp(prefix="drill-"))
    folder.chmod(0o755)
    server = Postgres(folder)
    try:
        import psycopg

        with psycopg.connect(server.url, autocommit=True) as connection:
            connection.execute(f"CREATE ROLE {WEB} LOGIN SUPERUSER")    # of the drill: it migrates
        ours, other = authority(folder, "ours"), authority(folder, "other")
        locked(server, ours, *signed(folder, ours, "localhost", "server"))
        key, certificate = signed(folder, ours, WEB, "web")
        good = {"sslrootcert": ours[1], "sslcert": certificate, "sslkey": key}
        strange_key, strange = signed(folder, other, WEB, "strange")
        else_key, else_certificate = signed(folder, ours, "somebody_else", "else")
        made = Site(folder, url(server, **good))
        (folder / "data").mkdir()
        made.manage("migrate", "-v0")
        said = made.manage("shell", "--no-imports", "-c", (
            "from django.db import connection as c\nk = c.cursor()\n"
            f"k.execute({LOGGED!r})\nprint(k.fetchone())")).strip()
        findings.say("the site is let in by its certificate alone", said,
                     f"(True, '/CN={WEB}')", said == f"(True, '/CN={WEB}')")
        for what, address in {
            "without a certificate": url(server, sslrootcert=ours[1]),
            "with one of another authority": url(
                server, **good | {"sslcert": strange, "sslkey": strange_key}),
            "with one for another account": url(
                server, **good | {"sslcert": else_certificate, "sslkey": else_key}),
            "without TLS": url(server, mode="disable"),
            "a server of another authority": url(server, **good | {"sslrootcert": other[1]}),
            "a server under another name": url(server, host=HERE, **good),
        }.items():
            refused = is_refused(address)
            findings.say(what, "refused" if refused else "let in", "refused", refused)
    finally:
        with suppress(subprocess.CalledProcessError):
            server.stop("immediate")
        shutil.rmtree(folder, ignore_errors=True)
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
