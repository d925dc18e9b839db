// The bars of a section as a list over its systems: walked with arrow keys, chosen for looping, marked while they sound.

import { h } from "./dom.js";

const BEFORE = 260; // a bar begins so much before its first note, in the units of the pictures

let lists = 0;

export class Bars {
  constructor(staves, calls) {
    this.calls = calls;
    this.root = h("div", { className: "bars", id: `bars-${lists++}` });
    for (const [name, value] of Object.entries({ role: "listbox", "aria-multiselectable": "true", tabindex: "0" })) this.root.setAttribute(name, value);
    this.boxes = [];
    this.here = 0;
    this.anchor = 0;
    this.root.addEventListener("keydown", (event) => this.key(event));
    staves.append(this.root);
  }

  show(section, engraved) {
    this.section = section.index;
    this.line = section.line;
    const count = engraved ? section.bars : 0;
    this.root.hidden = !count;
    this.root.setAttribute("aria-label", `Bars of ${section.title || section.label || "the study"}: arrow keys, Shift to choose, Space to play, Enter for the text`);
    for (let number = this.boxes.length; number < count; number++) {
      const box = h("div", { className: "bar", id: `${this.root.id}-${number}` }, h("span", { className: "unseen" }));
      box.setAttribute("role", "option");
      box.setAttribute("aria-selected", "false");
      this.root.append(box);
      this.boxes.push(box);
    }
    for (const gone of this.boxes.splice(count)) gone.remove();
    this.boxes.forEach((box, number) => (box.firstChild.textContent = `Bar ${section.numbers[number]}`));
    this.stand(Math.min(this.here, Math.max(0, count - 1)));
  }

  /** Put each box over its bar: from its first note to the next bar's. Only where systems lie is asked of the browser. */
  lay(systems) {
    const across = (part) => `${(part * 100).toFixed(3)}%`;
    for (const system of systems) {
      if (!system.bars) continue;
      const [top, height] = [system.root.offsetTop, system.root.offsetHeight];
      for (const [bar, from, to] of system.bars) {
        const box = this.boxes[bar];
        if (!box) continue;
        const put = [across(from), across(to - from), `${top}px`, `${height}px`];
        if (box.dataset.put === put.join()) continue;
        box.dataset.put = put.join();
        [box.style.left, box.style.width, box.style.top, box.style.height] = put;
      }
    }
  }

  stand(number) {
    this.boxes[this.here]?.classList.remove("here");
    this.here = number;
    const box = this.boxes[number];
    if (!box) return;
    if (this.root === document.activeElement || this.chosen) box.classList.add("here");
    this.root.setAttribute("aria-activedescendant", box.id);
  }

  mark(first, last) {
    this.chosen = first !== null;
    this.boxes.forEach((box, number) => {
      const inside = first !== null && number >= first && number <= last;
      box.classList.toggle("chosen", inside);
      box.setAttribute("aria-selected", String(inside));
    });
  }

  playing(bar) {
    if (this.sounding === bar) return;
    this.boxes[this.sounding]?.classList.remove("playing");
    this.boxes[bar]?.classList.add("playing");
    this.sounding = bar;
  }

  /** The bar under a point is chosen, or with Shift all from the last one to it. */
  hit(x, y, shift) {
    const at = this.boxes.findIndex((box) => {
      const area = box.getBoundingClientRect();
      return x >= area.left && x <= area.right && y >= area.top && y <= area.bottom;
    });
    if (at < 0) return;
    if (!shift) this.anchor = at;
    this.stand(at);
    this.choose(this.anchor, at);
  }

  choose(from, to) {
    this.calls.onChoose({ section: this.section, first: Math.min(from, to), last: Math.max(from, to) });
  }

  key(event) {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const to = { ArrowRight: this.here + 1, ArrowDown: this.here + 1, ArrowLeft: this.here - 1, ArrowUp: this.here - 1, Home: 0, End: this.boxes.length - 1 }[event.key];
    if (to !== undefined) {
      const at = Math.max(0, Math.min(this.boxes.length - 1, to));
      if (event.shiftKey) {
        this.stand(at);
        this.choose(this.anchor, at);
      } else {
        this.anchor = at;
        this.stand(at);
      }
      const motion = matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth";
      this.boxes[at]?.scrollIntoView({ block: "nearest", behavior: motion });
    } else if (event.key === " ") this.calls.onPlay(this.section, this.here);
    else if (event.key === "Enter") this.calls.onPlace(this.section, this.here);
    else if (event.key === "Escape") this.calls.onChoose(null);
    else return;
    event.preventDefault();
  }
}

const NOTE = /data-bar="(\d+)"[^>]*><[^>]*?(?:translate\(| x="| points="| d="M)(-?[\d.]+)/g;

/** The bars of a system as [number, left, right], in parts of its width, read from where its notes are drawn. */
export function barsOf(svg) {
  const [, x, , width] = (/viewBox="([-\d.]+) ([-\d.]+) ([-\d.]+)/.exec(svg) ?? []).map(Number);
  const lefts = new Map();
  for (const [, bar, left] of svg.matchAll(NOTE)) lefts.set(Number(bar), Math.min(Number(left), lefts.get(Number(bar)) ?? Infinity));
  const order = [...lefts].sort((a, b) => a[0] - b[0]);
  const edge = (at) => Math.max(0, (order[at][1] - BEFORE - x) / width);
  return order.map(([bar], at) => [bar, at ? edge(at) : 0, at + 1 < order.length ? edge(at + 1) : 1]);
}
