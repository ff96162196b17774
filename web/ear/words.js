// web/ear/words.js: what is said where the page listens: on the bench, and beside a flute that exists.

// The microphone, and why there is none.
export const START_LISTENING = 'Start listening', STOP_LISTENING = 'Stop listening', HOW_LOUD = 'How loud it is';
export const FILTERED = 'The phone is filtering the sound; trust this reading less.';
export const NO_SOUND_SENT = 'No sound is sent.', COPIED = 'Copied';
export const COPY_ADDRESS = 'Copy this page’s address', COPY_YOURSELF = 'Copy it from the address line';
export const NO_MICROPHONE = 'This browser gives the page no microphone. Open the page in the phone’s own browser, or '
  + 'type what any other meter shows.';
export const DENIED = 'The microphone is not allowed for this page. Allow it in the browser’s settings for this page, '
  + 'or type what any other meter shows.';
export const NONE_FOUND = 'No microphone was found. Type what any other meter shows.';
export const INTERRUPTED = 'Listening was interrupted. Start it again.';
export const NOTHING_COMES = 'The microphone gives nothing. Start listening again.';
export const ASKING = 'Asking for the microphone …', GOT_IT = 'Got it. Breathe.', LISTENING = 'Listening.';

// What the ear says: why there is no tone, and how one is held.
/** @type {Record<string, string>} */
export const WHY_NOT = {
  none: 'Blow, and hold the note.',
  bad_input: 'The microphone gives what cannot be read. Start listening again.',
  frame_too_short: 'One moment.',
  silence: 'Nothing to hear yet. Blow, and hold the note.',
  not_periodic: 'Noise, but no note yet. Blow, and hold it.',
  noisy: 'Too much noise around. Come nearer, or find a quieter place.',
  too_low: 'That is a hum or a voice, lower than a flute.',
  too_high: 'That is a whistle, higher than a flute.',
  weak_fundamental: 'That sounds like a voice or a string, not like a flute.',
  gliding: 'It glides. Blow evenly and hold it.',
  too_soft: 'Too soft. Come nearer.',
};
export const HELD = {
  no_tone: 'Blow, and hold the note.',
  too_soft: 'Too soft, or too noisy around. Come nearer.',
  clipped: 'Too loud for the microphone. Move a little away.',
  jumped: 'It jumped to the second register. Blow softer.',
  hold_longer: 'Hold it a little longer, evenly.',
  ready: 'Good, keep holding.',
};
