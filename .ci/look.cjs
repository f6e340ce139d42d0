// Opens a page as a reader would, at 360 and 800 px, light and dark, and fails on a
// fault of accessibility (axe-core, WCAG level A and AA), on a page wider than its
// window, and on anything the page fetches.
//   NODE_PATH=... node look.cjs PAGE.html FOLDER-FOR-PICTURES
const fs = require("fs"), path = require("path"), url = require("url");
const { chromium } = require("playwright-core");
const axe = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

(async () => {
  const [page_, into] = process.argv.slice(2);
  const address = url.pathToFileURL(path.resolve(page_)).href;
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM || "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
  let faults = 0;
  const fault = (what) => { faults++; console.log("FAULT " + what); };
  for (const width of [360, 800]) {
    for (const colorScheme of ["light", "dark"]) {
      const context = await browser.newContext({ viewport: { width, height: 800 }, colorScheme });
      const page = await context.newPage();
      page.on("request", (r) => { if (r.url() !== address && !/^(data|blob):/.test(r.url())) fault(`fetches ${r.url()}`); });
      await page.goto(address);
      const name = `${path.basename(page_, ".html")}-${width}-${colorScheme}`;
      await page.screenshot({ path: path.join(into, name + ".png"), fullPage: true });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      if (wide > 0) fault(`${name}: ${wide} px wider than the window`);
      await page.evaluate(axe);
      const result = await page.evaluate(() => axe.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }));
      for (const v of result.violations) fault(`${name}: ${v.id} (${v.impact}): ${v.help}; ${v.nodes.map((n) => n.target.join(" ")).slice(0, 3).join(", ")}`);
      console.log(`${name}: ${result.passes.length} rules passed, ${result.violations.length} violated, ${result.incomplete.length} to be judged by eye`);
      for (const v of result.incomplete) console.log(`  by eye: ${v.id}: ${v.help} (${v.nodes.length})`);
      await context.close();
    }
  }
  await browser.close();
  process.exit(faults ? 1 : 0);
})().catch((e) => { console.error(e.message); process.exit(2); });
