// web/widgets/pack.js: rows beside a drawing: each as near its mark as the others let it, in order.

/**
 * @param {number[]} wanted where each row's top would like to be, rising
 * @param {number[]} heights
 * @param {number} limit the height there is; more than all heights together
 * @returns {number[]} the tops
 */
export function pack(wanted, heights, limit) {
  /** @type {{first: number, count: number, size: number, sum: number, top: number}[]} */
  const blocks = [];
  wanted.forEach((want, i) => {
    blocks.push({ first: i, count: 1, size: heights[i], sum: want, top: 0 });
    for (;;) {
      const block = blocks[blocks.length - 1];
      // A block of touching rows stands where its rows' wishes agree best.
      block.top = Math.max(0, Math.min(block.sum / block.count, limit - block.size));
      const above = blocks[blocks.length - 2];
      if (above === undefined || above.top + above.size <= block.top) break;
      above.sum += block.sum - block.count * above.size;
      above.count += block.count;
      above.size += block.size;
      blocks.pop();
    }
  });
  return blocks.flatMap(({ first, count, top }) => {
    let next = top;
    return Array.from({ length: count }, (_, k) => {
      const here = next;
      next += heights[first + k];
      return here;
    });
  });
}
