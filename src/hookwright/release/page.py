"""A copy as a page for a blog: one file that asks nothing of any server.

Everything is in the page: its fonts, pictures, other terms, long form, and the answers for
a maker's own width. Without its script it is the whole pattern in the terms it is written
in; with it, a maker chooses size, terms, words and colours.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from html import escape
from pathlib import Path

from msgspec import Struct

from hookwright.release.facts import Cell, Contents, Page, Paragraph, Picture, Shade
from hookwright.release.page_blocks import bands, colour_name, section, words
from hookwright.release.schema_data import schema_data
from hookwright.release.widths import OwnWidths
from hookwright.sheets.page import head_style

_HERE = Path(__file__).parent
_ORDER = (Page.ROWS, Page.WRITTEN, Page.BEFORE, Page.FINISHING)
_SAID = {
    Page.BEFORE: "Before you start", Page.WRITTEN: "How this pattern is written",
    Page.ROWS: "The pattern", Page.FINISHING: "Finishing",
}  # fmt: skip


class PageMade(Struct, frozen=True):
    """What a page is made of.

    Attributes:
        versions: The contents of each wording, by terms and form: ("US", "short"). The
            first is what the page shows before anything is chosen.
        pictures: The files of the pictures, by name.
        widths: The answers for a width of one's own; None for none.
        pdf: The file to print, beside the page; "" for none.
    """

    versions: Sequence[tuple[tuple[str, str], Contents]]
    pictures: Mapping[str, bytes]
    widths: OwnWidths | None = None
    pdf: str = ""


def as_page(made: PageMade) -> str:
    """The whole page."""
    return "<!doctype html>\n" + "\n".join(_page(made)) + "\n"


def _page(made: PageMade) -> Iterator[str]:
    contents = made.versions[0][1]
    script = (_HERE / "page.js").read_text("utf-8")
    title = escape(f"{contents.title}: {contents.subtitle}")
    yield '<html lang="en">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f'<meta http-equiv="Content-Security-Policy" content="{_policy(script)}">'
    yield f"<title>{title}</title>"
    yield f'<meta name="description" content="{escape(_description(contents))}">'
    yield '<link rel="icon" href="data:,">'
    yield f"<style>\n{_fonts()}{head_style()}{_colours(contents.shades)}"
    yield (_HERE / "page.css").read_text("utf-8") + "</style>"
    yield f'<script type="application/ld+json">{_json(schema_data(contents))}</script>'
    yield "</head>\n<body>"
    yield from _head(contents, made)
    yield '<div class="wrap cols">'
    yield from _aside(contents, made)
    yield "<main>"
    yield from body(contents, made.pictures)
    yield "</main>\n</div>"
    yield from _foot(contents)
    yield f'<script type="application/json" id="data">{_json(_data(made))}</script>'
    yield f"<script>{script}</script>\n</body>\n</html>"


def _policy(script: str) -> str:
    """Nothing is fetched, and no script runs but the one that belongs to the page."""
    digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
    return (
        "default-src 'none'; img-src data:; font-src data:; style-src 'unsafe-inline'; "
        f"script-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    )


def _description(contents: Contents) -> str:
    first = contents.introduction[0].runs if contents.introduction else ()
    return ("".join(run.words for run in first) or contents.subtitle)[:300]


@cache
def _fonts() -> str:
    """The two cuts of our font, within the page."""
    faces = []
    for weight, name in ((400, "Literata-Regular"), (600, "Literata-SemiBold")):
        data = base64.b64encode((_HERE / "fonts" / f"{name}.woff2").read_bytes()).decode()
        faces.append(
            f"@font-face{{font-family:Literata;font-weight:{weight};font-display:swap;"
            f"src:url(data:font/woff2;base64,{data}) format('woff2')}}\n"
        )
    return "".join(faces)


def _colours(shades: Sequence[Shade]) -> str:
    """Every colour, and the colour of a letter on it."""
    rules = []
    for shade in shades:
        name = colour_name(shade.letter or shade.name)
        code, on = (shade.code, "#fff" if shade.dark else "#211e1b") if shade.code else (
            "transparent", "inherit")  # fmt: skip
        rules.append(f"{name}:{code};{name}-on:{on}")
    return f":root{{{';'.join(rules)}}}\n" if rules else ""


def _head(contents: Contents, made: PageMade) -> Iterator[str]:
    yield "<header>"
    if contents.cover is not None:
        shown = _picture(contents.cover, made.pictures)
        yield f'<div class="{_hero(contents.cover)}">{shown}</div>'
    stamp = contents.stamp
    by = " ".join(filter(None, (
        f"Designed by {stamp.designer}." if stamp.designer else "",
        f"Version {stamp.version}, {stamp.date}." if stamp.version and stamp.date else "",
    )))  # fmt: skip
    yield f'<div class="wrap"><div class="title"><div>\n<h1>{escape(contents.title)}</h1>'
    yield f'<p class="sub">{escape(contents.subtitle)}</p>'
    if by:
        yield f'<p class="by">{escape(by)}</p>'
    if contents.draft:
        yield '<p class="draft">DRAFT, not for makers</p>'
    yield '</div>\n<p class="acts"><a class="btn go" href="#pattern">To the pattern</a>'
    if made.pdf:
        yield f' <a class="btn" href="{escape(made.pdf)}">PDF to print</a>'
    yield "</p></div>"
    yield from _band(contents.band)
    yield "</div>\n</header>"


def _hero(cover: Picture) -> str:
    return "hero" if cover.kind == "cover" else "hero whole"


def _band(cells: Sequence[Cell]) -> Iterator[str]:
    if not cells:
        return
    yield '<dl class="band">'
    for cell in cells:
        remark = f"<span>{escape(cell.remark)}</span>" if cell.remark else ""
        yield (
            f"<div><dt>{escape(cell.label)}</dt><dd>{escape(cell.fact)}{remark}</dd></div>"
        )
    yield "</dl>"


def _aside(contents: Contents, made: PageMade) -> Iterator[str]:
    """The contents list and what a maker chooses."""
    yield '<aside class="beside" aria-label="Make it yours">'
    yield '<nav aria-label="Contents"><h2>Contents</h2>\n<ul>'
    for page in _ORDER:
        own = [s for s in contents.sections if s.page is page and s.heading]
        if own:
            yield f'<li><a href="#{_page_anchor(page)}">{_SAID[page]}</a></li>'
    yield "</ul></nav>"
    yield from _choices(contents, made)
    yield "</aside>"


def _choices(contents: Contents, made: PageMade) -> Iterator[str]:
    keys = [key for key, _ in made.versions]
    terms = list(dict.fromkeys(key[0] for key in keys))
    forms = list(dict.fromkeys(key[1] for key in keys))
    yield '<div id="choose" hidden><h2>Make it yours</h2>'
    if len(contents.sizes) > 1:
        every = [("", "all"), *((str(at), name) for at, name in enumerate(contents.sizes))]
        yield _radios("Size", "size", every)
    if len(terms) > 1:
        yield _radios("Terms", "terms", [(one, one) for one in terms])
    if len(forms) > 1:
        said = {"short": "Short", "long": "In full"}
        yield _radios("Words", "form", [(one, said.get(one, one)) for one in forms])
    if made.widths is not None:
        unit = made.widths.unit
        example = '"110 cm" or "44 in"'
        yield (
            '<fieldset><legend>Your own width</legend><div class="own">'
            f'<label for="width">As in {example}</label>'
            f'<input id="width" autocomplete="off" data-unit="{unit}">'
            '</div><p id="answer" role="status"></p></fieldset>'
        )
    own = [shade for shade in contents.shades if shade.letter and shade.code]
    if own:
        colours = "colours" if contents.terms == "UK" else "colors"
        yield f'<fieldset><legend>Your own {colours}</legend><div class="pots">'
        for shade in own:
            name = f"{shade.letter} {shade.name}".strip()
            yield (
                f'<label><input type="color" value="{escape(shade.code)}"'
                f' data-yarn="{colour_name(shade.letter)}"> {escape(name)}</label>'
            )
        yield "</div></fieldset>"
    yield "</div>"


def _radios(legend: str, name: str, choices: Sequence[tuple[str, str]]) -> str:
    first = "checked"
    parts = [f'<fieldset><legend>{legend}</legend><div class="pair">']
    for value, said in choices:
        parts.append(
            f'<label><input type="radio" name="{name}" value="{escape(value)}" {first}>'
            f" {escape(said)}</label>"
        )
        first = ""
    return "".join((*parts, "</div></fieldset>"))


def body(contents: Contents, pictures: Mapping[str, bytes]) -> Iterator[str]:
    """What stands in the main part: the pattern first, so that it is reached at once."""
    if contents.introduction:
        yield from (f"<p>{words(p.runs, 0)}</p>" for p in contents.introduction)
    yield from _yarns(contents)
    for page in _ORDER:
        yield from _run_of_pages(contents, page, pictures)
    if contents.cautions:
        yield '<section aria-labelledby="care"><h2 id="care">Care and cautions</h2>'
        yield from _said(contents.cautions)
        yield "</section>"


def _run_of_pages(
    contents: Contents, page: Page, pictures: Mapping[str, bytes]
) -> Iterator[str]:
    own = [one for one in contents.sections if one.page is page]
    if not own:
        return
    name = _page_anchor(page)
    yield f'<h2 class="page" id="{name}">{_SAID[page]}</h2>'
    for one in own:
        yield from section(contents, one, level=3)
    if page is Page.WRITTEN and contents.counting:
        yield '<section aria-labelledby="counting">'
        yield '<h3 id="counting">How to count along</h3>'
        yield from _said(contents.counting)
        yield "</section>"
    if page is Page.ROWS:
        for picture in contents.pictures:
            caption = (
                f"<figcaption>{escape(picture.caption)}</figcaption>"
                if picture.caption
                else ""
            )
            yield f"<figure>{_picture(picture, pictures)}{caption}</figure>"


def _said(paragraphs: Sequence[Paragraph]) -> Iterator[str]:
    yield from (f"<p>{words(p.runs, 0)}</p>" for p in paragraphs)


def _page_anchor(page: Page) -> str:
    return "pattern" if page is Page.ROWS else f"p-{page.value}"


def _yarns(contents: Contents) -> Iterator[str]:
    """The yarns as balls with words, and the stripes to scale."""
    if not contents.shades:
        return
    yield '<section aria-labelledby="yarns"><h2 id="yarns">Yarn</h2>\n<ul class="balls">'
    for shade in contents.shades:
        yield _ball(shade, contents.sizes)
    yield "</ul>"
    if contents.stripes is not None:
        letters = [s.letter for s in contents.stripes.sequence for _ in range(s.rows)]
        said = ", ".join(f"{s.rows} of {s.letter}" for s in contents.stripes.sequence)
        across = bands(letters).replace("gradient(", "gradient(to right,")
        yield (
            '<div class="strip" role="img"'
            f' aria-label="The stripes, in rows: {escape(said)}" style="{across}"></div>'
        )
    yield "</section>"


def _ball(shade: Shade, sizes: Sequence[str]) -> str:
    name = escape(f"{shade.letter} {shade.name}".strip())
    code = colour_name(shade.letter or shade.name)
    balls = ""
    if shade.balls:
        same = len(set(shade.balls)) == 1
        number = shade.balls[0] if same else ", ".join(shade.balls)
        many = "ball" if number == "1" else "balls"
        told = (
            ""
            if same or len(sizes) < 2
            else f' data-n="{escape("|".join(shade.balls))}" class="sz"'
        )
        balls = f"<span><span{told}>{escape(number)}</span> {many}</span>"
    length = f"<span>{escape(', '.join(shade.length))}</span>" if shade.length else ""
    return (
        f'<li><span class="ball" aria-hidden="true" style="--c:var({code})"></span>'
        f"<div><b>{name}</b>{balls}{length}</div></li>"
    )


def _picture(picture: Picture, pictures: Mapping[str, bytes]) -> str:
    """A picture within the page."""
    data = base64.b64encode(pictures[picture.file]).decode()
    kind = picture.file.rpartition(".")[2].replace("jpg", "jpeg").replace("svg", "svg+xml")
    return f'<img src="data:image/{kind};base64,{data}" alt="{escape(picture.alt)}">'


def _foot(contents: Contents) -> Iterator[str]:
    stamp = contents.stamp
    rights = stamp.rights or (f"© {stamp.designer}" if stamp.designer else "")
    corrections = f"Corrections: {stamp.corrections}" if stamp.corrections else ""
    yield '<footer class="wrap">'
    for said in filter(None, (rights, corrections)):
        yield f"<p>{escape(said)}</p>"
    yield "</footer>"


def _data(made: PageMade) -> dict[str, object]:
    """What the script of the page chooses from."""
    first, *others = made.versions
    data: dict[str, object] = {
        "first": "-".join(first[0]),
        "other": {
            "-".join(key): "\n".join(body(contents, made.pictures))
            for key, contents in others
        },
    }
    if made.widths is not None:
        data["widths"] = [
            [one.mm, one.repeats, one.chain, one.stitches, *one.balls]
            for one in made.widths.widths
        ]
        data["each"] = made.widths.each
        data["stays"] = made.widths.stays
        data["yarns"] = [shade.letter or shade.name for shade in first[1].shades]
    return data


def _json(value: object) -> str:
    """JSON that may stand in a page: no sign in it ends the element around it."""
    said = json.dumps(value, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return said.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")
