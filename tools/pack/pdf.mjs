// tools/pack/pdf.mjs -- the parts of jsPDF that the page's sheets are made with.
//
// Its one file has what reads pictures, web pages and forms; a sheet is lines, circles and text in the
// fonts that every reader has. Each part left out has a name in the file: a version of the library in
// which one is not found does not build.
import { readFileSync } from 'node:fs';
import { join, dirname } from 'node:path';

/** Modules by the library's own names ("@name ... @module"). */
const LEFT_OUT = ['arabic', 'autoprint', 'canvas', 'cell', 'context2d', 'fileloading', 'html', 'javascript', 'outline',
  'jpeg_support', 'gif_support', 'bmp_support', 'webp_support', 'rgba_support', 'svg'];
/** What is in no module: [from here, to the end of the first line like this]. */
const PIECES = [
  ['jsPDF.API.processPNG = ', /^\};$/m],
  ['var jsPDFAPI = jsPDF.API;', /^var AcroForm = jsPDF\.AcroForm;$/m],
  ['function WebPDecoder(', /^\}$/m],
  ['WebPDecoder.prototype.getData = ', /^\};$/m],
  ['BmpDecoder.prototype.parseHeader = ', /^BmpDecoder\.prototype\.getData = [^]*?^\};$/m],
];
const PICTURES = '  var namespace = "addImage_";';  // the module of pictures, which has no name
const FORMS = /(?<=^export \{).*(?=\bGState\b)/m;  // what of them the file gives away

/** The text without what stands from `start` to the line that is `end`, which has to be there.
 * @param {string} text @param {number} start @param {RegExp} end at line starts */
function without(text, start, end) {
  const found = start < 0 ? null : end.exec(text.slice(start));
  if (found === null) throw new Error('a part of jsPDF that is left out has another form');
  return text.slice(0, start) + text.slice(start + found.index + found[0].length);
}

/** @param {string} text jspdf.es.js */
export function leanPdf(text) {
  let lean = text;
  for (const name of LEFT_OUT) {
    const at = lean.search(new RegExp(`^ \\* @name ${name}\\n \\* @module`, 'm'));
    lean = without(lean, at < 0 ? at : lean.indexOf('(function (', at), /^\}\)\(jsPDF(?:\.API)?\);$/m);
  }
  lean = without(lean, lean.lastIndexOf('(function (', lean.indexOf(PICTURES)), /^\}\)\(jsPDF\.API\);$/m);
  for (const [from, to] of PIECES) lean = without(lean, lean.indexOf(`\n${from}`), to);
  return lean.replace(FORMS, ' ');
}

/** For esbuild. */
export const LEAN_PDF = {
  name: 'lean pdf',
  /** @param {import('esbuild').PluginBuild} builder */
  setup(builder) {
    builder.onLoad({ filter: /jspdf\.es\.min\.js$/ }, ({ path }) => ({
      contents: leanPdf(readFileSync(join(dirname(path), 'jspdf.es.js'), 'utf8')) }));
  },
};
