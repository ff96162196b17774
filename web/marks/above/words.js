// web/marks/above/words.js: what the part "Marks above the sound hole" says; loaded with it.

export const ONE_MOMENT = 'One moment.';
export const NOT_HERE = 'What is proposed for this tube could not be loaded; what was entered stands.';
export const FROM_DATUM = 'Measured as the other marks are; with − towards the mouth. * follows from a size '
  + 'proposed for this tube, not entered.';
export const PART_SIZES = 'Their sizes';
export const ON_VOICE = 'What is proposed is common practice, no source; it decides the breath, hardly the pitch. ';
export const CHANGE_THERE = 'Change or take it on Voice';
