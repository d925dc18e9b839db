// The text of the study: lines that can be pointed at, or a draft that can be written.

import { $, h, Places, say } from "./dom.js";

export class Script {
  constructor(onDraft) {
    this.lines = $("lines");
    this.draft = $("draft");
    this.places = new Places("");
    this.draft.addEventListener("input", () => onDraft(this.draft.value));
  }

  show(text, name, draft) {
    $("script-name").textContent = draft ? "" : name;
    this.draft.hidden = $("draft-hint").hidden = !draft;
    this.lines.hidden = draft;
    if (draft && this.draft.value !== text) this.draft.value = text;
    if (text === this.places.text && !this.fresh) return;
    this.fresh = false;
    this.places = new Places(text);
    if (draft) return;
    const scroll = this.lines.scrollTop;
    const rows = text.replace(/\n$/, "").split("\n").map((words, number) => h("span", { className: "line", "data-line": number + 1 }, words || " "));
    this.lines.replaceChildren(...rows);
    this.lines.scrollTop = scroll;
  }

  /** The lines in which errors stand are marked. */
  wrong(findings) {
    const bad = new Set(findings.filter((each) => each.severity === "error").map((each) => each.start.line));
    [...this.lines.children].forEach((row, number) => row.classList.toggle("wrong", bad.has(number + 1)));
  }

  /** Show a place, offsets of characters: its line is brought into sight and marked. */
  point(start, end, tell = true) {
    const from = this.places.unit(start);
    const to = this.places.unit(end);
    const line = this.places.line(from);
    if (tell) say(`Line ${line}: ${this.places.words(line).trim()}`);
    if (!this.draft.hidden) {
      this.draft.focus({ preventScroll: true });
      this.draft.setSelectionRange(from, to);
      const height = parseFloat(getComputedStyle(this.draft).lineHeight) || 20;
      this.draft.scrollTop = Math.max(0, (line - 4) * height);
      return;
    }
    for (const row of this.lines.querySelectorAll(".at")) {
      row.classList.remove("at");
      row.textContent = row.textContent;
    }
    const last = this.places.line(Math.max(from, to - 1));
    for (let number = line; number <= last; number++) this.lines.children[number - 1]?.classList.add("at");
    const row = this.lines.children[line - 1];
    if (!row) return;
    const begins = this.places.starts[line - 1];
    const words = row.textContent;
    const stop = line === last ? to - begins : words.length;
    if (stop > from - begins) row.replaceChildren(words.slice(0, from - begins), h("mark", {}, words.slice(from - begins, stop)), words.slice(stop));
    const motion = matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth";
    this.lines.scrollTo({ top: row.offsetTop - this.lines.offsetTop - this.lines.clientHeight / 3, behavior: motion });
  }
}
