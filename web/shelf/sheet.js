// web/shelf/sheet.js: the shelf's style sheet, loaded when the first part of it is shown.

/** @type {Promise<void> | null} */
let loading = null;

/** Resolves when the sheet is there, or could not be had: the page works without. */
export function sheet() {
  loading ??= new Promise((done) => {
    // canewright.html has every sheet in itself already.
    if (getComputedStyle(document.documentElement).getPropertyValue('--shelf') !== '') return done();
    const link = document.createElement('link');
    link.rel = 'stylesheet';
    link.href = 'style-shelf.css';
    link.onload = () => done();
    link.onerror = () => done();
    document.head.append(link);
  });
  return loading;
}
