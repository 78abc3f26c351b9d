from teardowns.figures.gains import THINNEST, Gain, gain_bar, gain_bars

from .drawing import of_class, parsed, share, words


def bars(*rates):
    return parsed(gain_bars("Caption", [
        Gain(f"Step <{rate}>", "Rule", "with the case open", rate, str(rate), "0.5 bit in 4 min",
             "/method/#rule") for rate in rates]))


def test_bars_are_as_long_as_the_rates():
    long, short = of_class(bars(0.4, 0.1), "part")
    assert share(long, "width") == 4 * share(short, "width") > 0


def test_a_rate_far_below_the_best_is_still_a_bar():
    assert share(of_class(bars(0.5, 0.0001), "part")[1], "width") == THINNEST


def test_each_step_tells_its_numbers_and_links_to_its_rule():
    tree = bars(0.4)
    assert "Step <0.4>" in words(tree) and "0.4" in words(tree)
    assert "0.5 bit in 4 min" in words(tree)
    assert [a.get("href") for a in tree.iter("a")] == ["/method/#rule"]


def test_a_bar_alone_stands_before_the_whole_and_is_no_news_to_a_screen_reader():
    svg = parsed(gain_bar(0.25)).find("svg")
    rest, part = svg.findall("rect")
    assert (rest.get("width"), part.get("width")) == ("100%", "25.00%")
    assert svg.get("aria-hidden") == "true"
    assert share(of_class(parsed(gain_bar(7.0)), "part")[0], "width") == 100
