// web/single/program.js: for canewright.html: the text of the running script, which is its workers'
// too. Read at once: later the browser no longer says which script is running.

export const program = globalThis.document?.currentScript?.textContent ?? '';
