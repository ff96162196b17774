// web/voice/making/steps_laid.js: a step's views one below the other: from mm to px, with tools and terms. Draws nothing.

/** @typedef {import('./steps.js').View} View */
/** @typedef {import('./steps.js').Point} Point */
/** @typedef {{what: string, points: Point[], closed: boolean, head: boolean}} Line */
/** @typedef {{what: string, text: string, x: number, y: number}} Word  its middle, and its foot */
/** @typedef {{width: number, height: number, lines: Line[], words: Word[], dots: Point[]}} Laid */

const MOST_PX_MM = 16;
const LETTER_WIDE = 0.72;   // of its height, a letter is at most on average, also in broad types
const RIM_PX = 3;
const BREAK_PX = 4;

// Tools, their tips at 0 0, lying to the right of them; below is what they cut. [px, at 320 px of width]
/** @type {Record<string, {parts: [what: string, points: Point[]][], way: Point[]}>} */
const TOOLS = {
  knife: { parts: [['blade', [[0, 0], [10, -9], [44, -9], [44, 0]]], ['handle', [[44, -10], [80, -11], [84, -5], [80, 1], [44, 1]]]],
    way: [[40, -19], [4, -19]] },
  file: { parts: [['blade', [[-50, -8], [50, -8], [50, 0], [-50, 0]]], ['handle', [[50, -6], [60, -10], [84, -10], [84, 2], [60, 2], [50, -2]]]],
    way: [[30, -17], [-30, -17]] },
  drill: { parts: [['blade', [[0, 0], [6, -6], [46, -6], [46, 6], [6, 6]]], ['handle', [[46, -10], [66, -10], [66, 10], [46, 10]]]],
    way: [[44, 17], [8, 17]] },
};

/** @param {View[]} views @param {number} width [px] @param {number} letter [px]
 * @param {(what: string) => string} say @returns {Laid} */
export function laidOut(views, width, letter, say) {
  /** @type {Laid} */
  const out = { width, height: 0, lines: [], words: [], dots: [] };
  const row = letter * 1.3;
  const small = letter * 0.88;
  let y = row;
  /** @param {string} what @param {string} text @param {number} x @param {number} at */
  const write = (what, text, x, at) => {
    const half = text.length * (what === 'whither' ? small : letter) * LETTER_WIDE / 2;
    out.words.push({ what, text, x: Math.max(half, Math.min(width - half, x)), y: at });
  };
  write('whither', say('mouth'), 0, y - row * 0.25);
  write('whither', say('foot'), width, y - row * 0.25);
  for (const view of views) {
    if (view.kind !== 'along') {
      y += row * 1.4;
      write('whither', say(view.kind), 0, y - row * 0.25);
    }
    y = oneView(view, y, out, { width, letter, row, say, write });
  }
  out.height = y + RIM_PX;
  return out;
}

/** @param {View} view @param {number} begin @param {Laid} out
 * @param {{width: number, letter: number, row: number, say: (what: string) => string,
 *   write: (what: string, text: string, x: number, y: number) => void}} how @returns {number} where it ends */
function oneView(view, begin, out, { width, letter, row, say, write }) {
  const tall = view.kind === 'end' ? width * 0.4 : width * 0.55;
  const scale = Math.min(MOST_PX_MM, (width - 2 * RIM_PX) / (view.to - view.from), tall / (view.high - view.low));
  const left = (width - (view.to - view.from) * scale) / 2;
  const over = labelRows(view, false);
  const under = labelRows(view, true);
  const tools = view.tools.map(toolAt);
  const highest = Math.min(0, ...tools.flatMap(({ lines }) => lines.flatMap((line) => line.points.map((p) => p[1]))));
  const named = tools.length > 0 ? row : 0;
  const top = begin + over.count * row + Math.max(-highest + named, over.count > 0 ? row * 0.5 : 0) + RIM_PX;
  const bottom = top + (view.high - view.low) * scale;

  /** @param {number} at */
  function x(at) { return left + (at - view.from) * scale; }
  /** @param {number} up */
  const y = (up) => top + (view.high - up) * scale;
  /** @param {Point[]} points @returns {Point[]} */
  const px = (points) => points.map(([at, up]) => [x(at), y(up)]);
  /** @param {string} what @param {Point[]} points @param {boolean} closed @param {boolean} [head] */
  const put = (what, points, closed, head = false) => { if (points.length > 1) out.lines.push({ what, points, closed, head }); };

  for (const { what, points } of view.bodies) put(what, px(clipped(points, view)), true);
  for (const cut of view.cuts) put('cut', px(clipped(cut, view)), true);
  if (view.kind !== 'end') for (const at of [view.from, view.to]) put('break', zigzag(x(at), top, bottom - top, false), false);
  if (view.kind === 'end') put('break', zigzag(x(view.from), bottom, x(view.to) - x(view.from), true), false);
  for (const { points } of view.bodies.filter((body) => body.what === 'plug' && body.points.some(([, up]) => up < view.low))) {
    const [a, b] = clipped(points, view).reduce(([least, most], [at]) => [Math.min(least, x(at)), Math.max(most, x(at))],
      [Infinity, -Infinity]);
    if (a < b) put('break', zigzag(a, bottom, b - a, true), false);
  }
  for (const { what, points } of view.lines) put(what, px(points.map(within)), false, what === 'way' || what === 'breath');
  for (const { lines, bare, kind } of tools) {
    for (const line of lines) put(line.what, line.points.map(([a, b]) => [a, b + top]), line.what !== 'way', line.what === 'way');
    write('tool', say(kind), (Math.min(...bare.map((p) => p[0])) + Math.max(...bare.map((p) => p[0]))) / 2, top + highest - row * 0.25);
  }
  for (const rows of [over, under]) {
    for (const { label, middle, row: n } of rows.placed) {
      const end = rows === under ? bottom + row * (n + 0.5) : begin + row * (over.count - n) + row * 0.1;
      const [point] = px([within([label.at, label.up])]);
      put('leader', [point, [middle, end]], false);
      out.dots.push(point);
      write('term', say(label.what), middle, rows === under ? end + letter : end - letter * 0.3);
    }
  }
  return bottom + (under.count > 0 ? row * (under.count + 0.5) : 0) + RIM_PX;

  /** @param {Point} point @returns {Point} */
  function within([at, up]) {
    return [Math.max(view.from, Math.min(view.to, at)), Math.max(view.low, Math.min(view.high, up))];
  }

  /** The tool in px, its height counted from the view's top, moved aside where it would leave the picture.
   * @param {View['tools'][number]} tool */
  function toolAt({ kind, at, up, degrees }) {
    const k = Math.min(1, width / 320);
    const turn = -degrees * Math.PI / 180;
    const mirror = degrees > 90 ? -1 : 1;  // what cuts stays below
    /** @param {Point} point @returns {Point} */
    const turned = ([a, b]) => [k * (a * Math.cos(turn) - mirror * b * Math.sin(turn)), k * (a * Math.sin(turn) + mirror * b * Math.cos(turn))];
    const parts = [...TOOLS[kind].parts, /** @type {[string, Point[]]} */ (['way', TOOLS[kind].way])]
      .map(([what, points]) => ({ what, points: points.map(turned) }));
    const all = parts.flatMap(({ points }) => points.map((p) => p[0]));
    const tip = Math.max(RIM_PX - Math.min(...all), Math.min(width - RIM_PX - Math.max(...all), x(at)));
    const down = (view.high - up) * scale;
    const lines = parts.map(({ what, points }) => ({ what, points: points.map(([a, b]) => /** @type {Point} */ ([a + tip, b + down])) }));
    return { kind, lines, bare: lines.flatMap(({ points }) => points) };
  }

  /** Terms side by side, in as many rows as they need. @param {View} of @param {boolean} below */
  function labelRows(of, below) {
    /** @type {number[]} */
    const ends = [];
    const placed = of.labels.filter((one) => one.under === below).sort((a, b) => a.at - b.at).map((label) => {
      const half = say(label.what).length * letter * LETTER_WIDE / 2;
      const middle = Math.max(half, Math.min(width - half, x(label.at)));
      let n = ends.findIndex((end) => end <= middle - half);
      if (n < 0) n = ends.length;
      ends[n] = middle + half + letter * 0.6;
      return { label, middle, row: n };
    });
    return { placed, count: ends.length };
  }
}

/** Where the picture ends and the tube goes on, it is broken off. @param {number} x @param {number} y
 * @param {number} long @param {boolean} lying @returns {Point[]} */
const zigzag = (x, y, long, lying) => Array.from({ length: 9 }, (_, i) => {
  const [along, aside] = [long * i / 8, (i % 2 === 0 ? -1 : 1) * BREAK_PX / 2];
  return lying ? [x + along, y + aside] : [x + aside, y + along];
});

/** What of a shape lies within the view: edge by edge (Sutherland and Hodgman 1974).
 * @param {Point[]} points @param {View} view @returns {Point[]} */
export function clipped(points, { from, to, low, high }) {
  /** @type {[axis: 0 | 1, limit: number, sign: 1 | -1][]} */
  const sides = [[0, from, 1], [0, to, -1], [1, low, 1], [1, high, -1]];
  return sides.reduce((left, [axis, limit, sign]) => left.flatMap((b, i) => {
    const a = left[(i + left.length - 1) % left.length];
    const [inA, inB] = [a, b].map((p) => (p[axis] - limit) * sign >= 0);
    if (inA === inB) return inB ? [b] : [];
    const share = (limit - a[axis]) / (b[axis] - a[axis]);
    /** @type {Point} */
    const met = axis === 0 ? [limit, a[1] + share * (b[1] - a[1])] : [a[0] + share * (b[0] - a[0]), limit];
    return inB ? [met, b] : [met];
  }), points);
}
