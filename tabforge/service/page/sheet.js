// The music on the paper: systems, repainted only where they have changed, and the bars that lie over them.

import { $, h, picture } from "./dom.js";
import { Bars, barsOf } from "./bars.js";

const PLACE = / data-at="[^"]*"/g;

export class Sheet {
  constructor({ onNote, onChoose, onPlay, onPlace }) {
    this.music = $("music");
    this.parts = [];
    this.calls = { onNote, onChoose, onPlay, onPlace };
    new ResizeObserver(() => this.laid()).observe(this.music);
  }

  /** Show the sections of a view. Whatever looks as it did is left alone, so nothing flickers and nothing scrolls. */
  show(view) {
    $("glyphs").replaceChildren(picture(view.glyphs));
    const music = view.sections.filter((section) => section.systems.length || section.text.length || section.title || section.tab);
    music.forEach((section, number) => {
      const part = this.parts[number] || this.part(number);
      this.fill(part, section, view.engraved);
    });
    for (const part of this.parts.splice(music.length)) part.root.remove();
    this.laid();
  }

  clear() {
    for (const part of this.parts.splice(0)) part.root.remove();
  }

  part(number) {
    const title = h("h2");
    const text = h("div");
    const staves = h("div", { className: "staves" });
    const root = h("section", { className: "part" }, title, text, staves);
    const part = { root, title, text, staves, systems: [], bars: new Bars(staves, this.calls) };
    staves.addEventListener("click", (event) => this.clicked(part, event));
    this.music.append(root);
    this.parts[number] = part;
    return part;
  }

  fill(part, section, engraved) {
    part.section = section.index;
    part.title.textContent = section.title;
    part.title.hidden = !section.title;
    part.text.replaceChildren(...section.text.map((line) => h("p", {}, line)));
    section.systems.forEach((system, number) => {
      const shown = part.systems[number] || this.system(part, number);
      const looks = system.svg.replace(PLACE, "");
      if (shown.looks !== looks) {
        shown.root.replaceChildren(picture(system.svg));
        shown.root.style.aspectRatio = `${system.width} / ${system.height}`; // so that it has its height before it is drawn
        shown.bars = barsOf(system.svg);
        shown.looks = looks;
      } else if (shown.svg !== system.svg) moved(shown.root, system.svg);
      shown.svg = system.svg;
      shown.first = system.first_bar;
      shown.last = system.last_bar;
    });
    for (const gone of part.systems.splice(section.systems.length)) gone.root.remove();
    if (!engraved && section.tab) this.plain(part, section.tab);
    part.notes = null;
    part.bars.show(section, engraved);
  }

  system(part, number) {
    const root = h("div", { className: "system" });
    part.bars.root.before(root);
    part.systems[number] = { root };
    return part.systems[number];
  }

  plain(part, tab) {
    const shown = this.system(part, part.systems.length);
    shown.root.append(h("pre", {}, tab));
  }

  /** Sizes have changed: bars are where their notes are. */
  laid() {
    for (const part of this.parts) part.bars.lay(part.systems);
  }

  /** The notes of a section as they are drawn: groups on the staff and on TAB. */
  notes(section) {
    const part = this.parts.find((each) => each.section === section);
    if (!part) return [];
    if (!part.notes) part.notes = [...part.staves.querySelectorAll("[data-tick]")];
    return part.notes;
  }

  /** The groups drawn from a place of the text (offsets of characters); the narrowest cells that touch it. */
  at(start, end) {
    const found = [];
    for (const part of this.parts) {
      for (const note of this.notes(part.section)) {
        const [from, to] = note.dataset.at.split("-").map(Number);
        if (from < Math.max(end, start + 1) && to > start) found.push([to - from, note]);
      }
    }
    const least = Math.min(...found.map((each) => each[0]));
    return found.filter((each) => each[0] === least).map((each) => each[1]);
  }

  /** The groups from a cell above or below a place, in the rows that belong together: up to the next empty line. */
  under(places, start, end) {
    const line = places.line(places.unit(start));
    const column = (offset) => places.unit(offset) - places.starts[places.line(places.unit(offset)) - 1];
    let [first, last] = [line, line];
    while (first > 1 && places.words(first - 1).trim()) first -= 1;
    while (last < places.starts.length && places.words(last + 1).trim()) last += 1;
    const [from, to] = [column(start), column(start) + Math.max(1, end - start)];
    const found = [];
    for (const part of this.parts) {
      for (const note of this.notes(part.section)) {
        const [a, b] = note.dataset.at.split("-").map(Number);
        const row = places.line(places.unit(a));
        if (row >= first && row <= last && row !== line && column(a) < to && column(a) + (b - a) > from && b - a < 40) found.push(note);
      }
    }
    return found;
  }

  clicked(part, event) {
    const near = nearest(part.staves, event.clientX, event.clientY);
    if (near && !event.shiftKey) {
      const [start, end] = near.dataset.at.split("-").map(Number);
      part.bars.stand(Number(near.dataset.bar));
      this.calls.onNote(start, end, near);
      return;
    }
    part.bars.hit(event.clientX, event.clientY, event.shiftKey);
  }
}

/** Only the places in the text have moved. */
function moved(root, svg) {
  const places = svg.match(PLACE) || [];
  root.querySelectorAll("[data-at]").forEach((note, number) => {
    if (places[number]) note.setAttribute("data-at", places[number].slice(10, -1));
  });
}

function nearest(root, x, y) {
  const hit = document.elementFromPoint(x, y)?.closest("[data-at]");
  if (hit && root.contains(hit)) return hit;
  let best = null;
  let least = 9;
  for (const note of root.querySelectorAll("[data-at]")) {
    const box = note.getBoundingClientRect();
    const away = Math.hypot(Math.max(box.left - x, 0, x - box.right), Math.max(box.top - y, 0, y - box.bottom));
    if (away < least) [least, best] = [away, note];
  }
  return best;
}
