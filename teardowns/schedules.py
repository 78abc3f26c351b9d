"""What the worker does by the clock: a row each for the queue, kept in step after `migrate`."""
from django_q.models import Schedule

# Job → how often. Each is safe to run twice, and late.
BY_THE_CLOCK = {
    "compare_sisters": Schedule.HOURLY,
    "count_likeness_words": Schedule.DAILY,
    "export_data": Schedule.DAILY,
    "find_likenesses": Schedule.HOURLY,
    "lapse_hidden": Schedule.HOURLY,
    "lapse_reviews": Schedule.HOURLY,
    "look_again": Schedule.HOURLY,
    "note_end_of_log": Schedule.HOURLY,
    "pack_listing": Schedule.HOURLY,
    "send_digests": Schedule.DAILY,
    "send_letters": Schedule.MINUTES,
    "sweep_printouts": Schedule.DAILY,
    "sweep_records": Schedule.DAILY,
    "tidy_search": Schedule.DAILY,
}


EVERY = 5           # minutes, of what is done by the minute


def keep_schedules(**kwargs):
    """Rows that are missing are added; those that an operator changed stay as they are."""
    for job, often in BY_THE_CLOCK.items():
        Schedule.objects.get_or_create(
            name=job, defaults={"func": f"teardowns.jobs.{job}", "schedule_type": often,
                                    "minutes": EVERY if often == Schedule.MINUTES else None})
