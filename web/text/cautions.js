// web/text/cautions.js: the usual cautions, short, where the hand is. They vary with the material.

export const PLASTIC = /plastic|pvc|\babs\b|acryl|nylon|hdpe|\bpex?\b|poly|(?<!copper |steel |brass |iron |metal |bamboo )pipe/i;

/** @param {string} material @returns {{title: string, lines: string[]}[]} */
export function cautions(material) {
  const plastic = PLASTIC.test(material);
  const sawn = /wood|dowel/i.test(material);
  const dust = plastic
    ? 'Dust mask and eye protection. Plastic swarf is sharp: brush it off, never blow it.'
    : `Dust mask and eye protection: ${sawn ? 'wood' : 'cane and bamboo'} dust harms the lungs.`;
  const groups = [{
    title: 'Saw and drill',
    lines: [
      'Clamp the tube. Never hold it in the hand under a bit.',
      dust,
      ...(plastic ? ['Drill slowly and cool: hot plastic grabs the bit.']
        : ['Tape round the tube where you drill or saw keeps it from splitting.']),
    ],
  }];
  groups.push(plastic ? {
    title: 'No hot rod',
    lines: ['Never burn plastic pipe: the fumes are poisonous. Drill it, or file it.'],
  } : {
    title: 'Hot rod',
    lines: [
      'Burn outdoors or with extraction, with gloves, water at hand.',
      'Bare steel only: never galvanised, plated or painted metal. Never burn plastic pipe.',
      'Let it cool, and clear char and dust, before every test blow.',
    ],
  });
  if (!plastic) {
    groups.push({
      title: 'The plant',
      lines: ['Never elder, oleander, yew, hemlock or hogweed, nor anything sprayed, treated or unknown.',
        ...(sawn ? [] : ['Split cane is sharp as a knife: take its edges off at once.'])],
    });
  }
  groups.push({
    title: 'At the mouth',
    lines: ['A finish that is safe for the mouth. In a group, a mouthpiece each, or disinfect it.'],
  }, {
    // NIOSH recommends at most 85 dB(A) over a working day (read in 2026, on its own pages).
    title: 'Ears',
    lines: ['A room of beginners is loud: short turns, or ear plugs.'],
  }, {
    title: 'Children and rules',
    lines: [
      'Children drill and burn only with an adult.',
      'Local rules, and people trained or licensed for this work, come before this page.',
    ],
  });
  return groups;
}
