// Pencil notes: what there is to say of a study, each with its place.

import { $, h, roving } from "./dom.js";

export class Margin {
  constructor(onPoint) {
    this.list = $("remarks");
    this.settle = roving(this.list);
    this.onPoint = onPoint;
  }

  show(findings, unshown) {
    const shown = JSON.stringify([findings, unshown]);
    if (shown === this.shown) return;
    this.shown = shown;
    const held = [...this.list.querySelectorAll("button")].indexOf(document.activeElement);
    $("clean").hidden = findings.length > 0;
    this.list.replaceChildren(...findings.map((each) => h("li", {}, this.remark(each))));
    if (unshown) this.list.append(h("li", { className: "hint" }, `and ${unshown} more`));
    this.settle();
    if (held >= 0) this.list.querySelectorAll("button")[Math.min(held, findings.length - 1)]?.focus();
  }

  remark(finding) {
    const kind = finding.severity === "error" ? "Error" : "Advice";
    const more = [finding.label, finding.expected && `Expected: ${finding.expected}`, finding.suggestion && `Did you mean ${finding.suggestion}?`, finding.help];
    const said = more.filter(Boolean).join("\n");
    return h(
      "button",
      { type: "button", className: `remark ${finding.severity}`, onclick: () => this.onPoint(finding) },
      h("b", {}, `${kind} ${finding.code}, line ${finding.start.line}. `),
      finding.headline,
      said ? h("span", { className: "more" }, said) : null,
    );
  }
}
