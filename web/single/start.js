// web/single/start.js: for canewright.html: one program, run by the page and by its workers.

import './program.js';

if (typeof document === 'undefined') {
  void import('../engine/worker.js');
} else {
  void import('../main.js');
  void import('../offline/begin.js');
}
