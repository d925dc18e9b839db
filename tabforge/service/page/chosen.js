// The bars that are to be played: chosen on the sheet or on the ledge, called by the numbers that are printed.

import { $, h } from "./dom.js";

export class Chosen {
  /** ``onChoose`` is told what is chosen on the ledge: {section, first, last}, bars from 0. */
  constructor(sheet, onChoose) {
    this.sheet = sheet;
    this.bars = null;
    this.sections = new Map();
    for (const name of ["loop-from", "loop-to", "loop-section"]) $(name).addEventListener("change", () => onChoose(this.typed(name)));
  }

  /** The blocks of a study. What was chosen stays if it is still there and ``kept``. */
  renew(sections, kept) {
    const played = sections.filter((section) => section.bars);
    this.sections = new Map(played.map((section) => [section.index, section.numbers]));
    $("loop-section").replaceChildren(...played.map((section) => h("option", { value: section.index }, section.title || `block ${section.index + 1}`)));
    const there = kept && this.bars && this.sections.get(this.bars.section)?.length > this.bars.last;
    this.set(there ? this.bars : null);
  }

  /** Choose bars, or with null the whole study. */
  set(bars) {
    this.bars = bars;
    for (const part of this.sheet.parts) {
      const own = bars && part.section === bars.section;
      part.bars.mark(own ? bars.first : null, own ? bars.last : null);
    }
    if (bars) $("loop-section").value = bars.section;
    this.offer(bars?.first ?? 0, bars?.last ?? Infinity);
  }

  offer(first, last) {
    const numbers = this.sections.get(Number($("loop-section").value)) ?? [];
    for (const name of ["loop-from", "loop-to"]) {
      const select = $(name);
      if (select.dataset.of !== numbers.join()) select.replaceChildren(...numbers.map((number, at) => h("option", { value: at }, number)));
      select.dataset.of = numbers.join();
    }
    $("loop-from").value = first;
    $("loop-to").value = Math.min(last, numbers.length - 1);
  }

  typed(name) {
    if (name === "loop-section") this.offer(0, Infinity);
    const [from, to] = [Number($("loop-from").value), Number($("loop-to").value)];
    return { section: Number($("loop-section").value), first: Math.min(from, to), last: Math.max(from, to) };
  }

  /** Whether a bar is among those that are to be played. */
  covers(bar) {
    return !this.bars || (bar.section === this.bars.section && bar.bar >= this.bars.first && bar.bar <= this.bars.last);
  }

  words() {
    const { section, first, last } = this.bars;
    const words = this.named({ section, bar: first });
    return first === last ? words : `${words} to ${this.named({ section, bar: last }).slice(4)}`;
  }

  named({ section, bar }) {
    return `Bar ${this.sections.get(section)?.[bar] ?? bar + 1}`;
  }
}
