// web/voice/size_field.js: a length of the voice: an optional one, written finer where a tenth of a millimetre is a lot.

/// <reference path="./types.d.ts" />
import { field, lengthField } from '../widgets/field.js';
import { lengthReader } from '../state/readers.js';
import { unitOf } from '../state/desk.js';
import { fine } from '../text/numbers.js';
import { isThin } from './words.js';

/** @param {Desk} desk @param {string} path
 * @param {{label: string, full?: string, note?: string, when?: () => boolean}} how */
export const sizeField = (desk, path, how) => (isThin(path) ? field(desk, path, { ...how,
  read: lengthReader(desk.engine, { optional: true }), write: fine,
  aside: (_mm, s) => (unitOf(s) === 'inch' ? 'in' : 'mm') })
  : lengthField(desk, path, { ...how, optional: true, steps: false }));
