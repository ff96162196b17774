// web/widgets/hold.js: a button that is held repeats, in larger steps after a while. Loaded with the first press.

const FIRST_WAIT_MS = 400;
const NEXT_WAIT_MS = 90;

/** @param {HTMLElement} button @param {{times: number, since: number}} press times acted; since when it is held: 0
 *   is not held any more @param {(times: number) => void} act */
export function hold(button, press, act) {
  const { since } = press;
  if (since === 0) return;  // let go of before this was loaded
  const again = () => {
    if (press.since !== since || !button.isConnected) return;
    press.times += 1;
    act(press.times > 15 ? 10 : 1);
    setTimeout(again, NEXT_WAIT_MS);
  };
  setTimeout(again, since + FIRST_WAIT_MS - performance.now());
}
