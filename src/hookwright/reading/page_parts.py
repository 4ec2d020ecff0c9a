"""Which parts of a web page are not the pattern.

Elements say so by their name or role; the rest is told from the class and id that page
makers give to comments, side columns, share buttons and the like.
"""

from __future__ import annotations

from collections.abc import Collection

from hookwright.regex import regex

Attributes = list[tuple[str, str | None]]

NO_WORDS = ""
"""Scripts, forms' fields and other things that hold no words of a page."""
STRUCK_OUT = "words struck out"

_UNREAD = {
    "head": NO_WORDS,
    "title": NO_WORDS,
    "script": NO_WORDS,
    "style": NO_WORDS,
    "template": NO_WORDS,
    "noscript": NO_WORDS,
    "iframe": NO_WORDS,
    "object": NO_WORDS,
    "svg": NO_WORDS,
    "math": NO_WORDS,
    "canvas": NO_WORDS,
    "audio": NO_WORDS,
    "video": NO_WORDS,
    "map": NO_WORDS,
    "select": NO_WORDS,
    "button": NO_WORDS,
    "textarea": NO_WORDS,
    "nav": "menus",
    "header": "the page's head",
    "footer": "the page's foot",
    "aside": "side columns",
    "form": "forms",
    "dialog": "pop-ups",
    "del": STRUCK_OUT,
    "s": STRUCK_OUT,
    "strike": STRUCK_OUT,
}
_UNREAD_ROLES = {
    "navigation": "menus",
    "banner": "the page's head",
    "contentinfo": "the page's foot",
    "complementary": "side columns",
    "search": "forms",
}
_BESIDE = {
    "ad": "advertisements",
    "ads": "advertisements",
    "advert": "advertisements",
    "advertisement": "advertisements",
    "breadcrumb": "menus",
    "breadcrumbs": "menus",
    "comment": "readers' comments",
    "commentlist": "readers' comments",
    "comments": "readers' comments",
    "cookie": "cookie notices",
    "cookies": "cookie notices",
    "menu": "menus",
    "newsletter": "newsletter boxes",
    "pagination": "menus",
    "popup": "pop-ups",
    "related": "links to other pages",
    "relatedposts": "links to other pages",
    "share": "share buttons",
    "sharing": "share buttons",
    "sidebar": "side columns",
    "social": "share buttons",
    "subscribe": "newsletter boxes",
}
_NEVER_BESIDE = frozenset({"html", "body", "main", "article"})
# "has-sidebar" and "comments-closed" tell of the page, they do not name a part of it.
_TELLING_FIRST = frozenset({"has", "with", "no", "without", "is", "not", "show", "hide"})
_TELLING_LAST = frozenset(
    {"open", "closed", "off", "on", "enabled", "disabled", "count", "link", "number"},
)
_NAME_WORD = regex(r"[A-Z]?[a-z]+|[A-Z]+")


def unread_part(tag: str, attrs: Attributes, around: Collection[str]) -> str | None:
    """What an element is, if it is not part of the pattern, in a word or two; else None.

    Args:
        tag: The element's name.
        attrs: Its attributes.
        around: The names of the elements that it stands in.
    """
    is_article_head = tag == "header" and ("article" in around or "main" in around)
    if tag in _UNREAD and not is_article_head:
        return _UNREAD[tag]
    return None if tag in _NEVER_BESIDE else _part_by_name(attrs)


def _part_by_name(attrs: Attributes) -> str | None:
    named = {key: value or "" for key, value in attrs if key in {"role", "class", "id"}}
    if named.get("role") in _UNREAD_ROLES:
        return _UNREAD_ROLES[named["role"]]
    for name in f"{named.get('class', '')} {named.get('id', '')}".split():
        words = [word.lower() for word in _NAME_WORD.findall(name)]
        if not words or words[0] in _TELLING_FIRST or words[-1] in _TELLING_LAST:
            continue
        for word in words:
            if word in _BESIDE:
                return _BESIDE[word]
    return None
