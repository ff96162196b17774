// web/shelf/listen.js: the shelf listens to what keeping tells, and to the address. Loaded as soon as the
// page has answered; what it shows is loaded when there is something to show.

import { hand } from '../state/keep.js';
import { ownTubes } from '../state/fresh.js';
import { keepAlways } from '../state/keeper.js';
import { copies } from '../state/second.js';

/** Once, when the page has begun. @param {Desk} desk */
export function listen(desk) {
  /** @param {News} news */
  const tell = (news) => void import('./tell.js').then((m) => m.tell(desk, news)).catch(() => {});
  const link = () => void (location.href.includes('#') && import('./opened.js').then((m) => m.opened(desk)));
  // Asked for before the first thing is kept, which could go over a copy that is ahead.
  const begun = { ...hand };
  const before = copies();
  ownTubes(desk);
  keepAlways(desk, tell);
  desk.engine.onRestart(() => tell('restarted'));
  let says = false;
  desk.store.subscribe((s) => {
    if (s.plan === null || says) return;
    says = true;
    import('./moved.js').then((m) => m.sayMoved(desk)).catch(() => { says = false; });
  });
  // Without a database, or storage, there is nothing to recover.
  before.then(async (all) => {
    if (all.length > 0) await (await import('./recover.js')).recover(desk, tell, { all, begun });
  }).catch(() => {});
  addEventListener('hashchange', link);
  link();
}
