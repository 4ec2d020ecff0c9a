"""The page for a blog, looked at in a real browser.

Accessibility is judged by axe-core against WCAG 2.2 A and AA and its best practice. The
browser is Debian's chromium; without it these tests are left out, and fail where CI is set.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from examples_checked import example
from released import STAMP, put_out, released, waves

from hookwright.checking import check
from hookwright.reading.markdown import markdown_draft
from hookwright.release.widths import own_widths

playwright = pytest.importorskip("playwright.sync_api")

AXE = (Path(__file__).parent / "vendor" / "axe.min.js").read_text("utf-8")
RULES = "['wcag2a','wcag2aa','wcag21aa','wcag22aa','best-practice']"
CHROMIUM = shutil.which("chromium")
FLAGS = ["--no-sandbox", "--disable-background-networking", "--disable-component-update"]


@pytest.fixture(scope="module")
def browser() -> Iterator[object]:
    if CHROMIUM is None:
        if os.environ.get("CI"):
            pytest.fail(
                "There is no chromium, which continuous integration has to install."
            )
        pytest.skip("There is no chromium: apt-get install chromium")
    with playwright.sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def page_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file: Path = tmp_path_factory.mktemp("page") / "ebb-runner.html"
    file.write_bytes(released("")["ebb-runner.html"].data)
    return file


def shown(browser, file: Path, width: int = 1280, theme: str = "light"):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN201
    """A page of its own, with what it asked for and complained of."""
    context = browser.new_context(
        viewport={"width": width, "height": 800}, color_scheme=theme, bypass_csp=True
    )
    page = context.new_page()
    page.asked, page.complaints = [], []
    page.on("request", lambda request: page.asked.append(request.url))
    page.on("console", lambda message: page.complaints.append(message.text))
    page.on("pageerror", lambda error: page.complaints.append(str(error)))
    page.goto(file.as_uri())
    return page


@pytest.mark.parametrize("width", [1280, 390])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing_and_nothing_runs_over_the_side(
    browser: object, page_file: Path, width: int, theme: str
) -> None:
    page = shown(browser, page_file, width, theme)
    page.evaluate(AXE)
    found = page.evaluate(f"axe.run({{runOnly: {RULES}}})")
    assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []
    assert len(found["passes"]) > 20
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.complaints == []


def test_the_page_asks_nothing_of_anybody(browser: object, page_file: Path) -> None:
    page = shown(browser, page_file)
    assert [url for url in page.asked if not url.startswith(("file:", "data:"))] == []


def test_a_chosen_size_shows_its_numbers_alone(browser: object, page_file: Path) -> None:
    page = shown(browser, page_file)
    assert "ch 50 (100)" in page.inner_text("main").replace("\u00a0", " ")
    page.check("input[name=size][value='1']")
    said = page.inner_text("main").replace("\u00a0", " ")
    assert "ch 100" in said
    assert "98 dc" in said
    assert "50 (100)" not in said
    page.check("input[name=size][value='']")
    assert "50 (100)" in page.inner_text("main").replace("\u00a0", " ")


def test_other_terms_and_words_in_full_are_there_without_a_server(
    browser: object, page_file: Path
) -> None:
    page = shown(browser, page_file)
    page.check("input[name=terms][value=UK]")
    assert "Tr in 4th ch from hook" in page.inner_text("main").replace("\u00a0", " ")
    assert page.evaluate("document.documentElement.lang") == "en-GB"
    page.check("input[name=form][value=long]")
    assert "Treble crochet in 4th chain" in page.inner_text("main").replace("\u00a0", " ")
    page.check("input[name=terms][value=US]")
    page.check("input[name=form][value=short]")
    assert "Dc in 4th ch from hook" in page.inner_text("main").replace("\u00a0", " ")


def test_a_colour_of_ones_own_paints_the_stripes(browser: object, page_file: Path) -> None:
    page = shown(browser, page_file)
    page.fill("input[data-yarn='--yarn-a']", "#ff8800")
    page.dispatch_event("input[data-yarn='--yarn-a']", "change")
    bar = page.eval_on_selector(
        ".row .bar:not(.none)", "e => getComputedStyle(e).backgroundColor"
    )
    assert bar == "rgb(255, 136, 0)"


def test_a_width_of_ones_own_is_answered_from_the_table(
    browser: object, tmp_path: Path
) -> None:
    file = tmp_path / "throw.html"
    file.write_bytes(released("turnstone-wave-throw")["turnstone-wave-throw.html"].data)
    page = shown(browser, file)
    page.fill("#width", "44 in")
    # By hand: a wave is 11.5 cm, 10 waves 115 cm, 9 waves 103.5 cm; 44 in is 111.8 cm.
    assert page.inner_text("#answer").startswith("10 repeats make")
    assert "ch 202" in page.inner_text("#answer")  # 10 x 20 + 2
    assert "201 stitches" in page.inner_text("#answer")
    page.fill("#width", "nonsense")
    assert page.inner_text("#answer") == ""


def test_without_its_script_the_page_is_the_whole_pattern(
    browser: object, page_file: Path
) -> None:
    context = browser.new_context(java_script_enabled=False)  # type: ignore[attr-defined]
    page = context.new_page()
    page.goto(page_file.as_uri())
    assert "Row 2" in page.inner_text("main").replace("\u00a0", " ")
    assert not page.is_visible("#choose")


def test_a_script_of_a_pattern_is_words_on_the_page(
    browser: object, tmp_path: Path
) -> None:
    bad = "<script>document.title='taken'</script><img src=x onerror=alert(1)>"
    text = f"# Net {bad}\n\n{bad}\n\n## Net\n\nCh 5.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. {bad} (4 sc)\n"
    made = put_out(check(markdown_draft(text, "pattern.md")))
    name = next(name for name in made if name.endswith(".html"))
    file = tmp_path / "net.html"
    file.write_bytes(made[name].data)
    page = shown(browser, file)
    assert "taken" not in page.title().split("</script>")[-1] or page.title() != "taken"
    assert page.title() != "taken"
    assert bad in page.inner_text("h1")
    assert [url for url in page.asked if not url.startswith(("file:", "data:"))] == []
    assert page.complaints == []


def test_the_table_of_widths_follows_the_multiple() -> None:
    widths = own_widths(example("turnstone-wave-throw"))
    assert widths is not None
    for one in widths.widths:  # the pattern says: 20 + 2 chains, 20 + 1 stitches
        assert one.chain == 20 * one.repeats + 2
        assert one.stitches == 20 * one.repeats + 1
        assert abs(one.mm - 115 * one.repeats) <= 10  # a wave is 11.5 cm
    assert widths.stays


def test_a_garment_offers_no_width_of_ones_own() -> None:
    assert own_widths(example("skerry-yoke-tee")) is None


def test_machines_are_told_the_rows_as_steps() -> None:
    from hookwright.release.contents import contents_of  # noqa: PLC0415
    from hookwright.release.schema_data import schema_data  # noqa: PLC0415
    from hookwright.release.texts import Text  # noqa: PLC0415

    data = schema_data(contents_of(Text(waves()), STAMP))
    assert data["@context"] == "https://schema.org"
    assert data["@type"] == "HowTo"
    steps: Any = data["step"]
    (section,) = steps
    assert [step["@type"] for step in section["itemListElement"]] == ["HowToStep"] * 3
    assert section["itemListElement"][1]["name"].startswith("Row")
