// tools/pack/parts.mjs -- one script for the start, others for what is loaded later.
//
// What both need is in the first only, and the others import it from there: a bundler's own way, a
// file for every set of users, would give a first visit a handful of small files to wait for.
import { readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { build } from 'esbuild';

export const PARTS = 'parts'; // the folder of what is loaded later

const IMPORT = /^\s*(?:import|export)\s+([^'";]*?)\s+from\s+['"]([^'"]+)['"]/gm;
const EXPORT = /^export (?:async )?(?:const|let|function\*?|class) ([\w$]+)/gm;

/** Which files the first script needs at once, and which are loaded later as a whole. */
async function graph(web, first, options) {
  const { metafile } = await build({ ...options, entryPoints: [first], metafile: true, write: false,
    format: 'esm', splitting: true });
  const { inputs } = metafile;
  const reach = (from, seen = new Set()) => {
    if (seen.has(from)) return seen;
    seen.add(from);
    for (const { path, kind, external } of inputs[from]?.imports ?? []) {
      if (!external && kind === 'import-statement') reach(path, seen);
    }
    return seen;
  };
  const now = reach(first);
  const dynamic = Object.values(inputs).flatMap((i) => i.imports)
    .filter((i) => i.kind === 'dynamic-import' && !i.external && !i.path.includes(':'))
    .map((i) => i.path);
  const own = (path) => !path.startsWith('..') && !path.includes(':');
  return { now, dynamic: [...new Set(dynamic)].sort(), own: Object.keys(inputs).filter(own).sort() };
}

/** The names that files outside `now` import from files inside it: "file name" -> short name. */
function shared(web, { now, dynamic, own }) {
  const wanted = new Set();
  const text = (file) => readFileSync(join(web, file), 'utf8');
  for (const file of own.filter((name) => !now.has(name))) {
    for (const [, names, path] of text(file).matchAll(IMPORT)) {
      const target = join(dirname(file), path);
      if (!path.startsWith('.') || !now.has(target)) continue;
      const list = names.match(/^\{([^}]*)\}$/);
      if (!list) throw new Error(`${file}: import { names } from '${path}', not everything at once`);
      for (const name of list[1].split(',').map((n) => n.trim().split(/\s+as\s+/)[0])) {
        if (name !== '') wanted.add(`${target} ${name}`);
      }
    }
  }
  for (const file of dynamic.filter((name) => now.has(name))) {
    for (const [, name] of text(file).matchAll(EXPORT)) wanted.add(`${file} ${name}`);
  }
  return new Map([...wanted].sort().map((key, i) => [key, `e${i.toString(36)}`]));
}

/**
 * @param {string} web folder of the sources @param {string} first the script for the start
 * @param {object} options esbuild's @returns {Promise<{path: string, text: string}[]>}
 */
export async function inParts(web, first, options) {
  const found = await graph(web, first, options);
  const { now } = found;
  const names = shared(web, found);
  const lazy = found.dynamic.filter((file) => !now.has(file));
  const exportsOf = (file) => [...names].filter(([key]) => key.startsWith(`${file} `))
    .map(([key, short]) => [key.split(' ')[1], short]);
  const inside = (args) => relative(web, join(args.resolveDir, args.path));

  const fromFirst = { name: 'what the first script has', setup(builder) {
    builder.onResolve({ filter: /^first:/ }, () => ({ path: `../${first}`, external: true }));
    builder.onLoad({ filter: /\.js$/ }, ({ path }) => {
      const file = relative(web, path);
      if (!found.own.includes(file)) return undefined;
      if (now.has(file)) { // loaded later by a script that has other parts of it at once
        return { contents: `export { ${exportsOf(file).map(([name, short]) =>
          `${short} as ${name}`).join(', ')} } from 'first:';` };
      }
      return { contents: readFileSync(path, 'utf8').replace(IMPORT, (line, list, from) => {
        const target = join(dirname(file), from);
        if (!from.startsWith('.') || !now.has(target)) return line;
        return line.replace(/([\w$]+)(\s+as\s+[\w$]+)?(?=\s*[,}])/g, (_, name, as) =>
          `${names.get(`${target} ${name}`)}${as ?? ` as ${name}`}`).replace(from, 'first:');
      }) };
    });
  } };
  const later = lazy.length === 0 ? { outputFiles: [], metafile: { outputs: {} } } : await build({
    ...options, entryPoints: lazy, metafile: true, write: false, format: 'esm', splitting: true,
    entryNames: `${PARTS}/[name]-[hash]`, chunkNames: `${PARTS}/[name]-[hash]`,
    plugins: [fromFirst, ...options.plugins] });
  const fileOf = new Map(Object.entries(later.metafile.outputs)
    .filter(([, o]) => o.entryPoint).map(([path, o]) => [o.entryPoint, path]));

  const toParts = { name: 'what is loaded later', setup(builder) {
    builder.onResolve({ filter: /^\./ }, (args) => {
      if (args.kind !== 'dynamic-import') return undefined;
      const part = fileOf.get(inside(args));
      return part && { path: `./${relative(dirname(first), part)}`.replace('./../', '../'), external: true };
    });
  } };
  const give = [...new Set([...names.keys()].map((key) => key.split(' ')[0]))].map((file) =>
    `export { ${exportsOf(file).map((pair) => pair.join(' as ')).join(', ')} } from './${file}';`);
  const start = await build({ ...options, write: false, format: 'esm', outfile: join(web, first),
    outdir: undefined, outbase: undefined, plugins: [toParts, ...options.plugins],
    stdin: { contents: [`import './${first}';`, ...give].join('\n'), resolveDir: web } });
  return [...start.outputFiles, ...later.outputFiles]
    .map(({ path, text }) => ({ path: relative(web, path), text }));
}
