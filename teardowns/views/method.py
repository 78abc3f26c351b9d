"""The method, printed from the rulebook."""
from django.shortcuts import render

from teardowns.presenting import method_formulas
from teardowns.presenting.grade_words import GRADE_WORDS
from teardowns.presenting.method_boards import boards_chapter
from teardowns.presenting.method_safety import safety_chapter
from teardowns.presenting.method_sheet import method_sheet
from teardowns.presenting.verdict_words import VERDICT_WORDS
from teardowns.services.active_rulebook import active_rulebook
from teardowns.services.page_state import RulesState
from teardowns.views.kept_pages import kept_page


@kept_page(lambda request: RulesState(active_rulebook().version))
def method(request):
    rules = active_rulebook()
    return render(request, "teardowns/method.html", {
        **method_sheet(rules), **safety_chapter(rules), **boards_chapter(),
        "grades": GRADE_WORDS,
        "verdict_words": VERDICT_WORDS,
        "likelihoods": method_formulas.LIKELIHOODS,
        "likelihood_key": method_formulas.likelihood_key(),
        "hypotheses": method_formulas.hypotheses(),
        "odds": method_formulas.ODDS,
        "decibans": method_formulas.DECIBANS,
    })
