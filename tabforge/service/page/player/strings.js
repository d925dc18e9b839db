// The sound of a plucked string after Karplus and Strong (Computer Music Journal 7/2, 1983): a delay that feeds itself through a low-pass.
//
// The low-pass of three taps delays by one sample at every frequency, so a loop of N samples sounds at exactly rate / (N + 1); the rest of
// the way to a pitch is the speed at which the buffer is played. The delay begins as a sum of partials, so there is nothing to settle.
// All figures are by ear.

const TIMBRES = {
  line: { ring: 6, high: 1.0, bright: 2300, pick: 0.14, level: 1 },
  bass: { ring: 7, high: 0.5, bright: 800, pick: 0.18, level: 1.1 },
  vamp: { ring: 5, high: 0.7, bright: 1400, pick: 0.2, level: 0.7 },
  drone: { ring: 12, high: 0.35, bright: 520, pick: 0.3, level: 1.1 },
};
const KINDS = {
  note: { ring: 1, high: 1, bright: 1 },
  muted: { ring: 0.07, high: 0.12, bright: 0.55 },
  dead: { ring: 0.012, high: 0.03, bright: 0.6 },
  harmonic: { ring: 1.2, high: 0.8, bright: 0.5, pick: 0.31 },
};
const SOFT_ATTACKS = { finger: 0.7, slur: 0.5, tap: 0.65, slide: 0.45, swell: 0.8 };
const HIGH_HZ = 3000;
const KEPT = 160; // buffers of a few hundred kB

export const hertz = (midi) => 440 * 2 ** ((midi - 69) / 12);

/** A store of plucked strings; like sounds are computed once. */
export class Strings {
  constructor(context) {
    this.context = context;
    this.kept = new Map();
  }

  /** A buffer for a sound, and the speed at which it has the sound's pitch. */
  pluck(sound, seconds, bass) {
    const hz = hertz(sound.midi + sound.cents / 100);
    const timbre = TIMBRES[sound.part] || (bass ? TIMBRES.bass : TIMBRES.line);
    const own = sound.part === "line" && bass ? TIMBRES.bass : timbre;
    const kind = KINDS[sound.kind] || KINDS.note;
    const rate = this.context.sampleRate;
    const length = Math.max(8, Math.round(rate / hz) - 1);
    const wanted = Math.ceil(Math.min(seconds, 8) * 2) / 2; // half seconds, so that like notes share
    const key = [sound.part, sound.kind, sound.attack, length, wanted, bass].join(" ");
    let buffer = this.kept.get(key);
    if (!buffer) {
      const count = Math.max(1, Math.ceil(wanted * rate));
      buffer = this.context.createBuffer(1, count, rate);
      fill(buffer.getChannelData(0), rate, length, {
        ring: own.ring * kind.ring, high: own.high * kind.high, pick: kind.pick || own.pick, level: own.level,
        bright: own.bright * kind.bright * (SOFT_ATTACKS[sound.attack] || 1),
      });
      if (this.kept.size >= KEPT) this.kept.delete(this.kept.keys().next().value);
      this.kept.set(key, buffer);
    }
    return { buffer, speed: hz * (length + 1) / rate };
  }
}

function fill(wave, rate, length, timbre) {
  const period = length + 1;
  const hz = rate / period;
  const ring = timbre.ring * Math.min(2, (110 / hz) ** 0.45);
  const loss = 10 ** (-3 / (hz * ring));
  const angle = 2 * Math.PI * Math.min(Math.max(HIGH_HZ, 2.5 * hz), 0.4 * rate) / rate;
  const softer = Math.min(0.9999, 10 ** (-3 / (hz * Math.min(timbre.high, ring))) / loss);
  const side = Math.min(0.25, (1 - softer) / (2 * (1 - Math.cos(angle))));
  const middle = (1 - 2 * side) * loss;
  const edge = side * loss;
  const ready = Math.min(wave.length, length + 2);
  begin(wave.subarray(0, ready), period, hz, rate, timbre);
  for (let n = ready; n < wave.length; n++) {
    wave[n] = middle * wave[n - period] + edge * (wave[n - length] + wave[n - period - 1]);
  }
  const rise = Math.min(wave.length, Math.round(0.0012 * rate));
  for (let n = 0; n < rise; n++) wave[n] *= n / rise;
}

function begin(wave, period, hz, rate, timbre) {
  let power = 0;
  const partials = [];
  for (let k = 1; k * hz < 0.45 * rate && k <= 200; k++) {
    const strength = Math.abs(Math.sin(Math.PI * k * timbre.pick)) / k ** 0.8 / (1 + (k * hz / timbre.bright) ** 2);
    if (strength < 1e-4) continue;
    partials.push([k, strength, Math.sin(k * 12.9898 + period) * 43758.5453 % Math.PI]);
    power += strength * strength / 2;
  }
  const scale = 0.22 * timbre.level / Math.sqrt(power || 1);
  for (const [k, strength, phase] of partials) {
    const step = 2 * Math.PI * k / period;
    for (let n = 0; n < wave.length; n++) wave[n] += scale * strength * Math.cos(step * n + phase);
  }
}
