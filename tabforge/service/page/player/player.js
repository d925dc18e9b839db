// Plays a performance: looks a little ahead and hands over what comes, pass after pass, without a gap.

import { Band } from "./band.js";
import { countIn, speeds, stretch, struck } from "./passes.js";

const AHEAD = 0.5; // seconds handed over before they are heard
const TURN = 60; // milliseconds between looks
const LEAD = 0.12; // seconds before the first sound
const MOST_TOLD = 20000;

export class Player {
  constructor({ onState, onPass }) {
    this.band = new Band();
    this.onState = onState;
    this.onPass = onPass;
    this.playing = false;
    this.scheduled = [];
    this.passes = [];
  }

  /** Begin. ``from`` is an index of the bars as they are played; ``options``: chosen, loop, speed, ladder, click, drone, count. */
  async play(performance, options, from = null) {
    await this.band.wake();
    this.stop(false);
    const part = stretch(performance, options.chosen);
    if (!part) return false;
    this.performance = performance;
    this.options = options;
    this.part = part;
    this.speeds = speeds(options);
    this.scheduled.length = 0;
    this.passes = [];
    this.count = 0;
    this.bass = performance.program >= 33 && performance.program <= 40;
    const first = from === null ? part : { ...part, from, start: performance.bars[from].start };
    let begins = this.band.now + LEAD;
    const speed = this.speeds[0];
    if (options.count) {
      const clicks = countIn(performance, first.from, options.count);
      const zero = begins - clicks[0].at / speed;
      this.counts = clicks.map((click) => ({ when: zero + click.at / speed, click }));
      begins = zero;
    } else this.counts = [];
    this.open(first, begins, speed);
    this.playing = true;
    this.timer = setInterval(() => this.look(), TURN);
    this.look();
    this.onState("playing");
    return true;
  }

  open(part, begins, speed) {
    const items = struck(this.performance, part, this.options);
    const pass = { number: this.count++, part, begins, speed, items, next: 0, ends: begins + (part.end - part.start) / speed };
    this.passes.push(pass);
    if (this.passes.length > 8) this.passes.shift(); // long over
    this.onPass(pass);
  }

  /** Where the music is at an audio time: {pass, seconds of the performance}, or null before it begins and after it ends. */
  where(when) {
    for (const pass of this.passes) {
      if (when >= pass.begins && when < pass.ends) return { pass, seconds: pass.part.start + (when - pass.begins) * pass.speed };
    }
    return null;
  }

  look() {
    const until = this.band.now + AHEAD;
    while (this.counts.length && this.counts[0].when < until) this.hand(this.counts.shift(), null, 1);
    for (;;) {
      const pass = this.passes[this.passes.length - 1];
      while (pass.next < pass.items.length) {
        const item = pass.items[pass.next];
        const when = pass.begins + item.at / pass.speed;
        if (when >= until) return;
        pass.next += 1;
        this.hand({ when, ...item }, pass.number, pass.speed);
      }
      if (pass.ends >= until) return;
      const number = pass.number + 1;
      if (number < this.speeds.length || this.options.loop) {
        this.open(this.part, pass.ends, this.speeds[Math.min(number, this.speeds.length - 1)]);
      } else {
        if (this.band.now > pass.ends + 0.2) this.stop();
        return;
      }
    }
  }

  hand({ when, sound, click }, pass, speed) {
    const late = Math.max(when, this.band.now + 0.003);
    if (sound) this.band.string(sound, late, speed, this.bass);
    else this.band.click(click.accent, late);
    if (this.scheduled.length >= MOST_TOLD) return;
    this.scheduled.push(
      sound
        ? { when, midi: sound.midi, cents: sound.cents, part: sound.part, string: sound.string, velocity: sound.velocity, pass, speed }
        : { when, part: "click", accent: click.accent, counting: click.counting, pass, speed },
    );
  }

  stop(tell = true) {
    clearInterval(this.timer);
    this.playing = false;
    this.band.hush();
    if (tell) this.onState("stopped");
  }
}
