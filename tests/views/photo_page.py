"""Alice at one of her photos: the forms she sends, the page that follows."""
import html


def address_of(photo):
    return f"/bench/{photo.unit_id}/photos/{photo.key}/"


def sender(client, photo):
    """Sends one of the forms of the page; the page that follows, as text."""
    def sent(name, **fields):
        response = client.post(address_of(photo), {"act": name} | fields, follow=True)
        assert response.status_code == 200
        return html.unescape(response.content.decode())
    return sent


def is_kept(page, *values):
    """Whether the page says that nothing was saved, and holds what was typed."""
    return "Nothing of this is saved yet; what you typed is kept." in page and all(
        f'value="{value}"' in page for value in values)
