// The page: its parts, and what they tell one another.

import { $, say, warn } from "./dom.js";
import * as api from "./api.js";
import { keepDraft } from "./blank.js";
import { Cards } from "./cards.js";
import { Ledge } from "./ledge.js";
import { showTakes } from "./leaves.js";
import { lights } from "./lights.js";
import { Margin } from "./margin.js";
import { point, unpoint } from "./pointing.js";
import { Script } from "./script.js";
import { Sheet } from "./sheet.js";
import { SCRATCH, Stand } from "./stand.js";
import { Switches } from "./switches.js";

const PAUSE = 250; // milliseconds after the last key
const OLDER = "This sheet is older than the text: mend the errors first.";

const sheet = new Sheet({
  onNote: (start, end, note) => {
    if (!state.good) return say(OLDER);
    unpoint();
    script.point(start, end);
    return note.classList.add("pointed");
  },
  onChoose: (chosen) => ledge.choose(chosen),
  onPlay: (section, bar) => ledge.from(section, bar),
  onPlace: (section, bar) => {
    const note = sheet.notes(section).find((each) => Number(each.dataset.bar) === bar);
    if (!state.good) say(OLDER);
    else if (note) script.point(...note.dataset.at.split("-").map(Number));
  },
});
const ledge = new Ledge(sheet);
let waiting = 0;
const script = new Script((text) => {
  clearTimeout(waiting);
  keepDraft(text);
  waiting = setTimeout(() => {
    if (state.id !== SCRATCH) return;
    state.text = text;
    stand.refresh();
  }, PAUSE);
});
const margin = new Margin((finding) => {
  script.point(finding.start.offset, finding.end.offset);
  if (state.good) point(meant(finding), finding.severity);
});
const switches = new Switches(() => stand.refresh());
const stand = new Stand({ sheet, ledge, script, margin, switches });
const { state } = stand;
const cards = new Cards((id) => open(id));
let studies = [];

/** The notes a finding is about: those from its place, or from a place it names, or that stand in its column of another row. */
function meant(finding) {
  for (const place of [finding, ...(finding.others ?? [])]) {
    const found = sheet.at(place.start.offset, place.end.offset);
    if (found.length) return found;
  }
  return sheet.under(script.places, finding.start.offset, finding.end.offset);
}

function open(id) {
  if (id === state.id) return;
  stand.open(id);
  cards.show(studies, id);
  cards.reveal();
}

/** The study the address names, or the first of the folder. */
function begin() {
  const wanted = new URLSearchParams(location.hash.slice(1)).get("study");
  const first = wanted === SCRATCH ? SCRATCH : (studies.find((each) => each.id === wanted) || studies[0])?.id;
  if (first) open(first);
}

let heard = 0;

/** Ask for the listing; what the service has told meanwhile is newer. */
async function list(fresh) {
  const before = heard;
  const told = await api.studies();
  if (heard !== before) return;
  ({ studies } = told);
  cards.show(studies, state.id, fresh);
}

api.listen({
  study: async (told) => {
    heard += 1;
    if (told.id === state.id) stand.refresh();
    const known = studies.find((each) => each.id === told.id);
    if (!known) {
      return list(told.id)
        .then(() => state.id === null && begin())
        .catch(() => stand.lost());
    }
    known.revision = told.revision;
    return cards.show(studies, state.id, told.id);
  },
  studies: (told) => {
    heard += 1;
    const before = studies.find((each) => each.id === state.id);
    ({ studies } = told);
    cards.show(studies, state.id);
    const now = studies.find((each) => each.id === state.id);
    if (state.id === null) begin();
    else if (before && now && before.revision !== now.revision) stand.refresh();
  },
  gone: (told) => {
    heard += 1;
    list().catch(() => stand.lost());
    if (told.id !== state.id) return;
    stand.slip("The file is gone from the folder.", "This is what it said last.");
    warn("The file of this study is gone from the folder.");
  },
  lost: () => stand.lost(),
  back: () => {
    stand.back();
    say("The service is back.");
    if (state.id) stand.refresh();
  },
});

lights();
$("scratch-open").addEventListener("click", () => {
  cards.close();
  open(SCRATCH);
});
$("keys-open").addEventListener("click", () => $("keys").showModal());
$("keys-close").addEventListener("click", () => $("keys").close());
let sizing = 0;
new ResizeObserver(() => {
  clearTimeout(sizing);
  sizing = setTimeout(() => stand.sized(), 200);
}).observe($("music"));
showTakes(() => stand.input(), () => state.name);
list()
  .then(() => state.id === null && begin())
  .catch((error) => (error instanceof api.Refused ? stand.refused(error) : stand.lost()));

/** For tests and measurements: what was handed to the audio clock, and what is on the stand. */
window.tabforge = { state, player: ledge.player, get scheduled() { return ledge.player.scheduled; } };
