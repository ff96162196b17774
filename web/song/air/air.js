// web/song/air/air.js: the rooms in which a flute is tuned and played, concert pitch, breath and air.

/// <reference path="../../types.d.ts" />
import { h, say } from '../../widgets/dom.js';
import { plainField } from '../../widgets/field.js';
import { CENTS } from '../words.js';
import { HUMIDITY, IN_TUNE, LIFT, PITCH, PITCH_AND_AIR, PLAYED_IN, PRESSURE, ROOMS, WORKSHOP, climateSentences } from './words.js';

/** @param {Desk} desk @returns {Node} */
export function air(desk) {
  const moves = h('p', { class: 'moves' });
  desk.store.subscribe((s) => say(moves, s.sure === null ? '' : climateSentences(s.sure, s.sureOf)));
  return h('div', {},
    h('h3', {}, ROOMS),
    plainField(desk, 'air.room_c', { ...WORKSHOP, suffix: '°C', step: 1 }).element,
    plainField(desk, 'song.play_c', { ...PLAYED_IN, suffix: '°C', step: 1, optional: true }).element,
    moves,
    h('details', {}, h('summary', {}, PITCH_AND_AIR),
      plainField(desk, 'song.a4_hz', { label: PITCH, suffix: 'Hz', step: 1 }).element,
      plainField(desk, 'song.tolerance_cents', { label: IN_TUNE, suffix: CENTS, step: 1 }).element,
      lift(desk),
      plainField(desk, 'air.humidity_percent', { label: HUMIDITY, suffix: '%', step: 5 }).element,
      plainField(desk, 'air.pressure_kpa', { label: PRESSURE, suffix: 'kPa' }).element));
}

/** How the maker’s breath lifts high notes: what their flutes taught says it better. @param {Desk} desk */
function lift(desk) {
  const { element } = plainField(desk, 'song.lift_cents', { ...LIFT, suffix: CENTS, step: 1, optional: true,
    when: () => !element.hidden });
  desk.store.subscribe((s) => { element.hidden = s.doc.pattern !== undefined; });
  return element;
}
