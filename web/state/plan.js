// web/state/plan.js: the plan of a build under way, kept with the version of the page that reckoned it.
//
// Readings move marks, and should. A newer version of the page reckons the same log otherwise, and must
// not move a mark that may be on the tube already without a word: the marks stay the old ones until the
// maker has seen what would move and by how much, and has chosen.
//
// The plan lies beside the document, not in it: it is no entry of the maker's, and a document that
// changed with each answer would be asked about again and again. The keeper's slots have had the marks
// of each flute anyway (for the shelf's pictures) and now name who reckoned them; a file carries them,
// and a link, below `x`, where unknown keys travel whole.

import { COMMIT, SHA256, VERSION } from '../text/version.js';
import { logOf, standing } from './build.js';
import { isObject } from './keep.js';

/** This version. Both forms of the page of one commit have another hash; what they reckon is the same,
 * and then nothing is said. */
export const BUILD = [VERSION, COMMIT, SHA256.slice(0, 8)].join(' ').trim();
const MOVED_MM = 0.1;     // what a ruler shows
const MOVED_CENTS = 1;

/** @param {Answer} answer @returns {Marks} */
export const marksOf = ({ foot_mm, finger_holes, notes }) => ({ foot_mm, finger_holes, by: BUILD,
  lowest: notes.find((n) => n.open.length === 0)?.name, cents: notes.map((n) => n.cents) });

/** What is kept of a flute's marks: those of the plan that stands. @param {Pick<State, 'answer' | 'plan'>} s */
export const keptMarks = ({ answer, plan }) => plan?.marks ?? marksOf(answer);

/** @param {any} marks @returns {marks is Marks} */
export const isMarks = (marks) => isObject(marks) && Number.isFinite(marks.foot_mm)
  && Array.isArray(marks.finger_holes) && marks.finger_holes.every((hole) => isObject(hole)
    && Number.isFinite(hole.at_mm) && Number.isFinite(hole.diameter_mm));

/** All that a plan follows from but the log. @param {Doc} doc */
function rest(doc) {
  const { log: _log, name: _name, show: _show, x: _x, ...more } = doc;
  return JSON.stringify(more);
}

/** What would move. @param {Doc} doc @param {Marks} from @param {Marks} to
 * @returns {Move[]} empty: nothing that can be seen or heard */
export function moves(doc, from, to) {
  const stand = standing(doc);
  if (from.finger_holes.length !== to.finger_holes.length) return [];
  /** @type {Move[]} */
  const found = to.finger_holes.flatMap((now, i) => {
    const { at_mm, diameter_mm } = from.finger_holes[i];
    if (stand.holes.has(i + 1)) return [];  // cut: it is where it is
    return [...(Math.abs(now.at_mm - at_mm) > MOVED_MM
      ? [{ what: /** @type {const} */ ('hole'), number: i + 1, from: at_mm, to: now.at_mm }] : []),
    ...(Math.abs(now.diameter_mm - diameter_mm) > MOVED_MM
      ? [{ what: /** @type {const} */ ('size'), number: i + 1, from: diameter_mm, to: now.diameter_mm }] : [])];
  });
  const foot_mm = Math.min(from.foot_mm, stand.foot_mm);
  if (Math.abs(to.foot_mm - foot_mm) > MOVED_MM) {
    found.push({ what: 'foot', number: 0, from: foot_mm, to: to.foot_mm });
  }
  (to.cents ?? []).forEach((cents, i) => {
    const before = from.cents?.[i];
    if (found.length > 0 || typeof before !== 'number' || typeof cents !== 'number') return;
    if (Math.abs(cents - before) > MOVED_CENTS) found.push({ what: 'note', number: i, from: before, to: cents });
  });
  return found;
}

/** The kept plan of a build where another version reckoned it, and otherwise; else null.
 * @param {unknown} marks as kept @param {Doc} doc they are of @param {Answer} answer of this version
 * @returns {Plan | null} */
export function planOf(marks, doc, answer) {
  if (logOf(doc).length === 0 || !isMarks(marks)) return null;
  const now = marksOf(answer);
  const settled = marks.by === BUILD && marks.kept !== true;
  if (settled || moves(doc, marks, now).length === 0) return null;
  return { marks, now, rest: rest(doc), log: logOf(doc).length, kept: marks.kept === true };
}

/** Whether a plan is still that of a document: its log may have grown. @param {Plan} plan @param {Doc} doc */
const isOf = (plan, doc) => logOf(doc).length >= plan.log && rest(doc) === plan.rest;

/** An answer with the old marks where nothing is cut yet, and what the notes then sound.
 * @param {Workshop} workshop @param {Plan} plan @param {Answer} answer @returns {Promise<Answer>} */
export async function pinned(workshop, plan, answer) {
  const stand = standing(answer);
  const holes = answer.finger_holes.map((hole, i) => {
    if (stand.holes.has(i + 1)) return hole;
    const { at_mm, diameter_mm, inner_diameter_mm = diameter_mm } = plan.marks.finger_holes[i];
    return { ...hole, at_mm, diameter_mm, inner_diameter_mm };
  });
  const whole = { ...answer, foot_mm: Math.min(plan.marks.foot_mm, stand.foot_mm), finger_holes: holes };
  const sounds = (await workshop.sound(whole)).answer?.notes ?? [];
  const notes = answer.notes.map((note, i) => ({ ...note, hz: sounds[i]?.hz ?? null,
    cents: sounds[i]?.cents ?? null }));
  const cane = { ...answer.cane, spare_mm: stand.foot_mm - whole.foot_mm };
  return { ...whole, cane, notes, binding: [], worst_cents: Math.max(...notes.map((n) => Math.abs(n.cents ?? 0))) };
}

/** From now on the plan that stands is heeded by whoever asks for marks. @param {Desk} desk */
export function planAlways({ store, engine }) {
  engine.afterwards(async (doc, solved) => {
    const { plan } = store.get();
    const { answer } = solved.layout;
    if (plan === null || !answer) return solved;
    const now = marksOf(answer);
    if (!isOf(plan, doc) || moves(doc, plan.marks, now).length === 0) {
      // Another flute is no reason to let go of this one's plan; the maker's own change is.
      if (store.get().doc === doc) store.change((s) => ({ ...s, plan: null }));
      return solved;
    }
    const kept = plan.kept && logOf(doc).length === plan.log;
    store.change((s) => (s.plan === plan ? { ...s, plan: { ...plan, now, kept, log: logOf(doc).length } } : s));
    return { ...solved, layout: { answer: await pinned(await engine.workshop(), plan, answer) } };
  });
}

/** The new marks. @param {Store} store */
export const takeNew = (store) => store.change((s) => ({ ...s, plan: null, doc: { ...s.doc } }));

/** The old ones, until the log says more. @param {Store} store */
export const keepOld = (store) => store.change((s) => (s.plan === null ? s
  : { ...s, plan: { ...s.plan, kept: true, marks: { ...s.plan.marks, kept: true } } }));

/** The place of a step of the bench by the plan that stands. @param {NextStep} next @param {Plan | null} plan
 * @returns {NextStep} */
export function planned(next, plan) {
  const { step } = next;
  const hole = step.do === 'hole' && !step.until ? plan?.marks.finger_holes[(step.number ?? 0) - 1] : undefined;
  if (hole === undefined || step.at_mm === undefined || Math.abs(hole.at_mm - step.at_mm) <= MOVED_MM) return next;
  // What the cut will do was reckoned for the other place.
  return { ...next, step: { ...step, at_mm: hole.at_mm }, expect_cents: null };
}

/** With a document that goes away as a link or a file. @param {Doc} doc @param {Marks} marks @returns {Doc} */
export function withPlan(doc, { foot_mm, finger_holes, by, kept }) {
  if (logOf(doc).length === 0) return doc;
  /** @param {number} mm */
  const round = (mm) => Math.round(mm * 1000) / 1000;
  const plan = { by, foot_mm: round(foot_mm), ...(kept ? { kept } : {}), finger_holes: finger_holes
    .map(({ at_mm, diameter_mm }) => ({ at_mm: round(at_mm), diameter_mm: round(diameter_mm) })) };
  return { ...doc, x: { ...(isObject(doc.x) ? doc.x : {}), plan } };
}

/** And as it comes back. @param {Doc} whole @returns {{doc: Doc, marks: Marks | null}} */
export function withoutPlan(whole) {
  const { x, ...bare } = whole;
  if (!isObject(x) || !('plan' in x)) return { doc: whole, marks: null };
  const { plan, ...left } = x;
  return { doc: Object.keys(left).length > 0 ? { ...bare, x: left } : bare, marks: isMarks(plan) ? plan : null };
}
