"""One browser and one desk for all that is done on its page."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from desk_browser import Watched, chromium, opened
from desk_served import Served, served
from playwright.sync_api import Browser, Page
from sand_bar import seen, write


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    # One desk for all pages: its processes are as quick as they are for whoever works on.
    folder = tmp_path_factory.mktemp("desk") / "sand-bar"
    folder.mkdir()
    with served(folder) as found:
        yield found


@pytest.fixture
def project(desk: Served) -> Path:
    """The folder of the desk as it was at first."""
    shutil.rmtree(desk.folder / "earlier", ignore_errors=True)
    write(desk.folder)
    return desk.folder


@pytest.fixture
def page(browser: Browser, desk: Served, project: Path) -> Iterator[Page]:
    assert project == desk.folder
    watched = opened(browser, desk.page)
    seen(watched.page)
    yield watched.page
    watched.page.context.close()
    assert watched.said == []


@pytest.fixture
def window(browser: Browser) -> Iterator[Callable[..., Watched]]:
    """Opens further windows, and closes them."""
    windows: list[Watched] = []

    def another(
        url: str, width: int = 1280, height: int = 800, theme: str = "light"
    ) -> Watched:
        windows.append(opened(browser, url, width, height, theme))
        return windows[-1]

    yield another
    for one in windows:
        one.page.context.close()
