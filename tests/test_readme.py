"""The README's examples are run as written, and their output is held against what it prints."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
CONSOLE = re.findall(r"```console\n(.*?)```", README, re.DOTALL)
PYTHON = re.findall(r"```python\n(.*?)```", README, re.DOTALL)


def examples(block: str) -> list[tuple[str, list[str], int]]:
    """The commands of a block, each with the lines it should print and its exit status."""
    found: list[tuple[str, list[str], int]] = []
    lines = iter(block.splitlines())
    for line in lines:
        if line.startswith("$ "):
            command = line[2:]
            while command.endswith("\\"):
                command = command[:-1] + next(lines).strip()
            found.append((command, [], 0))
        elif status := re.fullmatch(r"\[exit status (\d+)\]", line):
            found[-1] = (*found[-1][:2], int(status[1]))
        elif found:
            found[-1][1].append(line)
    return found


EXAMPLES = [example for block in CONSOLE for example in examples(block)]


@pytest.fixture(scope="module", name="workplace")
def _workplace(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the files that the README shows and a demo catalogue of its own."""
    folder = tmp_path_factory.mktemp("readme")
    for command, lines, _ in EXAMPLES:
        if command.startswith("cat "):
            (folder / command.removeprefix("cat ")).write_text("\n".join(lines) + "\n", encoding="utf-8")
    shutil.copytree(ROOT / "seed_data" / "sheets", folder / "seed_data" / "sheets")
    run("borebook demo", folder)
    return folder


def run(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run a shell command as a reader would, with the project's own command on the path."""
    bin_folder = Path(sys.executable).parent
    assert shutil.which("borebook", path=str(bin_folder)), "install the project first: make test does"
    environment = {
        **os.environ,
        "PATH": f"{bin_folder}{os.pathsep}{os.environ['PATH']}",
        "BOREBOOK_CATALOGUE": str(folder / "demo.sqlite"),
        "COLUMNS": "80",
        "NO_COLOR": "1",
        "PYTHONIOENCODING": "utf-8",
    }
    return subprocess.run(
        ["sh", "-c", command],
        cwd=folder,
        env=environment,
        capture_output=True,
        encoding="utf-8",
        timeout=120,
        check=False,
    )


@pytest.mark.parametrize(("command", "lines", "status"), EXAMPLES, ids=[one[0][:60] for one in EXAMPLES])
def test_console_example_prints_what_the_readme_shows(
    command: str, lines: list[str], status: int, workplace: Path
) -> None:
    """A command of the README ends with its status and prints its lines; a line of dots stands for more."""
    result = run(command, workplace)
    expected = "\n".join(lines).strip("\n")
    pattern = ".*?".join(re.escape(piece) for piece in re.split(r"^\.\.\.$", expected, flags=re.M))
    assert result.returncode == status, result.stderr
    assert re.fullmatch(pattern, result.stdout.strip("\n"), re.DOTALL), result.stdout


@pytest.mark.parametrize("code", PYTHON, ids=lambda code: code.splitlines()[0])
def test_python_example_prints_what_its_comment_says(code: str) -> None:
    """The Python example runs and prints the word behind its last comment."""
    result = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, timeout=120, check=True
    )
    assert result.stdout.strip() == code.rstrip().rpartition("# ")[2]


def test_every_command_is_in_the_readme() -> None:
    """No command is left out of the README."""
    from catalogue.cli.main import COMMANDS

    missing = [name for name in COMMANDS if f"borebook {name}" not in README]
    assert missing == []
