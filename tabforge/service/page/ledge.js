// The ledge: everything that has to do with playing.

import { $, h, say, warn } from "./dom.js";
import { Follow } from "./follow.js";
import { Player } from "./player/player.js";

const CARED = "tabforge-cared";

export class Ledge {
  constructor(sheet) {
    this.sheet = sheet;
    this.performance = null;
    this.chosen = null;
    this.player = new Player({ onState: (state) => this.state(state), onPass: (pass) => this.passed(pass) });
    this.follow = new Follow(sheet, this.player, (bar, pass) => this.place(bar, pass));
    for (const name of ["loop", "click", "drone", "ladder"]) this.toggle(name);
    $("play").addEventListener("click", () => this.press());
    $("rewind").addEventListener("click", () => this.rewind());
    $("more").addEventListener("click", () => this.box());
    $("volume").addEventListener("input", () => this.loud());
    $("speed").addEventListener("input", () => ($("speed-words").textContent = `${$("speed").value} %`));
    $("speed").addEventListener("change", () => this.again());
    for (const name of ["loop-from", "loop-to", "loop-section"]) $(name).addEventListener("change", () => this.typed(name));
    for (const name of ["count-in", "ladder-from", "ladder-to", "ladder-step", "ladder-times"]) $(name).addEventListener("change", () => this.again());
    $("care-not").addEventListener("click", () => $("care").close());
    $("care-play").addEventListener("click", () => {
      $("care").close();
      this.cared = true;
      try {
        localStorage.setItem(CARED, "yes");
      } catch {
        // then it is said again next time
      }
      this.begin(this.asked);
    });
    try {
      this.cared = localStorage.getItem(CARED) === "yes";
    } catch {
      this.cared = false;
    }
    this.loud();
  }

  /** Another performance. What plays goes on from its bar, if there still is one. */
  show(view, same) {
    const playing = this.player.playing;
    this.performance = view.performance;
    this.own = view.theory.facts.blocks.some((block) => block.second_parts.includes("drone"));
    this.follow.renew(view.performance);
    for (const each of this.performance.sounds) each.bend ??= [];
    beats(this.performance);
    $("play").disabled = $("rewind").disabled = !this.performance.bars.length;
    if (!same) {
      this.player.stop();
      this.choose(null, false);
      this.press_toggle("drone", this.own);
    }
    const played = view.sections.filter((section) => section.bars);
    $("loop-section").replaceChildren(...played.map((section) => h("option", { value: section.index }, section.title || `block ${section.index + 1}`)));
    this.sections = new Map(played.map((section) => [section.index, section.numbers]));
    if (this.chosen && !(this.sections.get(this.chosen.section)?.length > this.chosen.last)) this.choose(null, false);
    else this.choose(this.chosen, false);
    if (playing && same) this.again();
  }

  empty() {
    this.player.stop();
    this.performance = null;
    $("play").disabled = $("rewind").disabled = true;
  }

  toggle(name) {
    $(name).addEventListener("click", () => {
      this.press_toggle(name, !this.on(name));
      if (name === "loop" && this.on(name) && !this.chosen) say("The whole study is looped. Choose bars on the sheet to loop those.");
      this.again();
    });
  }

  on(name) {
    return $(name).getAttribute("aria-pressed") === "true";
  }

  press_toggle(name, on) {
    $(name).setAttribute("aria-pressed", String(on));
  }

  options() {
    const number = (name) => Math.max(Number($(name).min), Math.min(Number($(name).max), Number($(name).value) || Number($(name).min)));
    const ladder = { from: number("ladder-from"), to: number("ladder-to"), step: number("ladder-step"), times: number("ladder-times") };
    return {
      chosen: this.chosen,
      loop: this.on("loop"),
      click: this.on("click"),
      drone: this.on("drone"),
      count: Number($("count-in").value),
      speed: Number($("speed").value) / 100,
      ladder: this.on("ladder") ? ladder : null,
    };
  }

  press(from = null) {
    if (!this.performance) return;
    if (this.player.playing) {
      this.held = this.follow.at ?? null;
      this.player.stop();
      say("Paused.");
      return;
    }
    this.begin(from ?? this.held ?? null);
  }

  begin(from) {
    if (!this.cared) {
      this.asked = from;
      $("care").showModal();
      $("care-play").focus();
      return;
    }
    const bars = this.performance.bars;
    const inside = from !== null && bars[from] && (!this.chosen || covers(this.chosen, bars[from]));
    this.player
      .play(this.performance, this.options(), inside ? from : null)
      .then((begun) => begun && this.follow.run())
      .catch((error) => warn(`The browser plays no sound: ${error.message}`));
  }

  /** Play from a bar of a section, or pause. */
  from(section, bar) {
    if (this.player.playing) return this.press();
    const at = this.chosen && covers(this.chosen, { section, bar }) ? -1 : (this.performance?.bars.findIndex((each) => each.section === section && each.bar === bar) ?? -1);
    return this.press(at < 0 ? null : at);
  }

  rewind() {
    this.held = null;
    if (this.player.playing) this.begin(null);
    else {
      this.follow.dark();
      $("place-words").textContent = "At the start";
      say("At the start.");
    }
  }

  /** What was chosen has changed while it plays: go on from the bar that sounds. */
  again() {
    if (!this.player.playing) return;
    const at = this.follow.at ?? null;
    const options = this.options();
    const inside = at !== null && this.performance.bars[at] && (!this.chosen || covers(this.chosen, this.performance.bars[at]));
    this.player.play(this.performance, { ...options, count: 0 }, inside ? at : null).then((begun) => begun && this.follow.run());
  }

  choose(chosen, tell = true) {
    this.chosen = chosen;
    for (const part of this.sheet.parts) {
      const own = chosen && part.section === chosen.section;
      part.bars.mark(own ? chosen.first : null, own ? chosen.last : null);
    }
    if (chosen) {
      $("loop-section").value = chosen.section;
      this.offer(chosen.first, chosen.last);
    } else this.offer(0, Infinity);
    if (tell) {
      this.held = null;
      if (chosen) this.press_toggle("loop", true);
      say(chosen ? `${this.range(chosen)} chosen.` : "No bars chosen: the whole study is played.");
      this.again();
    }
  }

  /** The bars of the section, by the numbers that are printed. */
  offer(first, last) {
    const numbers = this.sections?.get(Number($("loop-section").value)) ?? [];
    for (const name of ["loop-from", "loop-to"]) {
      const select = $(name);
      if (select.dataset.of !== numbers.join()) select.replaceChildren(...numbers.map((number, at) => h("option", { value: at }, number)));
      select.dataset.of = numbers.join();
    }
    $("loop-from").value = first;
    $("loop-to").value = Math.min(last, numbers.length - 1);
  }

  typed(name) {
    const section = Number($("loop-section").value);
    if (name === "loop-section") this.offer(0, Infinity);
    const [first, last] = [Number($("loop-from").value), Number($("loop-to").value)];
    this.choose({ section, first: Math.min(first, last), last: Math.max(first, last) });
  }

  range({ section, first, last }) {
    const words = this.named({ section, bar: first });
    return first === last ? words : `${words} to ${this.named({ section, bar: last }).slice(4)}`;
  }

  /** A bar as it is called: by the number that is printed. */
  named({ section, bar }) {
    return `Bar ${this.sections?.get(section)?.[bar] ?? bar + 1}`;
  }

  state(state) {
    $("play-words").textContent = state === "playing" ? "Pause" : "Play";
    if (state === "playing") say("Playing.");
  }

  passed(pass) {
    if (this.on("ladder") && pass.number && pass.speed !== this.rung) say(`${Math.round(pass.speed * 100)} %`);
    this.rung = pass.speed;
  }

  place(bar, pass) {
    const words = `${this.named(bar)}, ${Math.round(pass.speed * 100)} %${pass.number ? `, time ${pass.number + 1}` : ""}`;
    if ($("place-words").textContent !== words) $("place-words").textContent = words;
  }

  loud() {
    $("volume-words").textContent = `${$("volume").value} %`;
    this.player.band.loud(Number($("volume").value) / 100);
  }

  box() {
    const open = $("box").hidden;
    $("box").hidden = !open;
    $("ledge").classList.toggle("opened", open);
    $("more").setAttribute("aria-expanded", String(open));
  }
}

const covers = (chosen, bar) => bar.section === chosen.section && bar.bar >= chosen.first && bar.bar <= chosen.last;

/** Where the beats of each bar lie, from the clicks, and how long the bar is. Both are in the order of time. */
function beats(performance) {
  const clicks = performance.clicks.filter((click) => !click.counting);
  let at = 0;
  for (const bar of performance.bars) {
    while (at < clicks.length && clicks[at].at < bar.start - 1e-4) at += 1;
    bar.clicks = [];
    while (at < clicks.length && clicks[at].at < bar.end - 1e-4) bar.clicks.push(clicks[at++]);
    bar.whole_seconds = bar.end - bar.start;
  }
}
