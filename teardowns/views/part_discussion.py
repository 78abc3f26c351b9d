"""What is said about a part of the library."""
from core.buckets import limited
from core.once import once
from teardowns import access

from .discussion_page import ACCOUNT, NETWORK, discussion_page


@limited("comments", account=ACCOUNT, network=NETWORK)
@once
def part_discussion(request, pk):
    part = access.part_to_see(request.user, pk)
    return discussion_page(request, part, (part.get_absolute_url(), part.marking))
