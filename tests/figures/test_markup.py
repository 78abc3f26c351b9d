from teardowns.figures.markup import element, picture


def test_attribute_values_are_escaped():
    assert element("a", "x", href='"><script>') == '<a href="&quot;&gt;&lt;script&gt;">x</a>'


def test_names_are_written_as_the_markup_writes_them():
    written = element("text", "9", cls="axis-t", text_anchor="middle", role=None)
    assert written == '<text class="axis-t" text-anchor="middle">9</text>'


def test_a_picture_with_a_title_is_an_image_and_one_without_is_decoration():
    assert 'role="img"' in picture("", "limit: 14.7 W")
    assert 'aria-hidden="true"' in picture("")


def test_a_title_cannot_inject_markup():
    assert "<b>" not in picture("", "<b>45 W</b>")
