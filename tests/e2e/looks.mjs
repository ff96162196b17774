// tests/e2e/looks.mjs -- what must hold of any screen, whatever its width and however large its letters: nothing
// scrolls sideways, no text is cut off or overprints another, the bar stays where the thumb reaches it.

/** Letters of a browser [px]; 16 is what a browser comes with. Media queries in em follow it, as on a phone.
 * @param {import('playwright-core').CDPSession} session */
export const letters = (session, px) => session.send('Page.setFontSizes',
  { fontSizes: { standard: px, fixed: px } });

/** What is wrong with the page as it stands, in words; [] where nothing is. */
export const faultsOf = (page) => page.evaluate(lookOver);

/* Runs in the page. */
function lookOver() {
  const wide = document.documentElement.clientWidth;
  const found = [];
  const root = document.querySelector('dialog[open]') ?? document.body;
  const bar = document.getElementById('bar');
  const scroll = Math.max(document.scrollingElement.scrollWidth, root.scrollWidth);
  if (scroll > wide + 0.5) found.push(`scrolls sideways: ${scroll} of ${wide}`);

  /** What can be read: boxes of text, line by line, and of entries. @type {{text: string, of: Node, box: DOMRect}[]} */
  const all = [];
  const seen = (element) => element.checkVisibility({ opacityProperty: true, visibilityProperty: true })
    && element.closest('.unseen, noscript, option, [hidden]') === null
    && !(getComputedStyle(element).clipPath === 'inset(50%)' || element.closest('.wide-only')?.clientWidth === 1);
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    if (node.data.trim() === '' || !seen(node.parentElement)) continue;
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) {
      if (box.width > 0.5 && box.height > 0.5) all.push({ text: node.data.trim(), of: node, box });
    }
  }
  for (const field of root.querySelectorAll('input:not([type=radio], [type=checkbox], [type=file]), select, textarea')) {
    if (!seen(field)) continue;
    const text = field.value;
    all.push({ text: `[${text}]`, of: field, box: field.getBoundingClientRect() });
    if (field.type !== 'text' || field.classList.contains('words')) continue;
    // What is longer than its line can be scrolled along; a figure is to be read at once.
    if (field.scrollWidth > field.clientWidth + 1) found.push(`cut off in its field: “${text}”`);
  }

  for (const { text, of, box } of all) {
    const owner = of.nodeType === Node.TEXT_NODE ? of.parentElement : of;
    if (box.left < -0.5 || box.right > wide + 0.5) found.push(`beyond the screen: “${text}” ${box.left | 0} to ${box.right | 0}`);
    for (let up = owner; up !== null && up !== document.body; up = up.parentElement) {
      if (getComputedStyle(up).overflowX === 'visible') continue;
      const room = up.getBoundingClientRect();
      if (box.left < room.left - 1 || box.right > room.right + 1) found.push(`cut off: “${text}”`);
      break;
    }
  }

  /** What stands still while the page is scrolled, and what is scrolled, may meet. @returns {Element | null} */
  const layer = (at) => (at === null || getComputedStyle(at).position === 'fixed' ? at : layer(at.parentElement));
  // The letters themselves are lower than their line: accents and feet of neighbours may touch.
  const inner = all.map(({ text, of, box }) => ({ text, of, left: box.left, right: box.right,
    top: box.top + box.height * 0.2, bottom: box.bottom - box.height * 0.2, layer: layer(of.parentElement) }))
    .sort((a, b) => a.top - b.top);
  inner.forEach((a, i) => {
    for (let k = i + 1; k < inner.length && inner[k].top < a.bottom; k += 1) {
      const b = inner[k];
      if (a.of === b.of || a.layer !== b.layer) continue;
      if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - b.top > 1) {
        found.push(`over each other: “${a.text}” and “${b.text}”`);
      }
    }
  });

  if (root === document.body) {
    for (const tab of bar.querySelectorAll('[role=tab]:not([hidden])')) {
      const box = tab.getBoundingClientRect();
      const at = document.elementFromPoint((box.left + box.right) / 2, (box.top + box.bottom) / 2);
      if (at !== tab) found.push(`cannot be tapped: ${tab.textContent}`);
      if (box.height < 44 || box.width < 44) found.push(`small: ${tab.textContent} ${box.width} × ${box.height}`);
      if (box.bottom > innerHeight + 0.5 || box.top < 0) found.push(`off the screen: ${tab.textContent}`);
      if (tab.scrollWidth > tab.clientWidth + 0.5) found.push(`cut off: ${tab.textContent}`);
    }
    const high = bar.getBoundingClientRect().height;
    if (high > innerHeight * 0.3) found.push(`the bar takes ${high} of ${innerHeight}`);
    if (parseFloat(getComputedStyle(document.body).paddingBottom) < high - 1) found.push('the end lies under the bar');
  }
  return [...new Set(found)];
}
