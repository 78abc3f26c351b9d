"""Everything from an empty machine to the demo in a browser."""
import os
import signal
import socket
import subprocess
import sys

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError

from teardowns.services.draw_demo_logs import draw_demo_logs
from teardowns.services.draw_demo_photos import draw_demo_photos
from teardowns.services.finish_demo import finish_demo
from teardowns.services.load_demo import ACCOUNTS, DemoError, load_demo

HOST = "127.0.0.1"


class Command(BaseCommand):
    help = "Prepare the database, load the demo units, assess them, and serve the site."

    def add_arguments(self, parser):
        parser.add_argument("--no-serve", action="store_true", help="stop before serving")
        parser.add_argument("--no-pictures", action="store_true",
                            help="draw no pictures of the units and make no logs, which takes "
                                 "some two minutes")
        parser.add_argument("--port", type=int, default=8000, help="port to serve on (8000)")

    def handle(self, *args, no_serve, no_pictures, port, **options):
        if not no_serve:
            require_free(port)
        call_command("migrate", verbosity=0)
        call_command("collectstatic", interactive=False, verbosity=0)
        try:
            report = load_demo()
        except DemoError as error:
            raise CommandError(str(error)) from error
        self.say(report)
        draw = (lambda: None) if no_pictures else self.draw
        if no_serve:
            draw()
        else:
            self.serve(port, draw)

    def draw(self):
        """Takes some two minutes the first time, and nothing afterwards."""
        for what, steps in (("Drawing the pictures of unit", draw_demo_photos()),
                            ("Reading the logs of unit", draw_demo_logs())):
            for done, total in steps:
                self.stdout.write(f"\r{what} {done} of {total}", ending="")
                self.stdout.flush()
                if done == total:
                    self.stdout.write("")
        finish_demo()

    def say(self, report):
        self.stdout.write(
            f"{report.published} units are published, {report.drafts} are drafts; "
            f"this run loaded {report.imported} and assessed {report.assessed}.\n\n"
            "Demo accounts, with passwords made just now:\n"
        )
        for name, password in report.passwords.items():
            self.stdout.write(f"  {name:<8} {password}   {ACCOUNTS[name].label.lower()}")
        self.stdout.write(
            "\nAll but alma are asked for a second factor. Its code of the moment: "
            "manage.py demo_code NAME\n")

    def serve(self, port, draw):
        """Web server and worker, until one of them ends or Ctrl+C; the pictures come meanwhile."""
        os.environ.setdefault("SITE_URL", f"http://{HOST}:{port}")     # in what is cited of it
        # In sessions of their own: Ctrl+C and a closed terminal reach this process alone, which
        # tells each of them once. The worker hangs when it is told twice at the same moment.
        children = [subprocess.Popen(command, start_new_session=True)
                    for command in (web_command(port), worker_command())]
        self.stdout.write(
            self.style.SUCCESS(f"Open http://{HOST}:{port}/ in a browser. Ctrl+C stops the demo.")
        )
        self.stdout.flush()
        for told in (signal.SIGTERM, signal.SIGHUP):
            signal.signal(told, lambda *_: sys.exit(0))
        try:
            draw()
            os.wait()
            raise CommandError("The web server or the worker ended by itself: why stands above.")
        except KeyboardInterrupt:
            pass
        finally:
            for child in children:
                child.terminate()
            for child in children:
                child.wait()


def web_command(port):
    python = [sys.executable, "-m", "gunicorn", "core.wsgi"]
    return [*python, "--bind", f"{HOST}:{port}", "--threads", "16", "--log-level", "warning"]


def worker_command():
    return [sys.executable, sys.argv[0], "qcluster"]


def require_free(port):
    """Refuse early, in the user's words, when nothing can be served on the port."""
    if not 1 <= port <= 65535:
        raise CommandError("--port takes a number from 1 to 65535, such as 8000.")
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)     # as the web server does
        try:
            probe.bind((HOST, port))
        except PermissionError:
            raise CommandError(f"Port {port} is kept for the administrator of this machine. "
                               "Choose one above 1023: manage.py demo --port 8000") from None
        except OSError:
            raise CommandError(
                f"Port {port} is already in use on this machine. "
                f"Stop what uses it, or choose another: manage.py demo --port {port + 1}"
            ) from None
