"""A decision as a moderator takes it on a page: look at the statement, then send it."""


def look(client, address, **typed):
    return client.post(address, typed | {"step": "look"}).content.decode()


def send(client, address, **typed):
    return client.post(address, typed | {"step": "send"})
