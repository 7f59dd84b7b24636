"""The morning page as one HTML file: no script, nothing fetched, fit for the printer."""

from html import escape
from pathlib import Path
from typing import Any

from inventory.cli import show
from inventory.store.files import folder_is_there, whole_file

STYLE = """
:root{--ink:#20262b;--soft:#5c676f;--line:#d5dadd;--bar:#3c7a6b;--warn:#9a4a12;--paper:#fdfcf9}
*{box-sizing:border-box}body{margin:0 auto;max-width:60rem;padding:1.5rem;background:var(--paper);
color:var(--ink);font:16px/1.45 system-ui,sans-serif}h1{font-size:1.5rem;margin:0 0 .25rem}
h2{font-size:1.05rem;margin:1.6rem 0 .4rem;border-bottom:2px solid var(--line);padding-bottom:.2rem}
p{margin:.3rem 0}.soft{color:var(--soft)}table{border-collapse:collapse;width:100%}
th,td{text-align:left;padding:.3rem .5rem;border-bottom:1px solid var(--line);vertical-align:top}
td.n,th.n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}
td.m{overflow-wrap:anywhere}.warn{color:var(--warn);font-weight:600}
.bar{display:block;height:.8rem;background:var(--bar);min-width:2px}
.cols{display:grid;grid-template-columns:1fr 1fr;gap:1.5rem}
@media(max-width:640px){.cols{grid-template-columns:1fr}body{padding:.8rem}}
@media print{body{max-width:none;padding:0;background:#fff;font-size:11pt}
h2{break-after:avoid}tr{break-inside:avoid}.bar{print-color-adjust:exact}}
"""


def write_page(found: Any, path: Path, *, dry_run: bool = False) -> None:
    """Write the page beside its place and move it there when it is whole."""
    if dry_run:
        folder_is_there(path)
        return
    with whole_file(path) as draft:
        draft.write_text(page(found), encoding="utf-8")


def page(found: Any) -> str:
    """The whole page."""
    body = [
        f"<h1>The shelf on {_text(found.at[:10])}</h1>",
        _used(found),
        _short(found.short),
        _failing(found.failing),
        _jobs(found.jobs),
        _holds(found.holds),
        '<div class="cols">',
        _bars("Untested pile, pieces", found.untested, str),
        _bars("Good stock, value at the last known price", found.value, show.money),
        "</div>",
        '<p class="soft">Untested pieces are never counted as good. Unplug and discharge before'
        " you test; the maker's service sheet leads.</p>",
    ]
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; '
        "style-src 'unsafe-inline'\">"
        f"<title>The shelf on {_text(found.at[:10])}</title><style>{STYLE}</style></head><body>"
        + "\n".join(body)
        + "</body></html>\n"
    )


def _text(value: object) -> str:
    """A datum as it may stand in a page: controls made visible, then escaped."""
    return escape(show.safe(value), quote=True)


def _table(heads: list[str], rows: list[list[object]], numbers: set[int]) -> str:
    """A table; ``numbers`` are the columns set to the right."""
    kind = ["n" if index in numbers else "m" for index in range(len(heads))]
    head = "".join(f'<th class="{k}">{_text(h)}</th>' for k, h in zip(kind, heads, strict=True))
    body = "".join(
        "<tr>"
        + "".join(f'<td class="{k}">{_text(c)}</td>' for k, c in zip(kind, row, strict=True))
        + "</tr>"
        for row in rows
    )
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def _used(found: Any) -> str:
    """Pieces used, month by month, as words and bars in a row."""
    if not found.used:
        return '<p class="soft">Nothing was used yet.</p>'
    top = max(pieces for _, pieces in found.used) or 1
    bars = "".join(
        f'<rect x="{index * 22}" y="{60 - 56 * pieces / top:.1f}" width="18"'
        f' height="{56 * pieces / top:.1f}" fill="#3c7a6b">'
        f"<title>{_text(month)}: {pieces}</title></rect>"
        for index, (month, pieces) in enumerate(found.used)
    )
    last = found.used[-1]
    return (
        f'<p class="soft">Pieces used a month, {_text(found.used[0][0])} to {_text(last[0])}'
        f" (last: {last[1]})</p>"
        f'<svg role="img" aria-label="pieces used a month" width="{22 * len(found.used)}"'
        f' height="60">{bars}</svg>'
    )


def _short(lines: Any) -> str:
    """What runs short and what to do."""
    title = f"<h2>Runs short: {len(lines)} part types</h2>"
    rows: list[list[object]] = [
        [
            line.name,
            line.position,
            line.untested,
            line.keep_at_least,
            f"{line.per_month:.2f}",
            f"{line.p_run_out:.0%}",
            " ".join(action.sentence for action in line.actions),
        ]
        for line in lines
    ]
    heads = ["Part", "There", "Untested", "Keep", "A month", "Runs out", "Do"]
    return title + (_table(heads, rows, {1, 2, 3, 4, 5}) if rows else "<p>Nothing.</p>")


def _failing(lines: Any) -> str:
    """What fails more than its kind."""
    said = "".join(f'<p class="warn">! {_text(line.sentence())}</p>' for line in lines)
    return "<h2>Fails more than its kind</h2>" + (said or "<p>Nothing, so far.</p>")


def _jobs(jobs: Any) -> str:
    """Open repairs."""
    rows: list[list[object]] = [
        [
            job["job"],
            job["opened_at"][:10],
            " ".join(filter(None, (job["kind"], job["maker"], job["model"]))),
            job["complaint"] or "",
        ]
        for job in jobs
    ]
    title = f"<h2>Jobs open: {len(rows)}</h2>"
    return title + (_table(["Job", "Since", "Unit", "Complaint"], rows, {0}) if rows else "")


def _holds(holds: Any) -> str:
    """Old holds."""
    rows: list[list[object]] = [
        [hold["lot"], hold["marking"] or hold["type_code"] or hold["family"], hold["bin"] or "",
         hold["pieces"], hold["job"] or "", hold["since"][:10]]
        for hold in holds
    ]  # fmt: skip
    title = f"<h2>Held for more than a week: {len(rows)}</h2>"
    heads = ["Lot", "Part", "Bin", "Pieces", "Job", "Since"]
    return title + (_table(heads, rows, {0, 3, 4}) if rows else "")


def _bars(title: str, rows: Any, written: Any) -> str:
    """Amounts as bars with their figures."""
    top = max((value for _, value in rows), default=0) or 1
    body = "".join(
        f'<tr><td class="m">{_text(name)}</td><td style="width:50%"><span class="bar"'
        f' style="width:{100 * value / top:.1f}%"></span></td>'
        f'<td class="n">{_text(written(value))}</td></tr>'
        for name, value in rows
    )
    return f"<section><h2>{_text(title)}</h2><table>{body}</table></section>"
