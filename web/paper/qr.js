// web/paper/qr.js: the link to a flute as a QR code.

/**
 * @param {Desk} desk
 * @returns {Promise<{code: import('./card.js').Code | null, url: string, why: string}>} `why` there
 *   is none
 */
export async function linkCode(desk) {
  if (!/^https?:$/.test(location.protocol)) {
    return { code: null, url: '', why: 'No link as a QR code: this page is a file on one machine, where '
      + 'no phone can open it.' };
  }
  try {
    const { log: _, ...doc } = desk.store.get().good;
    const workshop = await desk.engine.workshop();
    const { answer } = await workshop.link(doc);
    if (!answer) throw new Error('no link');
    const { code } = await import('../widgets/qr.js');
    const url = `${location.origin}${location.pathname}#${answer.link}`;
    const drawn = code(url);
    return drawn !== null ? { code: drawn, url, why: '' } : { code: null, url, why: 'No link as a QR '
      + 'code: it is too long for one that a phone reads. Pass it on as a link.' };
  } catch {
    return { code: null, url: '', why: 'No link as a QR code: the link could not be made here.' };
  }
}
