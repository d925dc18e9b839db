// What is played, and when: bars of a performance, pass after pass, each at its own speed. Pure: numbers in, numbers out.
//
// Times of a performance are seconds at the study's own tempo. A pass is one time through the chosen bars; ``from`` and ``to`` are indices
// into ``performance.bars``, bars as they are played.

/** The stretch of a performance that is heard: all of it, or chosen bars of a section as they are first played. */
export function stretch(performance, chosen) {
  const bars = performance.bars;
  if (!bars.length) return null;
  let from = 0;
  let to = bars.length - 1;
  if (chosen) {
    from = bars.findIndex((bar) => bar.section === chosen.section && bar.bar >= chosen.first && bar.bar <= chosen.last);
    if (from < 0) return null;
    to = from;
    const ends = (bar) => bar && bar.section === chosen.section && bar.bar >= chosen.first && bar.bar <= chosen.last;
    while (ends(bars[to + 1]) && bars[to + 1].bar > bars[to].bar) to += 1;
  }
  return { from, to, start: bars[from].start, end: bars[to].end };
}

/** Speeds of the passes: factors, or one that stays. The last stays for as long as it is looped. */
export function speeds({ speed, ladder }) {
  if (!ladder) return [speed];
  const { from, to, step, times } = ladder;
  const rungs = [];
  const count = Math.min(99, Math.floor(Math.abs(to - from) / step + 1e-9));
  for (let n = 0; n <= count; n++) rungs.push(from + n * step * Math.sign(to - from || 1));
  if (rungs[rungs.length - 1] !== to) rungs.push(to);
  return rungs.flatMap((rung) => Array(times).fill(rung / 100));
}

/** Clicks of a count-in: seconds before the first bar at the study's tempo (negative), the first of each bar accented.
 *
 * Before a bar that is not whole (a pickup) whole bars are counted, of which it is the end.
 */
export function countIn(performance, at, bars) {
  const bar = performance.bars[at];
  const next = performance.bars[at + 1];
  const alike = next && next.section === bar.section && next.whole_seconds > bar.whole_seconds + 1e-4 && bar.bar === 0;
  const whole = alike ? next : bar;
  const beats = Math.max(1, whole.clicks.length);
  const beat = whole.whole_seconds / beats;
  const start = alike ? bar.whole_seconds - bars * whole.whole_seconds : -bars * whole.whole_seconds;
  const found = [];
  for (let n = 0; n < beats * bars && start + n * beat < -1e-6; n++) found.push({ at: start + n * beat, accent: n % beats === 0, counting: true });
  return found;
}

/** All that is struck in one pass, in order: seconds from its beginning at the study's tempo. */
export function struck(performance, part, { click, drone, line = true }) {
  const items = [];
  for (const sound of performance.sounds) {
    if (sound.start < part.start - 1e-6 || sound.start >= part.end - 1e-6) continue;
    if (sound.part === "drone" && !drone) continue;
    if (sound.part === "line" && !line) continue;
    items.push({ at: sound.start - part.start, sound });
  }
  if (click) {
    for (const bar of performance.bars.slice(part.from, part.to + 1)) {
      for (const each of bar.clicks) items.push({ at: each.at - part.start, click: { accent: each.accent, counting: false } });
    }
  }
  return items.sort((a, b) => a.at - b.at);
}

/** A performance from the service, each bar with its clicks and its length. Clicks and bars are in the order of time. */
export function beaten(performance) {
  const clicks = performance.clicks.filter((click) => !click.counting);
  let at = 0;
  for (const bar of performance.bars) {
    while (at < clicks.length && clicks[at].at < bar.start - 1e-4) at += 1;
    bar.clicks = [];
    while (at < clicks.length && clicks[at].at < bar.end - 1e-4) bar.clicks.push(clicks[at++]);
    bar.whole_seconds = bar.end - bar.start;
  }
  for (const sound of performance.sounds) sound.bend ??= [];
  return performance;
}
