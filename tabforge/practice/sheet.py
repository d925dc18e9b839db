"""How the page of a plan looks: a sheet of ruled paper by day, a dark one by night, plain black on white in print."""

from __future__ import annotations

from typing import Final

LIGHT: Final = {"ground": "#e4dccb", "paper": "#fbf7ec", "ink": "#26221b", "soft": "#5f574a", "rule": "#d8cdb4", "mark": "#7a2f1d"}
DARK: Final = {"ground": "#15171a", "paper": "#1f2328", "ink": "#ece6d8", "soft": "#b5ac9a", "rule": "#3b4148", "mark": "#f0a27e"}
PRINT: Final = {"ground": "#ffffff", "paper": "#ffffff", "ink": "#000000", "soft": "#333333", "rule": "#999999", "mark": "#000000"}
"""Colours of each sheet. Words are written in ``ink``, ``soft`` and ``mark`` on ``paper``."""


def _colours(of: dict[str, str]) -> str:
    return " ".join(f"--{name}: {value};" for name, value in of.items())


CSS: Final = f"""
:root {{ color-scheme: light dark; {_colours(LIGHT)} }}
@media (prefers-color-scheme: dark) {{ :root {{ {_colours(DARK)} }} }}
* {{ box-sizing: border-box; }}
body {{ margin: 0; padding: 1.5rem 1rem; background: var(--ground); color: var(--ink);
  font: 1rem/1.45 Charter, "Bitstream Charter", "Source Serif 4", Cambria, Georgia, serif; }}
main {{ max-width: 50rem; margin: 0 auto; padding: 2.2rem 2.4rem 2.6rem; background: var(--paper);
  border-left: 0.35rem double var(--mark); box-shadow: 0 0.15rem 0.9rem rgb(0 0 0 / 0.22); }}
h1 {{ margin: 0; font-size: 1.9rem; line-height: 1.15; }}
h2 {{ margin: 1.8rem 0 0.5rem; font-size: 1.2rem; color: var(--mark); border-bottom: 1px solid var(--rule); break-after: avoid; }}
h3 {{ margin: 1rem 0 0.2rem; font-size: 1rem; break-after: avoid; }}
h3 small {{ font-weight: normal; font-size: 0.9rem; color: var(--soft); }}
p {{ margin: 0.3rem 0; }}
.about {{ color: var(--soft); }}
ul {{ margin: 0.3rem 0; padding-left: 1.2rem; }}
.care {{ margin-top: 1rem; padding: 0.5rem 1rem 0.6rem; border: 1px solid var(--mark); }}
.care h2 {{ margin-top: 0; border: 0; }}
dl {{ display: grid; grid-template-columns: minmax(5.4rem, max-content) 1fr; gap: 0.15rem 1rem; margin: 0.3rem 0; }}
dt {{ color: var(--soft); font-style: italic; }}
dd {{ margin: 0; }}
section.day, .block {{ break-inside: avoid; }}
table {{ width: 100%; border-collapse: collapse; }}
th, td {{ padding: 0.32rem 0.7rem 0.32rem 0; text-align: left; vertical-align: top; font-weight: normal; }}
tr {{ border-bottom: 1px solid var(--rule); }}
thead th {{ color: var(--soft); font-size: 0.85rem; }}
th.min, td.min {{ width: 3.2rem; text-align: right; font-variant-numeric: tabular-nums; }}
tbody th {{ width: 27%; }}
td.listen {{ width: 18%; color: var(--soft); font-style: italic; }}
tr.between th, tr.between td {{ color: var(--soft); }}
tr.sum {{ border-bottom: 0; }}
tr.sum th, tr.sum td {{ font-weight: bold; }}
.rung {{ display: inline-block; margin-right: 0.9rem; white-space: nowrap; font-variant-numeric: tabular-nums; }}
.box {{ display: inline-block; width: 0.72em; height: 0.72em; margin-left: 0.22em; border: 1.2px solid var(--ink); }}
.line {{ display: inline-block; width: 9rem; border-bottom: 1px solid var(--ink); }}
code {{ font: 0.88rem/1.4 ui-monospace, "DejaVu Sans Mono", Menlo, Consolas, monospace; overflow-wrap: anywhere; }}
@media (max-width: 34rem) {{
  main {{ padding: 1.2rem 1rem; }}
  dl {{ display: block; }}
  td.listen, thead th.listen {{ display: none; }}
}}
@page {{ margin: 14mm 15mm; }}
@media print {{
  :root {{ {_colours(PRINT)} }}
  body {{ padding: 0; font-size: 10.5pt; }}
  main {{ max-width: none; padding: 0; border: 0; box-shadow: none; }}
  .box {{ border-width: 0.8pt; }}
}}
"""
"""No paper size: margins alone fit A4 and Letter. Nothing is loaded from elsewhere."""
