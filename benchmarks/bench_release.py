"""How long does a release take, from cold and after one word was changed?

A blanket in eight colours, written for three sizes, is put out in a process of its own,
then again with a word of a note changed. Beside it stands the same text set bare by typst,
once, in a process of its own: no contents, no tags, no wording, no pictures.

Wall clock and processor seconds are told; the second do not depend on what else runs. The
modules are compiled beforehand, as those of an installed program are.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

EXAMPLE = Path(__file__).parents[1] / "examples" / "low-water-blanket"
_COLD, _EDIT = 5.0, 1.5
"""What is aimed at, in seconds."""

THREE_SIZES = """
import sys
from pathlib import Path
from hookwright.checking import check
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.reading.markdown import as_markdown
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.rewriting import rewritten
from hookwright.sizing.sized import Request, size_pattern
from hookwright.sizing.to_write import sizes_to_write
source = check(draft_at(sys.argv[1]), None, worksheet_at(sys.argv[1]))
sized = size_pattern(source, multiples_of(source), Request())
text = rewritten(source, sizes_to_write(sized))
assert text.checked is not None, [finding.message for finding in text.open]
Path(sys.argv[2], "pattern.md").write_text(as_markdown(text.checked.draft), "utf-8")
"""
BARE = """
import sys, typst
words = open(sys.argv[1], encoding="utf-8").read()
typst.compile(b"#sys.inputs.words", format="pdf", sys_inputs={"words": words})
"""


def timed(*command: str, compiled: Path) -> tuple[float, float]:
    """Wall clock and processor seconds of a process, its modules compiled in a folder."""
    import resource  # noqa: PLC0415 - not on every system

    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    own = {**kept, "PYTHONPYCACHEPREFIX": str(compiled)}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.perf_counter()
    full = [sys.executable, *command]
    subprocess.run(full, check=True, stdout=subprocess.DEVNULL, env=own)
    wall = time.perf_counter() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    used = (after.ru_utime - before.ru_utime) + (after.ru_stime - before.ru_stime)
    return wall, used


def main() -> None:
    """Prints the table."""
    with tempfile.TemporaryDirectory() as made:
        project, compiled = Path(made) / "blanket", Path(made) / "compiled"
        shutil.copytree(EXAMPLE, project)
        timed("-c", THREE_SIZES, str(EXAMPLE), str(project), compiled=compiled)
        release = ("-m", "hookwright", "release", str(project), "--date", "2026-11-25")
        timed(*release, "-o", str(Path(made) / "elsewhere"), compiled=compiled)
        bare = timed("-c", BARE, str(project / "pattern.md"), compiled=compiled)
        cold = timed(*release, compiled=compiled)
        pattern = project / "pattern.md"
        text = pattern.read_text("utf-8")
        assert "Weave in all ends" in text
        pattern.write_text(text.replace("Weave in all ends", "Sew in all ends"), "utf-8")
        edit = timed(*release, compiled=compiled)
    print("what                            wall s   processor s   x bare   aim s")
    for name, (wall, used), aim in (
        ("the text set bare by typst", bare, None),
        ("three sizes, eight colours, cold", cold, _COLD),
        ("again with a word changed", edit, _EDIT),
    ):
        told = f"{aim:7.1f}" if aim else ""
        print(f"{name:32}{wall:7.2f} {used:13.2f} {used / bare[1]:8.1f} {told}")


if __name__ == "__main__":
    main()
