"""What happens where there is no Chromium."""

from __future__ import annotations

import pytest

from tests.browser.conftest import without_chromium


@pytest.mark.parametrize(
    ("ci", "ends"), [("true", pytest.fail.Exception), ("", pytest.skip.Exception)], ids=["ci", "own machine"]
)
def test_a_missing_browser_fails_only_in_ci(
    monkeypatch: pytest.MonkeyPatch, ci: str, ends: type[BaseException]
) -> None:
    """Where CI is set it is a failure; on a developer's own machine the tests are skipped with the reason."""
    monkeypatch.setenv("CI", ci)
    with pytest.raises(ends, match="install the package chromium"):
        without_chromium()
