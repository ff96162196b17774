// web/voice/breath/breath.js: how hard each note may be blown, and how far off the octave is there.

/// <reference path="../types.d.ts" />
import { h, s as svg, say } from '../../widgets/dom.js';
import { octaves } from './octaves.js';
import { signed } from '../../text/numbers.js';
import { nameOf, pascals, waterMm } from '../words.js';
import { AT_PITCH, BREATH, BREATH_OF_NOTES, HARD, HARD_UNKNOWN, HOW_TO_READ, JUMPS, JUMP_SIGN, NOTE, OCTAVE, PA, RESONANCES, RESONATES, SECOND_AT, SOFT,
  barsRun, endsWords, hertz, calibrationWords, mapAria, noMap, noteWhy, octaveWords } from './words.js';

/** @param {VoiceSession} session */
export function breath(session) {
  const lead = h('p', { class: 'note' });
  const body = h('tbody');
  const table = h('table', { class: 'notes breaths' }, h('caption', { class: 'unseen' }, BREATH_OF_NOTES),
    h('thead', {}, h('tr', {}, h('th', { scope: 'col' }, NOTE, h('span', { class: 'small under' }, PA)),
      ...[SOFT, AT_PITCH, HARD, OCTAVE].map((words) => h('th', { scope: 'col', class: 'right' }, words)))), body);
  const holder = h('div', { class: 'breaths-holder', tabindex: 0, role: 'group', 'aria-label': BREATH_OF_NOTES }, table);
  const read = h('p', { class: 'note' });
  const help = h('details', { class: 'how-read' }, h('summary', {}, HOW_TO_READ), read);
  const resonances = h('div', { class: 'breaths-holder' });
  session.watch((_s, v) => [v.now, v.of], (s, v) => {
    const { now } = v;
    const why = now === null ? null : noMap(now);
    holder.hidden = help.hidden = now === null || why !== null;
    say(lead, now === null ? '' : why ?? calibrationWords(now));
    resonances.replaceChildren(...(now !== null && why !== null ? resonating(now.notes, v.of ?? s.answer) : []));
    if (now === null || why !== null) return body.replaceChildren();
    const { least, most } = reach(now.notes);
    say(read, barsRun(least, most));
    const answer = v.of ?? s.answer;
    const first = now.notes.filter((note) => note.register === 1);
    body.replaceChildren(...first.reverse().flatMap((note) => lines(note, now.notes.find((other) =>
      other.register === 2 && other.open.join() === note.open.join()), answer, least, most)));
  });
  return h('section', { 'aria-label': BREATH }, h('h3', {}, BREATH), lead, resonances, holder, help, octaves(session));
}

/** Where nothing can be said of the breath: what the tube resonates at all the same.
 * @param {NoteBreath[]} notes @param {Answer} answer @returns {Node[]} */
function resonating(notes, answer) {
  const first = notes.filter(({ register, hz }) => register === 1 && hz !== null).reverse();
  const cell = (/** @type {string} */ words) => h('td', { class: 'right' }, words);
  return first.length === 0 ? [] : [h('table', { class: 'notes resonances' }, h('caption', { class: 'unseen' }, RESONANCES),
    h('thead', {}, h('tr', {}, h('th', { scope: 'col' }, NOTE), ...[RESONATES, SECOND_AT, OCTAVE].map((words) =>
      h('th', { scope: 'col', class: 'right' }, words)))),
    h('tbody', {}, ...first.map(({ open, hz }) => {
      const second = notes.find((other) => other.register === 2 && other.open.join() === open.join());
      return h('tr', {}, h('th', { scope: 'row' }, nameOf(answer, open)), cell(hertz(hz)), cell(hertz(second?.hz ?? null)), octaveCell(second));
    })))];
}

/** From the softest to the hardest of all. @param {NoteBreath[]} notes */
export function reach(notes) {
  const all = notes.flatMap(({ pa, jumps_up_pa: jump }) => [pa?.soft, pa?.at_pitch, pa?.hard, jump])
    .flatMap((each) => (typeof each === 'number' && each > 0 ? [each] : []));
  return { least: Math.min(...all) / 1.1, most: Math.max(...all) * 1.1 };
}

/** @param {NoteBreath} note @param {NoteBreath | undefined} second @param {Answer} answer
 * @param {number} least @param {number} most */
function lines(note, second, answer, least, most) {
  const name = nameOf(answer, note.open);
  const head = h('th', { scope: 'row' }, name);
  if (note.pa === null) return [h('tr', {}, head, h('td', { colspan: 4 }, noteWhy(note.why)))];
  const { pa, water_mm: water } = note;
  const jump = note.jumps_up_pa;
  /** @param {number | null | undefined} value @param {number | null | undefined} mm of water @param {string} [sign] */
  const cell = (value, mm, sign = '') => h('td', { class: 'right' }, ...(typeof value !== 'number' ? [HARD_UNKNOWN]
    : [`${pascals(value)}${sign}`, typeof mm === 'number' && h('span', { class: 'small under' }, waterMm(mm))]));
  return [h('tr', { class: 'figures' }, head, cell(pa.soft, water?.soft), cell(pa.at_pitch, water?.at_pitch),
    cell(pa.hard, water?.hard, typeof jump === 'number' ? ` ${JUMP_SIGN}` : ''),
    octaveCell(second)),
  h('tr', { class: 'bars' }, h('td', { colspan: 5 }, bar(note, second, least, most),
    h('span', { class: 'small under' }, endsWords(note, second))))];
}

/** Faint unless it is clean. @param {NoteBreath | undefined} second */
function octaveCell(second) {
  const off = second?.cents_from_octave;
  const at = second?.pa?.at_pitch;
  return h('td', { class: `right octave${second?.octave?.clean === true ? ' clean' : ''}` }, typeof off === 'number' ? signed(off) : HARD_UNKNOWN,
    h('span', { class: 'small under' }, typeof at === 'number' ? `${pascals(at)} Pa` : ''),
    h('span', { class: 'small under' }, octaveWords(second)));
}

/** From soft to hard, a dot where it is in tune, a stroke where it jumps; the octave above in outline.
 * @param {NoteBreath} note @param {NoteBreath | undefined} second @param {number} least @param {number} most */
function bar(note, second, least, most) {
  /** @param {number} pa each doubling is as long as any other */
  const x = (pa) => 100 * Math.log(pa / least) / Math.log(most / least);
  /** @param {NoteBreath | undefined} of @param {string} name @param {number} y */
  const span = (of, name, y) => {
    const { soft, hard, at_pitch: middle } = of?.pa ?? { soft: null, hard: null, at_pitch: null };
    if (soft === null || middle === null) return [];
    const end = hard ?? of?.jumps_up_pa ?? most;
    return [svg('rect', { x: x(soft), y, width: Math.max(0.5, x(end) - x(soft)), height: 4, class: name })];
  };
  const { pa, jumps_up_pa: jump } = note;
  return svg('svg', { viewBox: '0 0 100 12', preserveAspectRatio: 'none', class: 'breath-bar', role: 'img',
    'aria-label': mapAria(note), focusable: 'false' },
  ...span(second, 'octave', 7), ...span(note, 'first', 1),
  ...(typeof pa?.at_pitch === 'number' ? [svg('rect', { x: x(pa.at_pitch) - 0.6, y: 0, width: 1.2, height: 6, class: 'dot' })] : []),
  ...(typeof jump === 'number' ? [svg('rect', { x: x(jump) - 0.3, y: 0, width: 0.6, height: 12, class: 'jump' },
    svg('title', {}, JUMPS))] : []));
}
