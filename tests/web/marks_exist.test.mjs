// tests/web/marks_exist.test.mjs -- an answer without a number for a mark does not enter the page.
import assert from 'node:assert/strict';
import { it } from 'node:test';
import { withMarks } from '../../web/engine/marks_exist.js';

const layout = () => ({
  foot_mm: 390, finger_holes: [{ at_mm: 150, diameter_mm: 7 }], worst_cents: 0, cane: { spare_mm: 0 },
  notes: [{ target_hz: 392, hz: 392 }, { target_hz: 784, hz: 784 }],
});
const next = () => ({
  foot_mm: 390, finger_holes: [{ at_mm: 150, diameter_mm: 7 }],
  step: { do: 'foot', at_mm: 400, until: { open: [], hz: 390 } },
});

it('lets good answers, refusals and other verbs through as they are', () => {
  for (const [verb, reply] of [['layout', { answer: layout() }], ['next', { answer: next() }],
    ['layout', { violations: [] }], ['sound', { answer: { notes: [{ hz: null }] } }]]) {
    assert.equal(withMarks(verb, reply), reply);
  }
});

it('makes a fault of every mark that is no number', () => {
  const spoil = [
    ['layout', layout, (a) => { a.foot_mm = null; }],
    ['layout', layout, (a) => { a.finger_holes[0].at_mm = null; }],
    ['layout', layout, (a) => { a.finger_holes[0].diameter_mm = null; }],
    ['layout', layout, (a) => { a.worst_cents = null; }],
    ['layout', layout, (a) => { a.notes[1].target_hz = null; }],
    ['layout', layout, (a) => { delete a.finger_holes; }],
    ['marks', layout, (a) => { a.foot_mm = null; }],
    ['next', next, (a) => { a.step.at_mm = null; }],
    ['next', next, (a) => { a.step.until.hz = null; }],
    ['next', next, (a) => { a.foot_mm = null; }],
  ];
  for (const [verb, make, harm] of spoil) {
    const answer = make();
    harm(answer);
    const reply = withMarks(verb, { answer });
    assert.equal(reply.answer, undefined, String(harm));
    assert.match(reply.fault, /mark/);
  }
});

it('allows that the farthest note is not known where one does not speak', () => {
  const answer = { ...layout(), worst_cents: null };
  answer.notes[1].hz = null;
  assert.equal(withMarks('layout', { answer }).answer, answer);
});
