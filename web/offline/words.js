// web/offline/words.js: what the page says of its own versions, and of working without a network.

// offline.js: what stands at the foot of the page, after the version
export const FILE_WORKS = ' This file works without a network.';
export const PAGE_WORKS = ' Works without a network.';

// offline.js: the offer of a new version
export const NEW_VERSION = 'A new version is ready. ';
export const USE_IT = 'Use it';
export const LATER = 'Later';

// offline.js: the version
export const NOT_BUILT = 'Canewright, not built.';
/** @param {string} version @param {string} date @param {string} commit */
export const builtWords = (version, date, commit) => `Canewright ${version} of ${date} (${commit}).`;
/** @param {string} version */
export const undatedWords = (version) => `Canewright ${version}, unversioned.`;
export const HASH = 'SHA-256 ';
