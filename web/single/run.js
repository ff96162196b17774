// web/single/run.js: for canewright.html: unpacks the page's program and runs it. The policy in the
// page's head names the program by its hash: a changed one would not run.

import { unpacked } from './unpack.js';

unpacked('program').then((bytes) => {
  const script = document.createElement('script');
  script.textContent = new TextDecoder().decode(bytes);
  document.head.append(script);
}).catch((error) => {
  const lead = document.querySelector('#stations .lead');
  if (lead) lead.textContent = `This file needs a newer browser. (${String(error)})`;
});
