from teardowns.searching.tokens import OTHER, Texts, run_together_of, tokens_of

TEXTS = Texts("Desk charger", lines=("OUTPUT 5V 3A", "controller: ZHB-1"), makers=("Veltrice",),
              models=("VQ 45",), markings=("ZHB-1",), claims=("5v3a",))


def tokens(texts=TEXTS, kind="u"):
    return set(tokens_of(texts, kind).split())


def test_a_model_is_found_with_and_without_its_maker():
    assert {"umvq45", "umveltricevq45", "unv045", "unve1tr1cev045"} <= tokens()


def test_a_marking_is_found_whole_as_printed_and_as_misread():
    # Z folds to 2, H stays, B to 8.
    assert {"uxzhb1", "uy2h81"} <= tokens()


def test_title_maker_and_model_are_told_from_the_rest():
    assert {"utdesk", "utveltrice", "utvq45", "utvq", "ur5v", "urcontroller"} <= tokens()
    assert not {"ut5v", "utcontroller"} & tokens()


def test_a_folded_word_is_kept_only_where_no_word_is_the_same():
    # `charger` folds to `char6er`; `5v` folds to itself.
    assert "ulchar6er" in tokens()
    assert "ul5v" not in tokens()


def test_claims_have_tokens_of_their_own():
    assert "uc5v3a" in tokens()


def test_parts_and_families_share_their_letter():
    assert all(token.startswith("o") for token in tokens(kind=OTHER))


def test_pieces_are_looked_for_in_names_markings_and_what_is_printed_with_a_digit():
    # D of `Desk charger` is nowhere; OUTPUT has no digit; 5V and 3A are two letters long.
    assert run_together_of(TEXTS).split("\n") == ["2h81", "v045", "ve1tr1cev045"]


def test_no_text_gives_no_token():
    assert tokens_of(Texts("")) == run_together_of(Texts("")) == ""
