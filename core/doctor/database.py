"""Whether the database answers, and which one it is."""
from django.db import DatabaseError, connection

from core.doctor.findings import examines, fault, good


@examines("database")
def database_answers():
    try:
        connection.ensure_connection()
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
    except DatabaseError as error:
        yield fault(f"The database does not answer: {first_line(error)}",
                    "Check DATABASE_URL, and that the server runs and lets this account in. All "
                    "that is asked of the database was passed over.")
        return
    yield good(f"{connection.display_name} answers, version {version()}.")


def first_line(error):
    """Without what follows: a server's hint may hold names of hosts, never the password."""
    return (str(error).strip().splitlines() or [type(error).__name__])[0]


def version():
    number = connection.get_database_version()
    return ".".join(map(str, number))
