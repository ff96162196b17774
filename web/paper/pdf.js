// web/paper/pdf.js: sheets as a PDF of exact size. Its library is loaded with the first one.

import { INCH_MM } from '../state/desk.js';
import { CAPS_APART, DASHES, PENS, SHEET, widthOf } from './sheet.js';
import { forPdf, inPdfFonts } from './names.js';
import { NO_LETTERS } from './words.js';

/** Paper sizes [mm]: ISO 216; ANSI/ASME Y14.1 size A. */
export const PAPERS = { A4: [210, 297], Letter: [215.9, 279.4] };
const TOP_MM = 10;

/** Whether anything the maker typed cannot be written into a PDF.
 * @param {import('./sheet.js').Sheet[]} sheets */
export const lacksLetters = (sheets) => sheets.some(({ parts }) => parts.some((part) =>
  part.is === 'text' && !inPdfFonts(part.text)));

/**
 * @param {import('./sheet.js').Sheet[]} sheets @param {keyof typeof PAPERS} paper
 * @param {{title: string}} of
 * @returns {Promise<Blob>}
 */
export async function pdfOf(sheets, paper, { title }) {
  const { jsPDF } = await import('jspdf');
  const [width, height] = PAPERS[paper];
  const doc = new jsPDF({ unit: 'mm', format: [width, height], compress: true, putOnlyUsedFonts: true });
  // Without this, viewers shrink the page into the printer's margins.
  doc.viewerPreferences({ PrintScaling: 'None' });
  doc.setProperties({ title: inPdfFonts(title) ? forPdf(title) : 'Canewright', creator: 'Canewright' });
  const left = (width - SHEET.width) / 2;
  sheets.forEach((sheet, i) => {
    if (i > 0) doc.addPage([width, height]);
    doc.setLineCap('butt');
    let lacked = false;  // said once for a name of several lines
    for (const part of sheet.parts) {
      const lacks = part.is === 'text' && !inPdfFonts(part.text);
      if (!(lacks && lacked)) draw(doc, part, left, TOP_MM);
      lacked = lacks;
    }
  });
  return doc.output('blob');
}

/** @param {import('jspdf').jsPDF} doc @param {import('./sheet.js').Part} part
 * @param {number} dx @param {number} dy */
function draw(doc, part, dx, dy) {
  if (part.is === 'line') {
    pen(doc, part.pen);
    doc.line(part.x1 + dx, part.y1 + dy, part.x2 + dx, part.y2 + dy, 'S');
  } else if (part.is === 'circle') {
    pen(doc, part.pen);
    doc.circle(part.x + dx, part.y + dy, part.r, part.filled ? 'FD' : 'S');
  } else if (part.is === 'block') {
    doc.rect(part.x + dx, part.y + dy, part.width, part.height, 'F');
  } else {
    words(doc, part, dx, dy);
  }
}

/** @param {import('jspdf').jsPDF} doc @param {import('./sheet.js').TextPart} part
 * @param {number} dx @param {number} dy */
function words(doc, { text, x, y, size, anchor, bold, serif, caps, turned }, dx, dy) {
  const whole = inPdfFonts(text);
  doc.setFont(serif && whole ? 'times' : 'helvetica', bold && whole ? 'bold' : 'normal');
  doc.setFontSize((whole ? size : Math.min(size, 2.4)) * 72 / INCH_MM);
  const charSpace = caps ? size * CAPS_APART : 0;
  const shown = whole ? forPdf(text) : NO_LETTERS;
  // The library's own alignment forgets the space between capitals, counts kerning that it never sets
  // and knows widths to two decimals.
  const wide = serif || !whole ? doc.getTextWidth(shown) : widthOf(shown, size, { bold, caps });
  const before = anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0;
  doc.text(shown, x + dx - before, y + dy, { angle: turned ? 90 : 0, charSpace });
}

/** @param {import('jspdf').jsPDF} doc @param {import('./sheet.js').Pen} name */
function pen(doc, name) {
  doc.setLineWidth(PENS[name]);
  doc.setLineDashPattern(name === 'dash' || name === 'chain' ? DASHES[name] : [], 0);
}
