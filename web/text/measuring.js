// web/text/measuring.js: ways to measure a tube with what lies on the bench.

/** @type {[string, string][]} */
export const HOW_TO_MEASURE = [
  ['Bore, with calipers', 'Inside jaws, lightly, at both ends. Turn a quarter: two readings that '
    + 'differ mean an oval bore. For the middle see ‘Other ways to find the bore’. A step: two '
    + 'places, a millimetre apart.'],
  ['Wall', 'Calipers at the cut end, or outside diameter less bore, halved. Measure where the '
    + 'finger holes go, as cane is rarely round.'],
  ['Length', 'A steel ruler or tape laid along the tube, zero at the line. Do not add up short '
    + 'pieces.'],
];
