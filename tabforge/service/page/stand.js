// What is on the stand: asks the service for it, and paints what it answers.

import { $, h, say, warn } from "./dom.js";
import * as api from "./api.js";
import { keptDraft } from "./blank.js";
import { showLeaves } from "./leaves.js";
import { unpoint } from "./pointing.js";

export const SCRATCH = "scratch";

export class Stand {
  /** ``parts``: sheet, ledge, script, margin, switches. */
  constructor(parts) {
    this.parts = parts;
    this.state = { id: null, name: "", text: "", view: null, good: false, painted: 0, timings: {} };
    this.turn = 0;
    this.asked = 0;
  }

  /** Another study, or the blank sheet. What was there stays until the new one can be painted. */
  async open(id) {
    const { state } = this;
    state.id = id;
    state.view = null;
    this.parts.switches.reset();
    location.replace(`#study=${id}`);
    if (id === SCRATCH) [state.name, state.text] = ["blank sheet.riff", keptDraft()];
    scrollTo(0, 0);
    await this.refresh();
  }

  /** The study with its settings, as the service takes it. */
  input(more = {}) {
    const { id, text, name } = this.state;
    const settings = this.parts.switches.settings();
    return { ...(id === SCRATCH ? { text, name } : { study: id }), ...(settings ? { settings } : {}), ...more };
  }

  /** The sheet has another width now: engrave for it, if it is another by much. */
  sized() {
    if (this.state.view && Math.abs(width() - this.asked) >= 10) this.refresh();
  }

  /** Ask the service anew and paint what it answers; a later question overtakes an earlier one. */
  async refresh(began = performance.now()) {
    const { state } = this;
    const mine = ++this.turn;
    this.asking?.abort();
    this.asking = new AbortController();
    const { id } = state;
    this.asked = width();
    let view;
    try {
      view = await api.view(this.input({ width: this.asked }), this.asking.signal);
    } catch (error) {
      if (error.name === "AbortError" || mine !== this.turn) return;
      if (error instanceof api.Refused) this.refused(error);
      else this.lost();
      return;
    }
    if (mine !== this.turn) return;
    if (id !== SCRATCH) [state.text, state.name] = [view.source, view.name];
    const answered = performance.now();
    this.paint(view);
    const drawn = performance.now();
    requestAnimationFrame(() => setTimeout(() => this.seen({ began, answered, drawn })));
  }

  /** What was painted can be seen now: told for whoever measures, in milliseconds of the clock of the day. */
  seen(times) {
    const at = (time) => performance.timeOrigin + time;
    const view = performance.getEntriesByType("resource").filter((each) => each.name.endsWith("/view")).pop();
    const parts = Object.fromEntries((view?.serverTiming ?? []).map((each) => [each.name, each.duration]));
    const { began, answered, drawn } = times;
    this.state.timings = { began: at(began), answered: at(answered), drawn: at(drawn), seen: at(performance.now()), parts };
    this.state.painted += 1;
    performance.clearResourceTimings();
  }

  paint(view) {
    this.back();
    const { state, parts } = this;
    const again = state.shown === state.id;
    const was = state.good;
    state.good = view.ok;
    state.shown = state.id;
    parts.script.show(state.text, state.name, state.id === SCRATCH);
    parts.script.wrong(view.diagnostics);
    parts.margin.show(view.diagnostics, view.unshown);
    const kept = again && state.view !== null;
    $("sheet").classList.toggle("stale", !view.ok && kept);
    this.slip(null);
    if (view.ok) {
      if (!was && again) say("The errors are mended; the sheet is new.");
      this.sheet(view, kept);
      return;
    }
    const older = "This is the last sheet without any; it is no longer what the text says.";
    this.slip("The text has errors.", kept ? older : "There is no sheet until they are mended.");
    const first = view.diagnostics.find((each) => each.severity === "error");
    if (was || !again) warn(`The text has errors. Line ${first?.start.line}: ${first?.headline}`);
    if (!kept) this.nothing();
  }

  /** A study without errors. ``kept``: it was on the stand before. */
  sheet(view, kept) {
    const { state, parts } = this;
    unpoint();
    const { facts } = view.theory;
    $("title").textContent = view.title || state.name;
    document.title = `${view.title || state.name} · tabforge`;
    $("subtitle").textContent = [view.subtitle, view.author].filter(Boolean).join(" · ");
    const scale = view.sections.find((each) => each.scale)?.scale;
    $("facts").textContent = [facts.instrument, facts.tuning.join(" "), scale].filter(Boolean).join(" · ");
    $("teaching").replaceChildren(...view.text.map((line) => h("p", {}, line)));
    $("empty").hidden = true;
    parts.sheet.show(view);
    showLeaves(view);
    parts.ledge.show(view, kept);
    parts.switches.offer(facts.instrument);
    state.view = view;
  }

  /** No sheet can be shown of what was opened. */
  nothing() {
    $("title").textContent = this.state.name;
    for (const each of ["subtitle", "facts"]) $(each).textContent = "";
    $("teaching").replaceChildren();
    $("leaves").hidden = $("empty").hidden = true;
    this.parts.sheet.clear();
    this.parts.ledge.empty();
    this.state.view = null;
  }

  /** A slip of paper on the sheet: what is the matter with it; none for null. */
  slip(title, words = "") {
    $("kept").hidden = title === null;
    $("kept-title").textContent = title ?? "";
    $("kept-words").textContent = words;
  }

  refused(error) {
    this.back();
    this.slip("The service cannot show this.", error.message);
    warn(error.message);
  }

  lost() {
    if ($("lost").hidden) warn($("lost").textContent);
    $("lost").hidden = false;
  }

  back() {
    $("lost").hidden = true;
  }
}

/** Millimetres of a line of music, so that notes are large enough to read on whatever this is shown. */
function width() {
  const pixels = $("music").clientWidth || 800;
  return Math.max(80, Math.min(180, Math.round(pixels / 4.6 / 5) * 5));
}
