"""Against a port that nobody listens at, and one where somebody greets as a mail server does."""
import socket
import threading

import pytest

from tests.core.doctor.found import bad, found

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def sends(settings):
    settings.ALLOWED_HOSTS, settings.DEFAULT_FROM_EMAIL = ["units.example"], "U <u@units.example>"
    settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
    settings.EMAIL_HOST, settings.EMAIL_USE_TLS, settings.EMAIL_USE_SSL = "127.0.0.1", False, False
    settings.EMAIL_HOST_USER = settings.EMAIL_HOST_PASSWORD = ""
    return settings


@pytest.fixture
def listening():
    """A port whose server greets, answers one EHLO and hears QUIT (RFC 5321, 4.2)."""
    server = socket.create_server(("127.0.0.1", 0))
    server.settimeout(5)

    def greet():
        visitor, _ = server.accept()
        with visitor:
            visitor.sendall(b"220 here\r\n")
            for answer in (b"250 here\r\n", b"221 bye\r\n"):
                visitor.recv(1000)
                visitor.sendall(answer)

    thread = threading.Thread(target=greet)
    thread.start()
    yield server.getsockname()[1]
    thread.join(5)
    server.close()


def closed_port():
    with socket.create_server(("127.0.0.1", 0)) as server:
        return server.getsockname()[1]


def test_a_server_that_takes_us_is_fine(settings, listening):
    settings.EMAIL_PORT = listening
    assert found("mail") == [("good", "The mail server 127.0.0.1 takes us.")]


def test_a_server_that_is_not_there_is_a_fault(settings):
    settings.EMAIL_PORT = closed_port()
    assert "does not take us: ConnectionRefusedError" in bad("mail")


def test_messages_in_clear_and_from_localhost_are_said(settings):
    settings.EMAIL_HOST, settings.EMAIL_PORT = "localhost.invalid", 25
    settings.DEFAULT_FROM_EMAIL = "Underplate <underplate@localhost>"
    assert "in clear" in bad("mail") and "address of localhost" in bad("mail")


def test_messages_that_stay_here_are_a_warning_where_others_are_served(settings):
    settings.EMAIL_BACKEND = "django.core.mail.backends.filebased.EmailBackend"
    assert "kept as files" in bad("mail")
    settings.ALLOWED_HOSTS = ["localhost"]
    assert bad("mail") == ""
