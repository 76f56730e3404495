"""How long after a key the mark beside its line has changed, measured in a real browser.

    python benchmarks/desk_latency.py             measure and write measurements/desk_latency.json
    python benchmarks/desk_latency.py --soak      2,000 edits, and what the memory does meanwhile
    python benchmarks/desk_latency.py --page      render docs/desk.md from what was measured

A recipe of 20 lines of our own, of which one amount is typed over and over. Each time runs from
the key's own time stamp to the frame in which the changed mark is painted. Wanted: below 100 ms
in 95 of 100 keys, at rest and while typing goes on.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter, sleep
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from playwright.sync_api import Page, sync_playwright

HERE = Path(__file__).parent
MEASUREMENTS = HERE / "measurements" / "desk_latency.json"
PAGE = HERE.parent / "docs" / "desk.md"
TEMPLATE = "desk_page.md.j2"
KEYS = 120
SOAK = 2000
RECIPE = """# Root and barley pot

Serves 4

## Ingredients

- 2 tbsp rapeseed oil
- 2 onions, chopped
- 3 carrots, in coins
- 200 g celeriac, diced
- 1 leek, sliced
- 3 cloves garlic
- 150 g pearl barley
- 400 g tin chopped tomatoes
- 1 litre vegetable stock
- 1 tsp thyme
- 2 bay leaves
- 240 g kidney beans, drained
- 100 g spinach
- 30 g butter
- 50 g hard cheese, grated
- a handful of parsley
- salt and pepper

## Method

1. Fry the onions, carrots and celeriac in the oil for 10 minutes.
2. Add the rest but the spinach, bring to the boil, cover and simmer for 40 minutes.
3. Stir in the spinach, butter and cheese and rest for 5 minutes.
"""
WATCH = """() => {
  const took = []; let pressed = 0;
  window.took = took;
  const area = document.getElementById('text');
  area.addEventListener('keydown', (event) => { if (!pressed) pressed = event.timeStamp; }, true);
  new MutationObserver((all) => {
    if (!pressed || !all.some((one) => one.target.closest?.('.read'))) return;
    const begun = pressed; pressed = 0;
    const painted = new MessageChannel();
    painted.port1.onmessage = () => took.push(performance.now() - begun);
    requestAnimationFrame(() => painted.port2.postMessage(0));
  }).observe(document.getElementById('lines'), { childList: true, subtree: true });
}"""


def percentile(times: list[float], share: float) -> float:
    """Return the time below which a share of times lies."""
    return sorted(times)[min(len(times) - 1, int(share * len(times)))]


def put_up(place: Path) -> tuple[subprocess.Popen[str], str]:
    """Start the desk on a file or folder; return the process and the address that it prints."""
    command = [sys.executable, "-m", "counterproof", "desk", str(place)]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)  # noqa: S603 (our own)
    assert process.stderr is not None
    for line in process.stderr:
        if found := re.search(r"http://\S+", line):
            return process, found[0]
    raise SystemExit("the desk did not start")


def opened(page: Page, address: str) -> float:
    """Open the desk and put the caret behind the barley's amount; return seconds to the proof."""
    begun = perf_counter()
    page.goto(address)
    page.wait_for_selector("body[data-stage=pictured]", state="attached", timeout=30_000)
    seconds = perf_counter() - begun
    at = RECIPE.index("150 g pearl") + 3
    page.evaluate(f"() => {{ const a = document.getElementById('text'); a.focus(); a.setSelectionRange({at}, {at}); }}")  # fmt: skip
    return seconds


def typed(page: Page, keys: int, rest: float) -> list[float]:
    """Type a digit and take it back, again and again; return how long each mark took. [ms]"""
    page.evaluate("() => { window.took.length = 0; }")
    for at in range(keys):
        page.keyboard.press("5" if at % 2 == 0 else "Backspace")
        sleep(rest)
    sleep(1.0)
    return list(page.evaluate("() => window.took"))


def resident(pid: int) -> float:
    """Return the memory a process holds. [MB]"""
    told = Path(f"/proc/{pid}/status").read_text(encoding="utf-8")
    found = re.search(r"VmRSS:\s+(\d+) kB", told)
    return int(found[1]) / 1000.0 if found else float("nan")


def summary(times: list[float]) -> dict[str, float]:
    """Return what is printed of some times."""
    shares = {"p50_ms": 0.5, "p95_ms": 0.95, "p99_ms": 0.99}
    return {name: round(percentile(times, share), 1) for name, share in shares.items()} | {
        "marks": len(times)
    }


def rendered(told: dict[str, Any]) -> str:
    """Return the page with what was measured in it."""
    pages = Environment(
        loader=FileSystemLoader(HERE),
        undefined=StrictUndefined,
        trim_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 (Markdown of our own, from numbers of our own)
    )
    lines = sum(line.startswith(("- ", "1.", "2.", "3.")) for line in RECIPE.splitlines())
    return pages.get_template(TEMPLATE).render(lines=lines, **told)


def main() -> None:
    """Measure, print, write."""
    if "--page" in sys.argv:
        PAGE.write_text(rendered(json.loads(MEASUREMENTS.read_text("utf-8"))), encoding="utf-8")
        return
    soak = "--soak" in sys.argv
    found: dict[str, Any] = {}
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        recipe = Path(folder) / "recipe.md"
        recipe.write_text(RECIPE, encoding="utf-8")
        desk, address = put_up(recipe)
        place = shutil.which("chromium") or playwright.chromium.executable_path
        browser = playwright.chromium.launch(executable_path=place, args=["--no-sandbox"])
        try:
            page = browser.new_page(viewport={"width": 1280, "height": 1000})
            sleep(3.0)  # the first recipe is worked out as the desk starts
            found["first_proof_s"] = round(opened(page, address), 2)
            page.evaluate(WATCH)
            typed(page, 20, 0.3)
            if soak:
                held = [resident(desk.pid)]
                for _ in range(8):
                    typed(page, SOAK // 8, 0.06)
                    held.append(resident(desk.pid))
                found = {"edits": SOAK, "resident_mb": [round(one, 1) for one in held]}
            else:
                found["at_rest"] = summary(typed(page, KEYS, 0.8))
                found["while_typing"] = summary(typed(page, KEYS, 0.13))
                found["machine"] = {"cores": os.cpu_count(), "busy": round(os.getloadavg()[0], 1)}
        finally:
            browser.close()
            desk.terminate()
            desk.wait(10)
    told = json.loads(MEASUREMENTS.read_text(encoding="utf-8")) if MEASUREMENTS.exists() else {}
    told.update({"soak": found} if soak else found)
    MEASUREMENTS.write_text(json.dumps(told, indent=2) + "\n", encoding="utf-8")
    PAGE.write_text(rendered(told), encoding="utf-8")
    print(json.dumps(found, indent=2))


if __name__ == "__main__":
    main()
