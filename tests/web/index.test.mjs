// tests/web/index.test.mjs -- the page's frame: every module announced, nothing inline or foreign.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { describe, it } from 'node:test';

const web = new URL('../../web/', import.meta.url);
const html = readFileSync(new URL('index.html', web), 'utf8');
const files = readdirSync(web, { recursive: true }).map((name) => name.replaceAll('\\', '/'));
const modules = files.filter((name) => name.endsWith('.js'));
const text = (name) => readFileSync(new URL(name, web), 'utf8');

describe('index.html', () => {
  it('announces every module, so that a slow line fetches them all at once', () => {
    const announced = [...html.matchAll(/rel="modulepreload" href="([^"]+)"/g)].map((m) => m[1]);
    // main.js is the script itself, worker.js a program of its own.
    const loaded = modules.filter((name) => !['main.js', 'engine/worker.js'].includes(name));
    assert.deepEqual([...announced].sort(), [...loaded, 'core/canewright.js'].sort());
    const imports = modules.flatMap((name) => [...text(name)
      .matchAll(/^(?:import|export) [^;]*? from '([^']+)';/gms)].map((m) => m[1]));
    assert.ok(imports.length > 40);
    assert.ok(imports.every((path) => /^\.\.?\//.test(path)));
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
});
