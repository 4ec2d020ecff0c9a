"""Web pages: the words of the pattern, each with its line and column."""

from __future__ import annotations

from html import escape

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookwright.reading import Draft, LinePlace, UnreadableDraft, read_bytes


def _read(page: str) -> Draft:
    return read_bytes(page.encode(), "html", "a.html")


# What the page says, and the lines that are read.
CASES = {
    "line breaks end lines": (
        "Row 1: sc<br>Row 2: dc<br/>Row 3",
        "Row 1: sc\nRow 2: dc\nRow 3",
    ),
    "paragraphs stand apart": ("<p>Row 1</p><p>Row 2</p>", "Row 1\n\nRow 2"),
    "paragraphs need no end tag": (
        "<p>Row 1<p>Row 2<div>Row 3</div>",
        "Row 1\n\nRow 2\n\nRow 3",
    ),
    "white space is drawn together": ("<p> Row\n\t1:  sc </p>", "Row 1: sc"),
    "words inside a word are one": ("<p>R<b>o</b>w 1</p>", "Row 1"),
    "entities are decoded": (
        "5&nbsp;&frac12;&quot; &#42; &amp;c &x; AT&T",
        '5 ½" * &c &x; AT&T',
    ),
    "unclosed entities too": ("sc &amp dc &lt 3", "sc & dc < 3"),
    "a lone sign is a sign": ("<p>a < 3 & b > 2</p>", "a < 3 & b > 2"),
    "soft hyphens are not seen": ("<p>cro&shy;chet a\u200bcross</p>", "crochet across"),
    "a raised numerator is parted": (
        "5<sup>1</sup>/<sub>2</sub> mm, 2<sup>nd</sup>",
        "5 1/2 mm, 2nd",
    ),
    "bullets are left out": ("<ul><li>sc<li>dc</ul>", "sc\ndc"),
    "numbers are restored": (
        "<ol start=3><li>Fold.</li><li>Sew.</li></ol>",
        "3. Fold.\n4. Sew.",
    ),
    "a label needs no number": ("<ol><li>Row 1: sc</ol>", "Row 1: sc"),
    "letters are not numbers": ("<ol type=a><li>Fold.</ol>", "Fold."),
    "a list in a list": ("<ol><li>A<ol><li>B</ol><li>C</ol>", "1. A\n\n1. B\n\n2. C"),
    "a table's row is a line": (
        "<table><tr><th>Size<td>S<td>M<tr><th>Rows<td>9<td> </table>",
        "Size\tS\tM\nRows\t9",
    ),
    "a table that lays out the page": (
        "<table><tr><td><img src=a></td><td><p>Row 1: sc<p>Row 2: dc</p></td></tr></table>",
        "Row 1: sc\nRow 2: dc",
    ),
    "a table in a table": (
        "<table><tr><td>A<table><tr><td>Row 1: sc<td>(9)</table>B</table>",
        "A Row 1: sc\t(9) B",
    ),
    "preformatted lines stay": (
        "<pre>Row 1: sc\n  Row 2: dc</pre>",
        "Row 1: sc\nRow 2: dc",
    ),
    "comments of the page's maker": ("Row 1<!-- <p>Row 0</p> -->: sc", "Row 1: sc"),
    "conditional remarks": ("<![if !lists]>Row 1<![endif]>: sc", "Row 1: sc"),
    "scripts and styles": (
        "<style>p{}</style>Row 1<script>if(a<b){'<p>'}</script>",
        "Row 1",
    ),
    "struck out words": ("Row 1: <del>sc</del><ins>dc</ins>, <s>turn</s>", "Row 1: dc,"),
    "an article's own head stays": (
        "<header>Shop</header><article><header><h1>Tern</h1></header>Row 1</article>",
        "Tern\n\nRow 1",
    ),
    "menus, forms, sides and feet": (
        "<nav>Home</nav><p>Row 1</p><aside>Ad</aside><form>Find</form><footer>Sea",
        "Row 1",
    ),
    "what readers wrote": (
        "<p>Row 1</p><div id=comments><div><p>Row 2 is hard</p></div></div><p>Row 3</p>",
        "Row 1\n\nRow 3",
    ),
    "parts by their class": (
        (
            '<p>Row 1</p><div class="post-share x">t</div><div class="relatedPosts">u</div>'
            '<ol class="commentlist"><li>v</ol><div role="navigation">w</div>'
        ),
        "Row 1",
    ),
    "classes that only tell of the page": (
        '<body class="has-sidebar"><div class="comments-closed">Row 1</div>',
        "Row 1",
    ),
    "a page that is one form": (
        "<form><p>Row 1: sc</p><nav>x</nav></form>",
        "Row 1: sc\n\nx",
    ),
    "an unread part without an end": ("<p>Row 1<p class=share>x<p>Row 2", "Row 1\n\nRow 2"),
}


@pytest.mark.parametrize("name", CASES)
def test_a_page_is_read_as_it_is_seen(name: str) -> None:
    page, text = CASES[name]
    assert _read(page).source.text == f"{text}\n"


def test_what_is_left_out_is_said() -> None:
    page = "<nav>Home</nav><p>Row 1</p><div class='comments'>x</div><s>y</s>"
    assert _read(page).notes == (
        "Left out of the page: menus, readers' comments, words struck out.",
    )


def test_a_page_cut_short_is_said() -> None:
    draft = _read("<p>Row 1: sc</p><p class='a")
    assert draft.source.text == "Row 1: sc\n"
    assert draft.notes == (
        "The page ends inside a tag or a comment; what follows it was not read.",
    )


def test_headings_have_their_level() -> None:
    draft = _read("<h1>Tern<br>Shawl</h1><h3>Body</h3><p>Row 1</p>")
    found = [(draft.source.slice(each.span), each.level) for each in draft.headings]
    assert found == [("Tern", 1), ("Shawl", 1), ("Body", 3)]


@pytest.mark.parametrize("charset", ["windows-1250", "iso-8859-2"])
def test_the_declared_character_set_is_used_for_what_is_not_utf_8(charset: str) -> None:
    page = f'<meta charset="{charset}"><p>Řada 1: sc</p>'
    assert read_bytes(page.encode(charset), "html", "a.html").source.text == "Řada 1: sc\n"


def test_utf_8_is_believed_before_any_declaration() -> None:
    page = '<meta charset="windows-1252"><p>½</p>'.encode()
    assert read_bytes(page, "html", "a.html").source.text == "½\n"


WORDS = st.text(st.characters(exclude_categories=["Cs", "Cc", "Cf"]), max_size=20)


@given(st.lists(WORDS, min_size=1, max_size=5))
def test_every_character_leads_to_its_line_and_column(paragraphs: list[str]) -> None:
    page = "".join(f"<p>{escape(words)}\n</p>\n" for words in paragraphs)
    if not any(words.strip() for words in paragraphs):
        return
    draft = _read(page)
    assert draft.source.text.split() == " ".join(paragraphs).split()
    lines = page.split("\n")
    for offset, character in enumerate(draft.source.text):
        place = draft.origin_of(offset)
        assert isinstance(place, LinePlace)
        found = lines[place.line - 1][place.column - 1 :]
        if not character.isspace():
            assert found.startswith(escape(character))


@pytest.mark.parametrize(
    "page",
    ["<b>" * 500 + "x", "<div>" * 121 + "x", "<table><tr><td>" * 200 + "x"],
)
def test_a_page_nested_too_deeply_is_refused(page: str) -> None:
    with pytest.raises(UnreadableDraft, match="nested too deeply"):
        _read(page)


@pytest.mark.parametrize("part", ["<", "<br>", "<!--", "<a b=c "])
def test_a_page_of_endless_tags_is_refused_at_once(part: str) -> None:
    with pytest.raises(UnreadableDraft, match="far larger than a page"):
        _read(part * 200_000)
