// tools/pack/common.mjs -- what the site and the single file are both made of.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { transform } from 'esbuild';
import { LEAN_PDF } from './pdf.mjs';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

/** The form in which a policy names an inline script or style. */
export const policyHash = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/** Every file of a folder, sorted by name, with '/' whatever the system. */
export const filesIn = (folder) => readdirSync(folder, { recursive: true })
  .filter((name) => statSync(join(folder, name)).isFile())
  .map((name) => relative(folder, join(folder, name)).split(sep).join('/'))
  .sort();

/** What `sha256sum FILES` prints. */
export const sums = (folder, names) => names
  .map((name) => `${sha256(readFileSync(join(folder, name)))}  ${name}\n`).join('');

/**
 * Version from package.json; commit and day from git. SOURCE_DATE_EPOCH (reproducible-builds.org)
 * goes before the commit's time; without git and without it the build says 'unversioned'.
 */
export function versionOf(env = process.env) {
  const git = (...words) => {
    try {
      return execFileSync('git', ['-C', ROOT, ...words],
        { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
    } catch {
      return ''; // no git, no repository, or another's
    }
  };
  const own = existsSync(join(ROOT, '.git')); // not that of a folder around an unpacked archive
  // Ten digits always: git's own choice depends on how much of the history is there.
  const commit = own ? git('describe', '--always', '--dirty', '--abbrev=10') : '';
  const seconds = env.SOURCE_DATE_EPOCH || (own ? git('log', '-1', '--format=%ct') : '');
  return {
    VERSION: JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')).version,
    COMMIT: commit || 'unversioned',
    DATE: /^\d+$/.test(seconds) ? new Date(seconds * 1000).toISOString().slice(0, 10) : 'unversioned',
  };
}

/** The text of web/text/version.js with the values in it. */
export const versionText = (version) => Object.entries(version)
  .map(([name, value]) => `export const ${name} = ${JSON.stringify(value)};\n`).join('');

/** jsPDF asks for these only where HTML or a PNG goes into a PDF, which this page never does. */
const UNUSED = {
  name: 'unused',
  setup(builder) {
    builder.onResolve({ filter: /^(canvg|dompurify|fast-png|html2canvas)$/ },
      ({ path }) => ({ path, namespace: 'unused' }));
    builder.onLoad({ filter: /.*/, namespace: 'unused' }, () => ({
      contents: 'export default null; export const decode = null;' }));
  },
};

/** How every script of the folder `web` is bundled; what it becomes is not written but returned. */
export const bundling = (web, plugins = []) => ({
  absWorkingDir: web, nodePaths: [join(ROOT, 'node_modules')], bundle: true, minify: true, write: false,
  target: 'es2022', charset: 'utf8', legalComments: 'none', logLevel: 'warning',
  outdir: web, outbase: web, plugins: [UNUSED, LEAN_PDF, ...plugins],
});

const plainer = async (text) => (await transform(text, { loader: 'css', minify: true, charset: 'utf8',
  target: ['chrome100', 'firefox100', 'safari15'] })).code;

/** The style sheets as one, in the order in which the page names them; and those that a part of the
 * page brings when it is first shown. */
export async function styles(web, html) {
  const names = [...html.matchAll(/rel="stylesheet" href="([^"]*)"/g)].map((m) => m[1]);
  const sheet = (name) => readFileSync(join(web, name), 'utf8');
  const late = readdirSync(web).filter((name) => name.endsWith('.css') && !names.includes(name)).sort();
  return { first: names[0], code: await plainer(names.map(sheet).join('')),
    later: await Promise.all(late.map(async (name) => ({ name, code: await plainer(sheet(name)) }))) };
}

/** What both commands take: --web FOLDER, --core FOLDER, and where to put it. */
export function fromCommandLine() {
  const words = process.argv.slice(2);
  const option = (name) => {
    const at = words.indexOf(`--${name}`);
    return at < 0 ? undefined : resolve(words.splice(at, 2)[1]);
  };
  return { web: option('web'), core: option('core'), out: words[0] && resolve(words[0]) };
}
