"""Whether every public version stands under the rules in force."""
from core.doctor.findings import examines, good, warning
from teardowns.models import Publication
from teardowns.services.active_rulebook import active_rulebook


@examines("rulebook", asks_database=True)
def everything_stands_under_the_rules_in_force():
    version = active_rulebook().version
    others = Publication.objects.current().exclude(standing__rulebook=version).count()
    if others:
        yield warning(f"{others} public records stand under other rules than {version}.",
                      "Run manage.py reassess --queue.")
    else:
        yield good(f"Every public record stands under rulebook {version}.")
