// web/song/air/words.js: rooms, concert pitch and air.

/// <reference path="../../types.d.ts" />
import { centsWords } from '../../text/numbers.js';

export const ROOMS = 'Rooms';
export const WORKSHOP = { label: 'Workshop', note: 'while you tune' };
export const PLAYED_IN = { label: 'Played in', note: 'empty: as the workshop' };
export const PITCH_AND_AIR = 'Pitch and air';
export const PITCH = 'Concert pitch';
export const IN_TUNE = 'In tune within';
export const LIFT = { label: 'Breath lifts high notes', note: 'an octave up; empty: not planned' };
export const HUMIDITY = 'Humidity';
export const PRESSURE = 'Air pressure';

/** @param {Spread} sure @param {Doc} doc */
export function climateSentences({ climate, at_c: at }, doc) {
  if (climate === null || at === undefined) return '';
  const { cents_10_to_30_c: all, per_c: each } = climate;
  const shop = doc.air?.room_c;
  const moves = `This flute moves by ${centsWords(all)} between a room of 10 and one of 30 °C, ${
    centsWords(each)} for each degree.`;
  const off = shop === undefined ? 0 : each * (shop - at);
  const where = doc.song.play_c === undefined ? 'the room of your workshop' : 'the room it is played in';
  const tuned = `It is tuned for ${where}, ${degrees(at)}`;
  if (shop === undefined || Math.abs(shop - at) < 0.05) return `${moves} ${tuned}.`;
  return `${moves} ${tuned}: in the workshop at ${degrees(shop)} it has to read ${
    Math.abs(off) < 0.05 ? 'the same' : `${centsWords(off)} ${off < 0 ? 'flat' : 'sharp'}`}.`;
}

/** @param {number} c */
const degrees = (c) => `${String(Math.round(c * 10) / 10).replace('-', '−')} °C`;
