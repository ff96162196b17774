// tools/icons.mjs -- draws the page's icons from the one in web/index.html. Run by hand when it changes.
//
//   node tools/icons.mjs       writes web/icons/*.png; the same browser gives the same bytes
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { chromium } from 'playwright-core';

const root = new URL('../web/', import.meta.url);
const html = readFileSync(new URL('index.html', root), 'utf8');
const svg = decodeURIComponent(html.match(/rel="icon"[^>]*href="data:image\/svg\+xml,([^"]*)"/)[1]);
const square = svg.replace(" rx='6'", ''); // to the edge: the system cuts its own corners

// A maskable icon may be cut to a circle of 4/5 of its width (W3C, Web Application Manifest): the
// drawing shrinks to 3/4 about the middle, the ground stays.
const shrunk = square.replace(/(<rect[^>]*>)(.*)(<\/svg>)/,
  "$1<g transform='translate(4 4) scale(.75)'>$2</g>$3");

const ICONS = { 192: [svg, 192], 512: [svg, 512], maskable: [shrunk, 512], 180: [square, 180] };

const browser = await chromium.launch({ args: ['--no-sandbox'],
  executablePath: process.env.CANEWRIGHT_CHROMIUM ?? '/usr/bin/chromium' });
mkdirSync(new URL('icons/', root), { recursive: true });
for (const [name, [drawing, px]] of Object.entries(ICONS)) {
  const page = await browser.newPage({ viewport: { width: px, height: px } });
  await page.goto(`data:image/svg+xml,${encodeURIComponent(drawing)}`);
  const bytes = await page.screenshot({ omitBackground: true });
  writeFileSync(new URL(`icons/${name}.png`, root), bytes);
  console.log(`${String(bytes.length).padStart(6)} bytes  icons/${name}.png`);
  await page.close();
}
await browser.close();
