// tests/web/index.test.mjs -- the page's frame: nothing inline or foreign, libraries only by name.
import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { describe, it } from 'node:test';

const web = new URL('../../web/', import.meta.url);
const html = readFileSync(new URL('index.html', web), 'utf8');
const files = readdirSync(web, { recursive: true }).map((name) => name.replaceAll('\\', '/'));
const modules = files.filter((name) => name.endsWith('.js'));
const text = (name) => readFileSync(new URL(name, web), 'utf8');
const { dependencies } = JSON.parse(readFileSync(new URL('../package.json', web), 'utf8'));

describe('index.html', () => {
  it('names only what is there; modules import files beside them or a library we declare', () => {
    const named = [...html.matchAll(/(?:href|src)="([^"]+)"/g)].map((m) => m[1])
      .filter((address) => !/^(data:|core\/)/.test(address)); // core/ comes with the build
    assert.ok(named.length > 5);
    for (const name of named) assert.ok(existsSync(new URL(name, web)), name);
    const imports = modules.flatMap((name) => [...text(name)
      .matchAll(/^(?:import|export) [^;]*? from '([^']+)';/gms)].map((m) => m[1]));
    assert.ok(imports.length > 40);
    const strange = imports.filter((path) => !/^\.\.?\//.test(path)
      && !Object.keys(dependencies).some((name) => path === name || path.startsWith(`${name}/`)));
    assert.deepEqual(strange, []);
  });

  it('has only relative addresses, and no script, style or handler of its own', () => {
    const addresses = [...html.matchAll(/(?:href|src)="([^"]+)"/g)].map((m) => m[1]);
    assert.ok(addresses.length > 5);
    for (const address of addresses) {
      assert.match(address, /^(data:image\/svg\+xml,|[a-z])/);
      assert.doesNotMatch(address, /^(https?:)?\/\//);
    }
    assert.doesNotMatch(html, /<style|<script(?![^>]* src=)|\sstyle=|\son[a-z]+=/);
    for (const name of files.filter((f) => /\.(js|css)$/.test(f))) {
      const foreign = text(name).match(/(?:https?:)?\/\/[a-z][^\s'"]*/g) ?? [];
      const strange = foreign.filter((address) => /:\/\//.test(address)
        && address !== 'http://www.w3.org/2000/svg');
      assert.deepEqual(strange, [], name);
    }
  });

  it('can be installed: a manifest with relative addresses, and icons of the sizes it says', () => {
    const manifest = JSON.parse(text('manifest.webmanifest'));
    assert.equal(manifest.start_url, '.');
    assert.equal(manifest.scope, '.');
    const icons = [...manifest.icons.map(({ src, sizes }) => [src, Number(sizes.split('x')[0])]),
      [html.match(/rel="apple-touch-icon" href="([^"]*)"/)[1], 180]];
    assert.ok(manifest.icons.some((icon) => icon.purpose === 'maskable'));
    for (const [name, px] of icons) {
      // Width and height in the first chunk of a PNG (W3C, Portable Network Graphics, section 11.2.1).
      const head = readFileSync(new URL(name, web)).subarray(0, 24);
      assert.equal(head.subarray(1, 4).toString(), 'PNG', name);
      assert.deepEqual([head.readUInt32BE(16), head.readUInt32BE(20)], [px, px], name);
    }
  });
});
