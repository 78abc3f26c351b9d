"""A site of its own for a test: a new database of the kind that the tests run on, a new folder."""
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from uuid import uuid4

from django.conf import settings

from core.settings import BASE_DIR

# Tables from the models and migrations written down as done, which takes a tenth of making them.
TABLES = """
from django.conf import settings
from django.core.management import call_command
class NoMigrations:
    def __contains__(self, app):
        return True
    def __getitem__(self, app):
        return None
settings.MIGRATION_MODULES = NoMigrations()
call_command("migrate", run_syncdb=True, verbosity=0)
settings.MIGRATION_MODULES = {}
call_command("migrate", fake=True, verbosity=0)
"""


@dataclass(frozen=True)
class Site:
    folder: Path
    environment: dict[str, str]

    def manage(self, *arguments, **more):
        """A command of the site's; its output, and what it exited with."""
        done = subprocess.run([sys.executable, "manage.py", *arguments], cwd=BASE_DIR,
                              env=self.environment | more, capture_output=True, text=True)
        return done.stdout + done.stderr, done.returncode

    def run(self, code, **more):
        """Lines of Python with the site set up."""
        said, failed = self.manage("shell", "--no-imports", "-c", code, **more)
        assert not failed, said
        return said.strip()


def new_site(folder):
    """Nothing is in it, not even tables."""
    folder.mkdir()
    environment = os.environ | {"UNDERPLATE_DATA_DIR": str(folder), "SECRET_KEY": "k" * 20 + "ey"}
    environment.pop("DATABASE_URL", None)
    database = settings.DATABASES["default"]
    if "postgresql" in database["ENGINE"]:
        environment["DATABASE_URL"] = _new_database(database)
    return Site(folder, environment)


def _new_database(like):
    import psycopg

    name = f"site_{uuid4().hex[:12]}"
    asked = {"host": like["HOST"], "port": like["PORT"], "user": like["USER"],
             "password": like["PASSWORD"], "dbname": "postgres"}
    with psycopg.connect(**{k: v for k, v in asked.items() if v}, autocommit=True) as server:
        server.execute(f'CREATE DATABASE "{name}"')
    secret = f":{like['PASSWORD']}" if like["PASSWORD"] else ""
    return f"postgres://{like['USER']}{secret}@{like['HOST']}:{like['PORT']}/{name}"


def drop_database(site):
    import psycopg

    address = site.environment.get("DATABASE_URL")
    if address:
        base, _, name = address.rpartition("/")
        with psycopg.connect(f"{base}/postgres", autocommit=True) as server:
            server.execute(f'DROP DATABASE IF EXISTS "{name}" WITH (FORCE)')
