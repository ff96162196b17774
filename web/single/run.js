// web/single/run.js: for canewright.html: unpacks the style of the rooms that are opened later and the
// page's program, and runs it. The policy in the page's head names both by their hashes: changed ones
// would not run.

import { unpacked } from './unpack.js';

/** @param {string} id of what is packed @param {string} kind of element that it becomes */
async function put(id, kind) {
  const element = document.createElement(kind);
  element.textContent = new TextDecoder().decode(await unpacked(id));
  document.head.append(element);
}

put('rooms', 'style').then(() => put('program', 'script')).catch((error) => {
  const lead = document.querySelector('#stations .lead');
  if (lead) lead.textContent = `This file needs a newer browser. (${String(error)})`;
});
