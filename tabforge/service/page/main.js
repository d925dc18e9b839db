// The page: what is on the stand, and what the service tells of it.

import { $, say, warn } from "./dom.js";
import * as api from "./api.js";
import { Cards } from "./cards.js";
import { Ledge } from "./ledge.js";
import { showLeaves, showTakes } from "./leaves.js";
import { lights } from "./lights.js";
import { Margin } from "./margin.js";
import { Script } from "./script.js";
import { Sheet } from "./sheet.js";
import { point, unpoint } from "./pointing.js";
import { Switches } from "./switches.js";
import { BLANK } from "./blank.js";

const SCRATCH = "scratch";
const PAUSE = 250; // milliseconds after the last key
const state = { id: null, name: "", text: "", studies: [], view: null, good: false, painted: 0, timings: {} };

const sheet = new Sheet({
  onNote: (start, end, note) => {
    if (!state.good) return say("This sheet is older than the text: mend the errors first.");
    unpoint();
    script.point(start, end);
    note.classList.add("pointed");
    return undefined;
  },
  onChoose: (chosen) => ledge.choose(chosen),
  onPlay: (section, bar) => ledge.from(section, bar),
  onPlace: (section, bar) => {
    const note = sheet.notes(section).find((each) => Number(each.dataset.bar) === bar);
    if (!state.good) say("This sheet is older than the text: mend the errors first.");
    else if (note) script.point(...note.dataset.at.split("-").map(Number));
  },
});
const ledge = new Ledge(sheet);
const script = new Script((text) => draft(text));
const margin = new Margin((finding) => {
  script.point(finding.start.offset, finding.end.offset);
  if (state.good) point(meant(finding), finding.severity);
});
const switches = new Switches(() => refresh());
const cards = new Cards((id) => open(id));

/** The notes a finding is about: those from its place, or from a place it names, or that stand in its column of another row. */
function meant(finding) {
  for (const place of [finding, ...(finding.others ?? [])]) {
    const found = sheet.at(place.start.offset, place.end.offset);
    if (found.length) return found;
  }
  return sheet.under(script.places, finding.start.offset, finding.end.offset);
}

/** Put a study on the stand. */
async function open(id) {
  if (id === state.id) return;
  state.id = id;
  state.view = null;
  switches.reset();
  location.replace(`#study=${id}`);
  cards.show(state.studies, id);
  if (id === SCRATCH) {
    state.name = "blank sheet.riff";
    state.text = kept() ?? BLANK;
    $("scratch-open").setAttribute("aria-current", "true");
  } else $("scratch-open").removeAttribute("aria-current");
  scrollTo(0, 0);
  cards.reveal();
  await refresh();
}

function kept() {
  try {
    return sessionStorage.getItem("draft");
  } catch {
    return null;
  }
}

let waiting = 0;
function draft(text) {
  clearTimeout(waiting);
  try {
    sessionStorage.setItem("draft", text);
  } catch {
    // then it is not remembered
  }
  waiting = setTimeout(() => {
    state.text = text;
    refresh();
  }, PAUSE);
}

function input(more = {}) {
  const settings = switches.settings();
  const study = state.id === SCRATCH ? { text: state.text, name: state.name } : { study: state.id };
  return { ...study, ...(settings ? { settings } : {}), ...more };
}

/** Millimetres of a line of music, so that notes are large enough to read on whatever this is shown. */
function width() {
  const pixels = $("music").clientWidth || 800;
  return Math.max(80, Math.min(180, Math.round(pixels / 4.6 / 5) * 5));
}

let turn = 0;
let asking = null;
let asked = 0;

/** Ask the service anew and paint what it answers; a later question overtakes an earlier one. */
async function refresh(began = performance.now()) {
  const mine = ++turn;
  asking?.abort();
  asking = new AbortController();
  const id = state.id;
  try {
    asked = width();
    const view = await api.view(input({ width: asked }), asking.signal);
    if (mine !== turn) return;
    if (id !== SCRATCH) [state.text, state.name] = [view.source, view.name];
    const answered = performance.now();
    paint(view, id);
    const drawn = performance.now();
    requestAnimationFrame(() => setTimeout(() => seen({ began, answered, drawn })));
  } catch (error) {
    if (error.name === "AbortError" || mine !== turn) return;
    if (error instanceof api.Refused) refused(error);
    else lost();
  }
}

/** What was painted can be seen now: told for whoever measures, in milliseconds of the clock of the day. */
function seen(times) {
  const at = (time) => performance.timeOrigin + time;
  const view = performance.getEntriesByType("resource").filter((each) => each.name.endsWith("/view")).pop();
  const parts = Object.fromEntries((view?.serverTiming ?? []).map((each) => [each.name, each.duration]));
  state.timings = { began: at(times.began), answered: at(times.answered), drawn: at(times.drawn), seen: at(performance.now()), parts };
  state.painted += 1;
  performance.clearResourceTimings();
}

function paint(view, id) {
  back();
  const same = state.view !== null && state.shown === id;
  script.show(state.text, state.name, id === SCRATCH);
  script.wrong(view.diagnostics);
  margin.show(view.diagnostics, view.unshown);
  const was = state.good;
  state.good = view.ok;
  $("sheet").classList.toggle("stale", !view.ok && same);
  $("kept").hidden = view.ok;
  if (!view.ok) {
    const first = view.diagnostics.find((each) => each.severity === "error");
    $("kept-words").textContent = same ? "This is the last sheet without any; it is no longer what the text says." : "There is no sheet until they are mended.";
    if (was || !same) warn(`The text has errors. Line ${first?.start.line}: ${first?.headline}`);
    if (!same) nothing(state.name);
    return;
  }
  if (!was && same) say("The errors are mended; the sheet is new.");
  unpoint();
  $("title").textContent = view.title || state.name;
  document.title = `${view.title || state.name} · tabforge`;
  $("subtitle").textContent = [view.subtitle, view.author].filter(Boolean).join(" · ");
  const facts = view.theory.facts;
  $("facts").textContent = [facts.instrument, facts.tuning.join(" "), view.sections.find((each) => each.scale)?.scale].filter(Boolean).join(" · ");
  $("teaching").replaceChildren(...view.text.map((line) => Object.assign(document.createElement("p"), { textContent: line })));
  $("empty").hidden = true;
  sheet.show(view);
  showLeaves(view);
  ledge.show(view, same);
  switches.offer(facts.instrument);
  state.view = view;
  state.shown = id;
}

/** No sheet can be shown of what was opened. */
function nothing(name) {
  $("title").textContent = name;
  for (const each of ["subtitle", "facts"]) $(each).textContent = "";
  $("teaching").replaceChildren();
  $("leaves").hidden = true;
  $("empty").hidden = true;
  sheet.clear();
  ledge.empty();
  state.view = null;
}

function refused(error) {
  back();
  $("kept").hidden = false;
  $("kept-words").textContent = error.message;
  warn(error.message);
}

function lost() {
  if ($("lost").hidden) warn($("lost").textContent);
  $("lost").hidden = false;
}

function back() {
  $("lost").hidden = true;
}

async function list(fresh) {
  state.studies = (await api.studies()).studies;
  cards.show(state.studies, state.id, fresh);
}

api.listen({
  study: async (told) => {
    const began = performance.now();
    if (told.id === state.id) refresh(began);
    const known = state.studies.find((each) => each.id === told.id);
    if (!known) await list(told.id);
    else {
      known.revision = told.revision;
      cards.show(state.studies, state.id, told.id);
    }
  },
  studies: (told) => {
    const before = state.studies.find((each) => each.id === state.id);
    state.studies = told.studies;
    cards.show(state.studies, state.id);
    const now = state.studies.find((each) => each.id === state.id);
    if (before && now && before.revision !== now.revision) refresh();
    else if (state.id === null) begin();
  },
  gone: async (told) => {
    await list();
    if (told.id === state.id) {
      $("kept").hidden = false;
      $("kept-words").textContent = "Its file is gone from the folder. This is what it said last.";
      warn("The file of this study is gone from the folder.");
    }
  },
  lost,
  back: () => {
    back();
    say("The service is back.");
    if (state.id) refresh();
  },
});

lights();
$("scratch-open").addEventListener("click", () => {
  cards.close();
  open(SCRATCH);
});
$("keys-open").addEventListener("click", () => $("keys").showModal());
$("keys-close").addEventListener("click", () => $("keys").close());
new ResizeObserver(() => {
  clearTimeout(state.sizing);
  state.sizing = setTimeout(() => state.view && Math.abs(width() - asked) >= 10 && refresh(), 200);
}).observe($("music"));
showTakes(() => input(), () => state.name);

/** The study the address names, or the first of the folder. */
function begin() {
  const wanted = new URLSearchParams(location.hash.slice(1)).get("study");
  const first = wanted === SCRATCH ? SCRATCH : (state.studies.find((each) => each.id === wanted) || state.studies[0])?.id;
  if (first) open(first);
}

list()
  .then(() => state.id === null && begin())
  .catch((error) => (error instanceof api.Refused ? refused(error) : lost()));

window.tabforge = { state, get scheduled() { return ledge.player.scheduled; }, player: ledge.player, ledge };
