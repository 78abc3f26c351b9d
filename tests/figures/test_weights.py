from teardowns.figures.weights import Weight, weight_axis, weight_bars

from .drawing import of_class, parsed, share, words


def bars(*decibans):
    found = [Weight("limit", f"line {d}", d, str(d), "against" if d < 0 else "for", "/w/")
             for d in decibans]
    return parsed(weight_bars("Caption", found))


def test_bars_grow_from_zero_to_their_own_side():
    axis = weight_axis([-50.0, 10.0])
    against, in_favour = of_class(bars(-50.0, 10.0), "w-limit")
    assert share(against, "x") + share(against, "width") == round(axis(0), 2)
    assert share(in_favour, "x") == round(axis(0), 2)


def test_a_bar_beyond_the_scale_is_cut_and_the_numbers_say_so():
    tree = bars(-342.0, 1.4)
    assert len(of_class(tree, "cut")) == 1
    assert "against, bar cut" in words(tree)


def test_small_weights_do_not_fill_the_scale():
    # ten decibans are the shortest scale: half a deciban is a twentieth of one side
    bar, = of_class(bars(0.5), "w-limit")
    assert share(bar, "width") < 3


def test_zero_lies_inside_the_scale_even_when_all_weights_agree():
    axis = weight_axis([-80.0, -90.0])
    assert 0 < axis(0) < 100


def test_each_weight_links_to_its_line():
    assert [a.get("href") for a in bars(-5.0).iter("a")] == ["/w/"]
