// web/voice/hear/hear.js: the planned flute to listen to, before a hole is drilled.

/// <reference path="../types.d.ts" />
import { h, newId, say } from '../../widgets/dom.js';
import { inLetters } from '../../text/naming.js';
import { noteName } from '../../text/numbers.js';
import { noteQuestion } from '../../widgets/note_names.js';
import { BREATH_SLIDER, DRONE, DRONE_HELP, HEAR, HEAR_LEAD, HEAR_SILENT, IN_TUNE, IN_TUNE_HELP, NOTES, OCTAVES,
  PLAY_TUNE, RECKONING, SCALE, STOP, SWELL, TUNE, TUNE_KEPT, breathWords, chipAria, toneWords, tuneHint,
  tuneWords } from './words.js';
import { HEAD_S, createPlayer, prepare, unpacked, wake } from './play.js';

const NOTE_S = 1;       // what is reckoned of a note
const STEP_S = 0.55;    // of it, in a scale and a tune
const SWELL_S = 4;
const DRONE_S = 3;

/** @param {VoiceSession} session @param {(note: Playable | null) => void} choose told which note it is about */
export function hear(session, choose) {
  /** @type {Map<string, Promise<{tone: ToneAnswer, sound: import('./play.js').Sound | null}>>} */
  let kept = new Map();
  /** @type {Playable[]} */
  let notes = [];
  /** @type {Playable[]} */
  let sequence = [];
  /** @type {Playable[]} the last good one */
  let tune = [];
  /** @type {Playable | null} */
  let chosen = null;
  const now = () => session.voice.get().now;

  const lead = h('p', { class: 'note' }, HEAR_LEAD);
  const status = h('p', { class: 'note sounding-now', role: 'status' });
  const stop = button(STOP, () => {
    drone.checked = false;
    player.drone(null, 1);
    player.stop();
  });
  const chips = h('div', { class: 'chips', role: 'group', 'aria-label': NOTES });
  const octaves = h('div', { class: 'chips', role: 'group', 'aria-label': OCTAVES });
  const octaveTitle = h('p', { class: 'small' }, OCTAVES);
  const slider = h('input', { type: 'range', min: -1, max: 1, step: 0.05, value: 0, id: newId('breath'),
    oninput: tellBreath, onchange: () => { if (chosen !== null) sound([chosen]); } });
  const sliderWords = h('output', { for: slider.id });
  const inTune = h('input', { type: 'checkbox', id: newId('tuned') });
  const drone = h('input', { type: 'checkbox', id: newId('drone'), onchange: () => void drones() });
  const typed = h('input', { type: 'text', id: newId('tune'), autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false',
    onkeydown: (/** @type {KeyboardEvent} */ event) => { if (event.key === 'Enter') void plays(); } });
  const wrong = h('p', { class: 'wrong', id: newId('wrong'), role: 'alert' });
  const hint = h('p', { class: 'small', id: newId('hint') });
  const question = noteQuestion(session.desk, () => void plays());
  typed.setAttribute('aria-describedby', `${hint.id} ${wrong.id}`);

  const player = createPlayer((n) => {
    const note = n < 0 ? null : sequence[n] ?? null;
    for (const chip of element.querySelectorAll('.chip')) {
      chip.classList.toggle('now', note !== null && chip.getAttribute('data-note') === keyOf(note));
    }
    if (note !== null) tell(note);
  });

  /** @param {Playable} note */
  async function tell(note) {
    const { tone } = await toneOf(note, breath(), breath(), NOTE_S);
    say(status, toneWords(note.name, tone, factorOf(tone), now()));
  }
  const breath = () => Number(slider.value);
  function tellBreath() {
    say(sliderWords, breathWords(breath()));
    slider.setAttribute('aria-valuetext', breathWords(breath()));
  }
  /** @param {ToneAnswer} tone */
  const factorOf = (tone) => (inTune.checked && tone.in_tune !== null ? tone.in_tune : 1);

  /** @param {Playable} note @param {number} from @param {number} to @param {number} seconds */
  function toneOf(note, from, to, seconds) {
    const key = `${keyOf(note)} ${from} ${to} ${seconds}`;
    const before = kept.get(key);
    if (before !== undefined) return before;
    const asked = session.ask.tone({ document: note.of, open: note.open, register: note.register, breath: from,
      breath_to: to, seconds }).then((reply) => {
      const tone = reply.answer ?? NOTHING;
      return { tone, sound: tone.samples === null ? null : { samples: unpacked(tone.samples),
        rate: tone.rate_hz ?? 48000, peak: tone.peak_pa ?? 0, hz: tone.heard_hz ?? tone.hz ?? 400 } };
    });
    kept.set(key, asked);
    return asked;
  }

  /** @param {Playable[]} which @param {[number, number]} [way] of the breath @param {number} [seconds] */
  function sound(which, way = [breath(), breath()], seconds = NOTE_S) {
    sequence = which;
    wake();
    const last = which[which.length - 1];
    if (which.length === 1) pick(last);
    const steady = way[0] === way[1];
    const have = (/** @type {number} */ of) => kept.has(`${keyOf(which[0])} ${way[0]} ${way[1]} ${of}`);
    if (!have(seconds) && !(steady && have(HEAD_S))) say(status, RECKONING);
    void player.play(which.length, async (n) => {
      // The first is waited for: its beginning comes first, the rest while that sounds.
      const begins = n === 0 && steady && !have(seconds);
      const first = await toneOf(which[n], way[0], way[1], begins ? HEAD_S : seconds);
      if (first.sound === null || !steady) say(status, toneWords(which[n].name, first.tone, factorOf(first.tone), now()));
      if (first.sound === null) return null;
      const whole = begins ? toneOf(which[n], way[0], way[1], seconds).then(({ sound: all }) => all) : undefined;
      const length = first.sound.samples.length / first.sound.rate + (begins ? seconds - HEAD_S : 0);
      return { sound: first.sound, factor: factorOf(first.tone), whole,
        seconds: which.length > 1 && n < which.length - 1 ? STEP_S : length };
    });
  }
  /** @param {Playable} note */
  function pick(note) {
    chosen = note;
    choose(note);
    for (const chip of element.querySelectorAll('.chip')) {
      chip.setAttribute('aria-pressed', String(chip.getAttribute('data-note') === keyOf(note)));
    }
  }
  async function drones() {
    wake();
    const [lowest] = notes;
    if (!drone.checked || lowest === undefined) return player.drone(null, 1);
    const { tone, sound: one } = await toneOf(lowest, 0, 0, DRONE_S);
    if (!drone.checked) return;
    if (one === null) say(status, toneWords(lowest.name, tone, 1, now()));
    player.drone(one, tone.in_tune ?? 1);
  }
  async function plays() {
    const [any] = notes;
    if (any === undefined) return;
    wake();
    const { text, asks } = inLetters(typed.value);
    question.show(asks);
    if (asks !== null) return;
    const reply = await session.ask.tune({ document: any.of, tune: text });
    if (reply.answer) {
      const found = reply.answer.notes;
      tune = found.map((note) => ({ ...note, name: noteName(note.name), of: any.of }));
    }
    const faults = reply.violations ?? [];
    typed.setAttribute('aria-invalid', String(faults.length > 0));
    say(wrong, faults.length === 0 ? '' : faults.slice(0, 3).map(tuneWords).join(' ') + (tune.length > 0 ? TUNE_KEPT : ''));
    if (tune.length > 0) sound(tune);
  }

  /** Reckons how the notes begin while nobody waits, so that a touch sounds at once. @param {Playable[]} which
   * @param {Map<string, unknown>} mine */
  async function ready(which, mine) {
    for (const note of which) {
      if (mine !== kept || session.desk.store.get().station !== 'voice') return;
      await toneOf(note, 0, 0, HEAD_S);
      prepare();
    }
  }

  const element = h('section', { class: 'hear-it', 'aria-label': HEAR }, h('h3', {}, HEAR), lead,
    chips, octaveTitle, octaves,
    h('div', { class: 'breath-line' }, h('label', { for: slider.id }, BREATH_SLIDER), slider, sliderWords),
    h('div', { class: 'deeds' }, button(SWELL, () => { if (chosen !== null) sound([chosen], [-1, 1], SWELL_S); }),
      button(SCALE, () => {
        const up = notes.filter(({ register }) => register === 1);
        sound([...up, ...up.slice(0, -1).reverse()]);
      }), stop),
    status,
    check(inTune, IN_TUNE, IN_TUNE_HELP), check(drone, DRONE, DRONE_HELP),
    h('div', { class: 'tune-line' }, h('label', { for: typed.id }, TUNE), typed, button(PLAY_TUNE, () => void plays())),
    hint, question.element, wrong);
  tellBreath();
  session.watch((_s, v) => [v.now, v.of], (s, v) => {
    player.stop();
    player.drone(null, 1);
    drone.checked = false;
    kept = new Map();
    tune = [];
    const of = v.of ?? s.answer;
    const all = v.now?.notes ?? [];
    // Where the breath is beyond the reckoning nothing sounds, but the air in the tube can be seen.
    const silent = !all.some((note) => note.hz !== null && note.pa !== null);
    notes = all.flatMap((note) => {
      if (note.hz === null || (note.pa === null && !silent)) return [];
      const first = of.notes.find((each) => each.open.join() === note.open.join())?.name;
      const name = noteName(first ?? '') || note.open.join(' ');
      return [{ open: note.open, register: note.register, of, name: note.register === 1 ? name : octaveUp(name), hz: note.hz }];
    }).sort((a, b) => a.hz - b.hz);
    const firsts = notes.filter(({ register }) => register === 1);
    const seconds = notes.filter(({ register }) => register === 2);
    const make = (/** @type {Playable} */ note) => {
      const chip = button(note.name, () => (silent ? pick(note) : sound([note])));
      chip.classList.add('chip');
      chip.setAttribute('data-note', keyOf(note));
      chip.setAttribute('aria-label', chipAria(note));
      chip.setAttribute('aria-pressed', 'false');
      return chip;
    };
    chips.replaceChildren(...firsts.map(make));
    octaves.replaceChildren(...seconds.map(make));
    octaveTitle.hidden = octaves.hidden = seconds.length === 0;
    element.hidden = firsts.length === 0;
    say(status, '');
    say(hint, tuneHint());
    notes = [...firsts, ...seconds];
    if (firsts.length > 0) pick(firsts[0]);
    else choose(null);
    element.classList.toggle('silent', silent);
    say(lead, silent ? HEAR_SILENT : HEAR_LEAD);
    if (!silent) void ready(firsts, kept);
  });
  return element;
}

/** @type {ToneAnswer} */
const NOTHING = { hz: null, heard_hz: null, holds: false, pa: null, in_tune: null, why: null, seconds: null, rate_hz: null,
  peak_pa: null, samples: null };
/** @param {{open: number[], register: number}} note */
const keyOf = ({ open, register }) => `${register}:${open.join('-')}`;
/** "G4" an octave up: "G5". @param {string} name */
const octaveUp = (name) => name.replace(/-?\d+$/, (octave) => String(Number(octave) + 1));
/** @param {string} words @param {() => void} act */
const button = (words, act) => h('button', { type: 'button', class: 'plain', onclick: act }, words);
/** @param {HTMLInputElement} box @param {string} words @param {string} help */
const check = (box, words, help) => h('div', { class: 'check-line' }, box, h('label', { for: box.id }, words),
  h('span', { class: 'small' }, help));
