"""The page on its first run, by keys, in large type, on a phone and to a screen reader.

Accessibility is judged by axe-core: the rules of WCAG 2.0 to 2.2, levels A and AA, and its
best practices.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from desk_served import Served, served
from playwright.sync_api import Page, expect
from sand_bar import PATTERN, Opens, place, seen, text_of, until


def test_the_first_run_offers_the_shelf(window: Opens, tmp_path: Path) -> None:
    with served(tmp_path / "new") as desk:
        watched = window(desk.page)
        page = watched.page
        page.get_by_role("button", name="moss").first.wait_for()
        assert watched.violations() == []
        page.get_by_role("button", name="moss").first.click()
        seen(page)
        expect(page.locator(".head h1")).to_have_text("Moss Stitch")
        until((tmp_path / "new" / "worksheet.toml").exists)
        assert watched.said == []


def test_her_own_draft_is_laid_on_the_page(window: Opens, tmp_path: Path) -> None:
    draft = tmp_path / "bar.html"
    draft.write_text(
        "<h1>Bar</h1><p>Ch 10.</p><p>Row 1: Sc in 2nd ch from hook and in each ch across. (8 sc)</p>",
        "utf-8",
    )
    with served(tmp_path / "new") as desk:
        watched = window(desk.page)
        watched.page.locator("input[type=file]").set_input_files(draft)
        seen(watched.page)
        expect(watched.page.locator(".slip").first).to_have_text("(8 sc)")
        until((tmp_path / "new" / "pattern.md").exists)
        assert "(8 sc)" in text_of(tmp_path / "new")


def test_without_the_secret_the_page_says_so(window: Opens, desk: Served) -> None:
    watched = window(f"{desk.here}/")
    expect(watched.page.get_by_role("heading")).to_have_text("The desk is not open here")
    assert watched.violations() == []


PLACES = (
    "Swatch", "Sizes", "Colours", "Yarn", "Edging", "Lesson", "Testers", "Answers",
    "Corrections", "Costs", "Release",
)  # fmt: skip


def states(page: Page) -> Iterator[str]:
    """Bring the page from state to state."""
    yield "writing"
    page.locator(".cm-content").click()
    page.keyboard.press("F8")
    yield "a note"
    page.keyboard.press("Escape")
    page.keyboard.press("F2")
    yield "a word"
    for view in ("Chart", "Schematic", "Stripes", "Table", "Fabric"):
        page.get_by_role("button", name=view, exact=True).click()
        page.wait_for_selector(".empty", state="detached")
        yield view
    for name in PLACES:
        place(page, name)
        yield name
    page.locator(".head .saved").click()
    yield "earlier versions"
    page.keyboard.press("Control+/")
    yield "the keys"
    page.keyboard.press("Escape")
    page.get_by_role("button", name="UK terms").click()
    page.locator(".worded .reading p").first.wait_for()
    yield "the other terms"


@pytest.mark.parametrize(("theme", "width"), [("light", 1280), ("dark", 390)])
def test_nobody_is_kept_from_using_it(
    window: Opens, desk: Served, project: Path, theme: str, width: int
) -> None:
    assert text_of(project) == PATTERN
    watched = window(desk.page, width, 844, theme)
    seen(watched.page)
    for state in states(watched.page):
        assert (state, watched.violations()) == (state, [])
        assert (state, watched.scrolls_sideways()) == (state, False)
    assert watched.said == []


@pytest.mark.parametrize(("theme", "width"), [("dark", 1280), ("light", 390)])
def test_everything_can_be_told_from_its_ground(
    window: Opens, desk: Served, project: Path, theme: str, width: int
) -> None:
    assert text_of(project) == PATTERN
    watched = window(desk.page, width, 844, theme)
    seen(watched.page)
    for state in states(watched.page):
        assert (state, watched.violations(["color-contrast"])) == (state, [])
        assert (state, watched.scrolls_sideways()) == (state, False)


def test_all_of_a_place_is_reached_on_a_phone(window: Opens, desk: Served) -> None:
    page = window(desk.page, 390, 844).page
    seen(page)
    place(page, "Answers")
    page.get_by_role("button", name="As a page").click()
    expect(page.locator(".buttons [role=status]").last).to_contain_text(
        "-help.html is made"
    )


def test_large_type_on_a_small_screen_scrolls_no_way_but_down(
    window: Opens, desk: Served
) -> None:
    watched = window(desk.page, 320, 640)
    page = watched.page
    seen(page)
    for _ in range(2):
        page.get_by_role("button", name="Larger type").click()
        assert not watched.scrolls_sideways()
    for name in PLACES:
        place(page, name)
        assert (name, watched.scrolls_sideways()) == (name, False)
