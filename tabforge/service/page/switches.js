// Another key, tuning, tempo or layout than the study says: the service compiles it anew.

import { $, h, say } from "./dom.js";
import * as api from "./api.js";

/** Layouts that runs are tried in, as a study says them. */
export const LAYOUTS = [
  "open", "position 2", "position 5", "position 7", "position 9", "position 12", "2 per string from string 6", "3 per string from string 6",
  "4 per string from string 6", "diagonal from string 6", "shape C", "shape A", "shape G", "shape E", "shape D", "free",
];
const FIELDS = ["key", "tuning", "tempo", "layout"];

export class Switches {
  constructor(onChange) {
    fill($("switch-layout"), LAYOUTS.map((each) => [each, each]));
    $("shelf-open").addEventListener("click", () => {
      const open = $("shelf-open").closest(".shelf").classList.toggle("open");
      $("shelf-open").setAttribute("aria-expanded", String(open));
    });
    const changed = () => {
      this.mark();
      onChange();
    };
    $("switches").addEventListener("change", changed);
    $("switches").addEventListener("submit", (event) => event.preventDefault());
    $("switch-back").addEventListener("click", () => {
      this.reset();
      $("switch-key").focus();
      changed();
      say("As it is written.");
    });
  }

  async offer(instrument) {
    if (this.offered === instrument) return;
    this.offered = instrument;
    this.all ??= api.choices().catch(() => ({ keys: [], instruments: [] }));
    const { keys, instruments } = await this.all;
    const own = instruments.find((each) => each.name === instrument || each.label === instrument);
    fill($("switch-key"), keys.map((key) => [key, key.replace("#", "♯").replace("b", "♭")]));
    fill($("switch-tuning"), (own?.tunings ?? []).map((each) => [each.name, `${each.name}: ${each.strings.join(" ")}`]));
  }

  reset() {
    for (const each of FIELDS) $(`switch-${each}`).value = "";
    this.mark();
  }

  mark() {
    for (const each of FIELDS) $(`switch-${each}`).classList.toggle("changed", $(`switch-${each}`).value !== "");
    $("switch-back").hidden = !this.settings();
  }

  /** What is asked for, as the service wants it; undefined if nothing is. */
  settings() {
    const asked = {};
    for (const each of FIELDS) {
      const field = $(`switch-${each}`);
      if (field.value !== "" && field.checkValidity()) asked[each] = each === "tempo" ? Number(field.value) : field.value;
    }
    return Object.keys(asked).length ? asked : undefined;
  }
}

function fill(select, rows) {
  const kept = select.value;
  select.replaceChildren(select.options[0], ...rows.map(([value, words]) => h("option", { value }, words)));
  select.value = rows.some(([value]) => value === kept) ? kept : "";
}
