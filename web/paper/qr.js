// web/paper/qr.js: the link to a flute as a QR code.

import { NO_CODE, NO_CODE_FILE, NO_CODE_LONG } from './words.js';

/**
 * @param {Desk} desk
 * @returns {Promise<{code: import('./card.js').Code | null, url: string, why: string}>} `why` there
 *   is none
 */
export async function linkCode(desk) {
  if (!/^https?:$/.test(location.protocol)) {
    return { code: null, url: '', why: NO_CODE_FILE };
  }
  try {
    const { log: _, ...doc } = desk.store.get().good;
    const workshop = await desk.engine.workshop();
    const { answer } = await workshop.link(doc);
    if (!answer) throw new Error('no link');
    const { code } = await import('../widgets/qr.js');
    const url = `${location.origin}${location.pathname}#${answer.link}`;
    const drawn = code(url);
    return drawn !== null ? { code: drawn, url, why: '' } : { code: null, url, why: NO_CODE_LONG };
  } catch {
    return { code: null, url: '', why: NO_CODE };
  }
}
