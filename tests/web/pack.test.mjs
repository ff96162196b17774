// tests/web/pack.test.mjs -- the build's last step: same bytes twice, nothing left out or behind.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, describe, it } from 'node:test';
import { versionOf } from '../../tools/pack/common.mjs';
import { packFile } from '../../tools/pack/file.mjs';
import { leanPdf } from '../../tools/pack/pdf.mjs';
import { packSite } from '../../tools/pack/site.mjs';

const scratch = mkdtempSync(join(tmpdir(), 'canewright-pack-'));
after(() => rmSync(scratch, { recursive: true }));
// What the page calculates with is of no matter here.
const core = join(scratch, 'core');
mkdirSync(core);
for (const name of ['canewright', 'workshop']) {
  writeFileSync(join(core, `${name}.wasm`), Buffer.from('0061736d01000000', 'hex'));
  writeFileSync(join(core, `${name}.js`), `export default async () => '${name}';`);
}
const made = (name) => join(scratch, name);
const files = (folder) => readdirSync(folder, { recursive: true }).sort()
  .filter((name) => statSync(join(folder, name)).isFile());
const read = (...path) => readFileSync(join(...path));
const hash = (algorithm, bytes, form) => createHash(algorithm).update(bytes).digest(form);

describe('the site', () => {
  it('is the same twice, byte for byte, and names a hash that sha256sum confirms', async () => {
    const version = await packSite({ core, out: made('one') });
    await packSite({ core, out: made('a longer name') });
    const names = files(made('one'));
    assert.deepEqual(files(made('a longer name')), names);
    assert.ok(names.length > 12);
    for (const name of names) {
      assert.ok(read(made('one'), name).equals(read(made('a longer name'), name)), name);
    }
    const sums = names.filter((name) => !['sw.js', 'text/version.js'].includes(name))
      .sort((a, b) => (a < b ? -1 : 1)) // as LC_ALL=C sort does
      .map((name) => `${hash('sha256', read(made('one'), name), 'hex')}  ${name}\n`).join('');
    assert.equal(version.SHA256, hash('sha256', sums, 'hex'));
    for (const name of ['sw.js', 'text/version.js']) {
      assert.ok(read(made('one'), name).includes(version.SHA256), name);
    }
  });

  it('loads at the start what carries its plain name, and later what carries a hash', () => {
    const names = files(made('one')).filter((name) => name.endsWith('.js'));
    for (const name of ['main.js', 'engine/worker.js', 'offline/begin.js']) {
      assert.ok(names.includes(name));
      const text = String(read(made('one'), name));
      assert.doesNotMatch(text, /\bimport\s*[{*"\w][^("]*"/, `${name} waits for another file`);
    }
    for (const name of names.filter((n) => n.startsWith('parts'))) assert.match(name, /-[0-9A-Z]{8}\.js$/);
    assert.match(String(read(made('one'), 'main.js')), /import\("\.\/parts\/bench-/);
  });
});

describe('the single file', () => {
  it('is the same twice, and its policy names what is in it and nothing else', async () => {
    await packFile({ core, out: made('a.html') });
    await packFile({ core, out: made('b.html') });
    const html = String(read(made('a.html')));
    assert.equal(html, String(read(made('b.html'))));
    const policy = html.match(/Content-Security-Policy" content="([^"]*)"/)[1];
    const inline = [html.match(/<script>([^]*?)<\/script>/)[1], html.match(/<style>([^]*?)<\/style>/)[1]];
    assert.equal(html.match(/<script>/g).length, 1);
    for (const text of inline) assert.ok(policy.includes(`'sha256-${hash('sha256', text, 'base64')}'`));
    assert.match(policy, /^default-src 'none'; script-src ('sha256-[^']{44}' ){2}'wasm-unsafe-eval'; style-src 'sha256-[^']{44}' 'sha256-[^']{44}'; /);
    assert.doesNotMatch(policy, /unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|https?:|\*/);
    assert.doesNotMatch(html, /<(?:script|link|img)[^>]*(?:src|href)="(?!data:)/);
  });
});

describe('what is packed', () => {
  it('comes out as it went in, whatever its length', async () => {
    const html = String(read(made('a.html')));
    // The page's own reader, in a page that has only these elements.
    const elements = Object.fromEntries(['core', 'rooms', 'program'].map((id) =>
      [id, { textContent: html.match(new RegExp(`id="${id}">([^<]*)</script>`))[1] }]));
    globalThis.document = { getElementById: (id) => elements[id] };
    const { unpacked } = await import('../../web/single/unpack.js');
    assert.deepEqual(Buffer.from(await unpacked('core')), read(core, 'workshop.wasm'));
    const policy = html.match(/Content-Security-Policy" content="([^"]*)"/)[1];
    for (const id of ['rooms', 'program']) {
      const part = Buffer.from(await unpacked(id));
      assert.ok(policy.includes(`'sha256-${hash('sha256', part, 'base64')}'`), id);
    }
    delete globalThis.document;
  });
});

describe('the library of the sheets', () => {
  const whole = readFileSync(new URL('../../node_modules/jspdf/dist/jspdf.es.js', import.meta.url), 'utf8');
  it('has no pictures, web pages or forms, and is said where a version of it has another form', () => {
    const lean = leanPdf(whole);
    assert.ok(lean.length < 0.55 * whole.length, `${lean.length} of ${whole.length}`);
    assert.doesNotMatch(lean, /html2canvas|addImage_|WebPDecoder|AcroFormField/);
    assert.match(lean, /standard_fonts_metrics/);
    for (const lost of [' * @name context2d\n', 'jsPDF.API.processPNG = ', 'var AcroForm = ']) {
      assert.throws(() => leanPdf(whole.replace(lost, '')), /another form/, lost);
    }
  });
});

describe('the version', () => {
  it('takes its day from SOURCE_DATE_EPOCH', () => {
    // 2001-09-09T01:46:40Z is 1e9 seconds after the epoch (POSIX).
    assert.equal(versionOf({ SOURCE_DATE_EPOCH: '1000000000' }).DATE, '2001-09-09');
    assert.match(versionOf({}).DATE, /^(\d{4}-\d\d-\d\d|unversioned)$/);
  });
});
