"""Rows of the search's index without the units behind them."""
from teardowns.models import Findable, SearchText
from teardowns.searching.tokens import Texts
from teardowns.services.index_words import learn_terms, search_text


def indexed(pk, title="", kind=Findable.UNIT, **texts):
    """What a search finds under this number: `lines`, `makers`, `models`, `markings`, `claims`."""
    said = Texts(title, **{name: tuple(values) for name, values in texts.items()})
    SearchText.objects.bulk_create([search_text(kind, pk, said)])
    learn_terms([said])
