// The ledge: everything that has to do with playing.

import { $, h, say, warn } from "./dom.js";
import { careful } from "./care.js";
import { Follow } from "./follow.js";
import { Chosen } from "./chosen.js";
import { beaten } from "./player/passes.js";
import { Player } from "./player/player.js";

const USUAL_COUNT = 1; // bars counted in where the study does not say

export class Ledge {
  constructor(sheet) {
    this.sheet = sheet;
    this.performance = null;
    this.chosen = new Chosen(sheet, (bars) => this.choose(bars));
    this.player = new Player({ onState: (state) => this.state(state), onPass: (pass) => this.passed(pass) });
    this.follow = new Follow(sheet, this.player, (bar, pass) => this.place(bar, pass));
    for (const name of ["loop", "click", "drone", "ladder"]) this.toggle(name);
    $("play").addEventListener("click", () => this.press());
    $("rewind").addEventListener("click", () => this.rewind());
    $("more").addEventListener("click", () => this.box());
    $("volume").addEventListener("input", () => this.loud());
    $("speed").addEventListener("input", () => ($("speed-words").textContent = `${$("speed").value} %`));
    $("speed").addEventListener("change", () => this.again());
    for (const name of ["count-in", "ladder-from", "ladder-to", "ladder-step", "ladder-times"]) $(name).addEventListener("change", () => this.again());
    this.loud();
  }

  /** Another performance. What plays goes on from its bar, if the study is the ``same``. */
  show(view, same) {
    const playing = this.player.playing && same;
    this.performance = beaten(view.performance);
    this.follow.renew(view.performance);
    $("play").disabled = $("rewind").disabled = !this.performance.bars.length;
    if (!same) {
      this.player.stop();
      this.held = null;
      $("place-words").textContent = "";
      this.wanted = "";
    }
    this.preset(view);
    this.chosen.renew(view.sections, same);
    if (playing) this.again();
  }

  /** Drone, click and count-in as the study says them; when it comes to say others, those. */
  preset(view) {
    const played = view.sections.filter((section) => section.bars);
    const drone = view.theory.facts.blocks.some((block) => block.second_parts.includes("drone"));
    const click = played.some((section) => section.click);
    const count = String(played.find((section) => section.count_in !== null)?.count_in ?? USUAL_COUNT);
    const wanted = [drone, click, count].join();
    if (wanted === this.wanted) return;
    this.wanted = wanted;
    press("drone", drone);
    press("click", click);
    const select = $("count-in");
    if (![...select.options].some((each) => each.value === count)) select.append(h("option", { value: count }, `${count} bars`));
    select.value = count;
  }

  empty() {
    this.player.stop();
    this.performance = null;
    $("play").disabled = $("rewind").disabled = true;
  }

  toggle(name) {
    $(name).addEventListener("click", () => {
      press(name, !on(name));
      if (name === "loop" && on(name) && !this.chosen.bars) say("The whole study is looped. Choose bars on the sheet to loop those.");
      this.again();
    });
  }

  options() {
    const number = (name) => Math.max(Number($(name).min), Math.min(Number($(name).max), Number($(name).value) || Number($(name).min)));
    const ladder = { from: number("ladder-from"), to: number("ladder-to"), step: number("ladder-step"), times: number("ladder-times") };
    return {
      chosen: this.chosen.bars,
      loop: on("loop"),
      click: on("click"),
      drone: on("drone"),
      count: Number($("count-in").value),
      speed: Number($("speed").value) / 100,
      ladder: on("ladder") ? ladder : null,
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
    careful(() => this.start(from));
  }

  /** From a bar as it is played (an index), if it is among the chosen ones; else from the first. */
  start(from, more = {}) {
    const bar = from === null ? undefined : this.performance.bars[from];
    this.player
      .play(this.performance, { ...this.options(), ...more }, bar && this.chosen.covers(bar) ? from : null)
      .then((begun) => begun && this.follow.run())
      .catch((error) => warn(`The browser plays no sound: ${error.message}`));
  }

  /** Play from a bar of a section, or pause. Bars that are chosen are played from their first. */
  from(section, bar) {
    const chosen = this.chosen.bars && this.chosen.covers({ section, bar });
    const at = chosen ? -1 : this.performance?.bars.findIndex((each) => each.section === section && each.bar === bar) ?? -1;
    this.press(at < 0 ? null : at);
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
    this.start(this.follow.at ?? null, { count: 0 });
  }

  /** Bars to play, or with null the whole study: they are looped. */
  choose(bars) {
    this.chosen.set(bars);
    this.held = null;
    if (bars) press("loop", true);
    say(bars ? `${this.chosen.words()} chosen.` : "No bars chosen: the whole study is played.");
    this.again();
  }

  state(state) {
    $("play-words").textContent = state === "playing" ? "Pause" : "Play";
    if (state === "playing") say("Playing.");
  }

  passed(pass) {
    if (on("ladder") && pass.number && pass.speed !== this.rung) say(`${Math.round(pass.speed * 100)} %`);
    this.rung = pass.speed;
  }

  place(bar, pass) {
    const words = `${this.chosen.named(bar)}, ${Math.round(pass.speed * 100)} %${pass.number ? `, time ${pass.number + 1}` : ""}`;
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

const on = (name) => $(name).getAttribute("aria-pressed") === "true";
const press = (name, pressed) => $(name).setAttribute("aria-pressed", String(pressed));
