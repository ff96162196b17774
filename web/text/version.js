// web/text/version.js: which build this is. The build writes the values; these stand in a page that
// was not built. The hash is over the sorted lines of sha256sum for every file but this and sw.js.

export const VERSION = 'unversioned';
/** The last commit, and its day in UTC. */
export const COMMIT = 'unversioned';
export const DATE = 'unversioned';
export const SHA256 = '';
