// What sounds now is seen: the notes, by the audio clock.

import { $, h } from "./dom.js";

export class Follow {
  constructor(sheet, player, onPlace) {
    this.sheet = sheet;
    this.player = player;
    this.onPlace = onPlace;
    this.plans = new Map();
    this.lenses = [];
    this.lit = [];
  }

  /** Another performance, or the same one drawn anew. */
  renew(performance) {
    this.performance = performance;
    this.plans.clear();
    this.dark();
  }

  run() {
    cancelAnimationFrame(this.frame);
    const turn = () => {
      if (!this.player.playing) return this.dark();
      this.look();
      this.frame = requestAnimationFrame(turn);
      return undefined;
    };
    turn();
  }

  look() {
    const now = this.player.band.now - (this.player.band.context.outputLatency || 0);
    const found = this.player.where(now);
    if (!found || !this.performance) return;
    const bars = this.performance.bars;
    let at = this.at ?? 0;
    if (!bars[at] || found.seconds < bars[at].start || found.seconds >= bars[at].end) {
      at = bars.findIndex((bar) => found.seconds >= bar.start && found.seconds < bar.end);
    }
    if (at < 0) return;
    this.at = at;
    const bar = bars[at];
    for (const part of this.sheet.parts) part.bars.playing(part.section === bar.section ? bar.bar : -1);
    this.onPlace(bar, found.pass);
    const groups = this.plan(at);
    let current = null;
    for (const group of groups) if (group.seconds <= found.seconds + 0.004) current = group;
    if (current !== this.current) this.light(current);
  }

  /** When each note of a bar that is played sounds: its own sound's time where that can be told, else its share of the bar. */
  plan(at) {
    if (this.plans.has(at)) return this.plans.get(at);
    const bar = this.performance.bars[at];
    const notes = this.sheet.notes(bar.section).filter((note) => Number(note.dataset.bar) === bar.bar);
    const by = new Map();
    for (const note of notes) {
      const tick = Number(note.dataset.tick);
      if (!by.has(tick)) by.set(tick, { tick, notes: [], ats: new Set() });
      by.get(tick).notes.push(note);
      by.get(tick).ats.add(note.dataset.at);
    }
    const groups = [...by.values()].sort((a, b) => a.tick - b.tick);
    const sounds = this.performance.sounds.filter((each) => each.part === "line" && each.start >= bar.start - 0.01 && each.start < bar.end - 0.001);
    for (const group of groups) {
      const share = bar.start + (bar.end - bar.start) * (group.tick - bar.tick) / bar.ticks;
      const own = sounds.filter((each) => group.ats.has(each.at));
      const near = own.reduce((best, each) => (Math.abs(each.start - share) < Math.abs((best ?? Infinity) - share) ? each.start : best), null);
      group.seconds = near !== null && Math.abs(near - share) < 0.12 ? near : share;
    }
    this.plans.set(at, groups);
    return groups;
  }

  light(group) {
    this.unlit();
    this.current = group;
    if (!group) return;
    for (const note of group.notes) {
      note.classList.add("sounding");
      this.lit.push(note);
    }
    const staves = group.notes[0].closest(".staves");
    const frame = staves.getBoundingClientRect();
    group.notes.forEach((note, number) => {
      const box = note.getBoundingClientRect();
      const lens = this.lenses[number] || (this.lenses[number] = h("div", { className: "lens" }));
      if (lens.parentNode !== staves) staves.prepend(lens);
      lens.hidden = false;
      const middle = box.left + box.width / 2 - frame.left;
      const size = Math.max(18, box.width + 8);
      Object.assign(lens.style, { left: `${middle - size / 2}px`, top: `${box.top - frame.top - 4}px`, width: `${size}px`, height: `${box.height + 8}px` });
    });
    this.keepInSight(group.notes[0]);
  }

  /** The system that sounds stays in sight, as long as the reader has not scrolled away on purpose. */
  keepInSight(note) {
    const system = note.closest(".system");
    if (system === this.system) return;
    this.system = system;
    const box = system.getBoundingClientRect();
    const floor = innerHeight - $("ledge").offsetHeight;
    if (box.top < 8 || box.bottom > floor) {
      const motion = matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth";
      scrollBy({ top: box.top - Math.max(16, (floor - box.height) / 3), behavior: motion });
    }
  }

  unlit() {
    for (const note of this.lit.splice(0)) note.classList.remove("sounding");
    for (const lens of this.lenses) lens.hidden = true;
  }

  dark() {
    this.unlit();
    this.current = null;
    this.system = null;
    for (const part of this.sheet.parts) part.bars.playing(-1);
  }
}
