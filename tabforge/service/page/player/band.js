// Hands sounds and clicks to the audio clock.

import { Strings } from "./strings.js";

const RELEASE = 0.06;

export class Band {
  constructor() {
    this.context = null;
    this.volume = 0.3;
    this.sounding = new Set();
  }

  /** The audio clock; the first time it must be asked for while the user acts. */
  wake() {
    if (!this.context) {
      this.context = new AudioContext({ latencyHint: "interactive" });
      this.strings = new Strings(this.context);
      this.gain = this.context.createGain();
      this.limit = this.context.createDynamicsCompressor();
      this.limit.threshold.value = -8;
      this.limit.ratio.value = 12;
      this.limit.attack.value = 0.002;
      this.limit.release.value = 0.12;
      this.gain.connect(this.limit).connect(this.context.destination);
      this.loud(this.volume);
    }
    return this.context.resume();
  }

  get now() {
    return this.context ? this.context.currentTime : 0;
  }

  /** 0 to 1, as a player hears it: half the way is about 12 dB softer. */
  loud(volume) {
    this.volume = volume;
    if (this.gain) this.gain.gain.setTargetAtTime(0.9 * volume ** 2, this.context.currentTime, 0.02);
  }

  string(sound, when, speed, bass) {
    const seconds = sound.seconds / speed;
    const highest = Math.max(0, ...sound.bend.map((point) => point[1]));
    const { buffer, speed: rate } = this.strings.pluck(sound, (seconds + RELEASE) * 2 ** (highest / 1200), bass);
    const source = this.context.createBufferSource();
    source.buffer = buffer;
    source.playbackRate.setValueAtTime(rate, when);
    bend(source.playbackRate, rate, sound.bend, when, speed);
    const gain = this.context.createGain();
    const level = (sound.velocity / 127) ** 1.5;
    const rise = sound.attack === "swell" ? Math.min(0.35, seconds / 2) : 0;
    gain.gain.setValueAtTime(rise ? 0 : level, when);
    if (rise) gain.gain.linearRampToValueAtTime(level, when + rise);
    gain.gain.setValueAtTime(level, Math.max(when + rise, when + seconds));
    gain.gain.linearRampToValueAtTime(0, when + seconds + RELEASE);
    source.connect(gain).connect(this.gain);
    source.start(when);
    source.stop(when + seconds + RELEASE + 0.01);
    this.keep(source);
  }

  click(accent, when) {
    const source = this.context.createOscillator();
    const gain = this.context.createGain();
    source.frequency.value = accent ? 2400 : 1800;
    gain.gain.setValueAtTime(0, when);
    gain.gain.linearRampToValueAtTime(accent ? 0.34 : 0.22, when + 0.001);
    gain.gain.setTargetAtTime(0, when + 0.002, 0.009);
    source.connect(gain).connect(this.gain);
    source.start(when);
    source.stop(when + 0.07);
    this.keep(source);
  }

  keep(source) {
    this.sounding.add(source);
    source.onended = () => {
      this.sounding.delete(source);
      source.disconnect();
    };
  }

  hush() {
    for (const source of this.sounding) {
      try {
        source.stop();
      } catch {
        // it had not begun
      }
    }
    this.sounding.clear();
  }
}

/** The way of a pitch, in straight lines of cents: a ramp of speed for every half step at most, so that it stays straight to the ear. */
function bend(param, rate, points, when, speed) {
  let before = null;
  for (const [seconds, cents] of points) {
    const at = when + Math.max(0, seconds) / speed;
    if (!before) param.setValueAtTime(rate * 2 ** (cents / 1200), at);
    else {
      const steps = Math.max(1, Math.ceil(Math.abs(cents - before.cents) / 100));
      for (let n = 1; n <= steps; n++) {
        const here = before.cents + (cents - before.cents) * n / steps;
        param.linearRampToValueAtTime(rate * 2 ** (here / 1200), before.at + (at - before.at) * n / steps);
      }
    }
    before = { at, cents };
  }
}
