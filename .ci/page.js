// Opens pages in Chromium at 360 and 800 pixels, light and dark, and lets axe-core look
// at them. Arguments: a folder for pictures of them or "", then the pages.
const { chromium } = require('playwright-core');
const path = require('path');
const { pathToFileURL } = require('url');

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

async function look(browser, file, colorScheme, width, folder) {
  const context = await browser.newContext({ colorScheme, viewport: { width, height: 740 } });
  const page = await context.newPage();
  await page.goto(pathToFileURL(path.resolve(file)).href);
  const name = `${path.basename(file, '.html')} ${colorScheme} ${width}`;
  if (folder) await page.screenshot({ path: path.join(folder, name.replaceAll(' ', '-') + '.png'), fullPage: true });
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  await page.addScriptTag({ path: require.resolve('axe-core/axe.min.js') });
  const found = await page.evaluate((tags) => axe.run(document, { runOnly: tags }), rules);
  const faults = found.violations.map((v) => `${v.id}: ${v.help}: ${v.nodes[0].html.slice(0, 160)}`);
  if (wide > width) faults.push(`the page is ${wide} pixels wide`);
  const pictures = await page.evaluate(() => [...document.images].map((i) => i.offsetParent === null || i.naturalWidth > 0));
  if (!pictures.length || !pictures.every(Boolean)) faults.push(`of ${pictures.length} pictures some are not shown`);
  if (found.passes.length < 10) faults.push(`only ${found.passes.length} rules had anything to look at`);
  console.log(`${name}: ${found.passes.length} rules hold, ${faults.length} faults`);
  for (const f of faults) console.log('  ' + f);
  await context.close();
  return faults.length;
}

(async () => {
  const [folder, ...files] = process.argv.slice(2);
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
  let faults = 0;
  for (const file of files)
    for (const scheme of ['light', 'dark'])
      for (const width of [360, 800]) faults += await look(browser, file, scheme, width, folder);
  await browser.close();
  process.exit(faults ? 1 : 0);
})();
