// Opens a page in a local Chromium with every outside request blocked, and checks what a reader would stumble on.
//   node check-page.mjs PAGE.html [--screenshots DIR] [--expect-charts N] [--expect-sortable N] [--expect-reports N]
// Charts are at least so many (1 where not stated), tables to sort and links to reports exactly so many (0 where not stated).
// The browser: the file named by DECKLIFE_BROWSER, else /usr/bin/chromium. Exit code 1 when a check fails.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { resolve, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const require = createRequire(import.meta.url);
const axeSource = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const [page_, ...rest] = process.argv.slice(2);
if (!page_) {
  console.error("usage: node check-page.mjs PAGE.html [--screenshots DIR] [--expect-charts N] [--expect-sortable N] [--expect-reports N]");
  process.exit(2);
}
const option = (name) => (rest.includes(name) ? rest[rest.indexOf(name) + 1] : undefined);
const shots = option("--screenshots");
const expectCharts = Number(option("--expect-charts") ?? 1);
const expectSortable = Number(option("--expect-sortable") ?? 0);
const expectReports = Number(option("--expect-reports") ?? 0);
if (shots) mkdirSync(shots, { recursive: true });

let failed = 0;
let passed = 0;
function check(name, ok, detail = "") {
  if (ok) passed++;
  else {
    failed++;
    console.log(`FAILED ${name} ${detail}`);
  }
}

const browser = await chromium.launch({
  executablePath: process.env.DECKLIFE_BROWSER || "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--host-resolver-rules=MAP * ~NOTFOUND"],
});
const url = pathToFileURL(resolve(page_)).href;

async function open(settings) {
  const context = await browser.newContext(settings);
  const page = await context.newPage();
  const outside = [];
  const errors = [];
  page.on("request", (r) => {
    if (!/^(file|data|blob):/.test(r.url())) outside.push(r.url());
  });
  page.on("console", (m) => {
    if (m.type() === "error" || m.type() === "warning") errors.push(m.text());
  });
  page.on("pageerror", (e) => errors.push(String(e)));
  page.setDefaultTimeout(180000);
  await page.goto(url, { waitUntil: "load", timeout: 180000 });
  await page.waitForTimeout(300);
  return { context, page, outside, errors };
}

// Downloads of a page go to a folder under their own names.
async function saveInto(context, page, folder) {
  const session = await context.newCDPSession(page);
  const { targetInfo } = await session.send("Target.getTargetInfo");
  const whole = await browser.newBrowserCDPSession();
  await whole.send("Browser.setDownloadBehavior", { behavior: "allow", browserContextId: targetInfo.browserContextId, downloadPath: folder });
}

// A file's text once it is there whole; null when it does not come.
async function fileIn(path) {
  for (let waited = 0; waited < 20000; waited += 50) {
    if (existsSync(path) && !existsSync(path + ".crdownload")) return readFileSync(path, "utf8");
    await new Promise((done) => setTimeout(done, 50));
  }
  return null;
}

// Marks that carry data: a chart without any drew nothing.
const drawn = (page) =>
  page.$$eval("figure.dl-chart", (figures) =>
    figures.map((f) => ({
      title: f.querySelector("figcaption b")?.textContent ?? "",
      marks: f.querySelectorAll(".dl-plot .trace path, .dl-plot .trace .point, .dl-plot .bars path, .dl-plot .heatmaplayer image").length,
      label: f.querySelector(".dl-plot")?.getAttribute("aria-label") ?? "",
      rows: f.querySelectorAll(".dl-numbers tbody tr").length,
      axes: [...f.querySelectorAll(".dl-plot .xtitle, .dl-plot .ytitle")].map((t) => t.textContent),
    })),
  );

for (const [width, height] of [
  [1400, 900],
  [800, 1100],
  [400, 800],
]) {
  for (const colorScheme of ["light", "dark"]) {
    const { context, page, outside, errors } = await open({ viewport: { width, height }, colorScheme });
    const at = `at ${width} px, ${colorScheme}:`;
    const charts = await drawn(page);
    check(`${at} number of charts`, charts.length >= expectCharts, `${charts.length}, expected ${expectCharts}`);
    for (const c of charts) {
      check(`${at} '${c.title}' drew`, c.marks > 0);
      check(`${at} '${c.title}' has an alternative text`, c.label.length > 20);
      check(`${at} '${c.title}' has its numbers`, c.rows > 0);
    }
    if (width <= 400) {
      const clipped = await page.$$eval(".dl-stack", (tables) => tables.filter((t) => t.scrollWidth > t.clientWidth + 1).map((t) => t.getAttribute("aria-label")));
      check(`${at} tables of words fit`, clipped.length === 0, clipped.join(" | "));
    }
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    check(`${at} no sideways scrolling`, overflow <= 0, `${overflow} px`);
    await page.addScriptTag({ content: axeSource }).catch(() => page.evaluate(axeSource));
    const axe = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
    const serious = axe.violations.filter((v) => v.impact === "serious" || v.impact === "critical");
    for (const v of serious) console.log(`  ${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 140)).join(" | ")}`);
    check(`${at} axe-core, serious rules`, serious.length === 0, `${serious.length}`);
    check(`${at} no outside request`, outside.length === 0, outside.join(" "));
    check(`${at} no console error`, errors.length === 0, errors.join(" | "));
    if (shots) {
      await page.screenshot({ path: join(shots, `first-${width}-${colorScheme}.png`) });
      await page.screenshot({ path: join(shots, `full-${width}-${colorScheme}.png`), fullPage: true });
    }
    await context.close();
  }
}

// The unit switch, by keyboard alone.
{
  const { context, page, errors } = await open({ viewport: { width: 1400, height: 900 } });
  const before = await drawn(page);
  const start = await page.evaluate(() => document.documentElement.dataset.units);
  await page.focus('input[name="dl-units"]:checked');
  await page.keyboard.press(start === "si" ? "ArrowRight" : "ArrowLeft");
  await page.waitForTimeout(300);
  const after = await drawn(page);
  const changed = after.filter((c, i) => JSON.stringify(c.axes) !== JSON.stringify(before[i].axes)).length;
  check("unit switch by keyboard changes the page", (await page.evaluate(() => document.documentElement.dataset.units)) !== start);
  const inUnits = await page.$$eval("figure.dl-chart", (figures) => figures.filter((f) => f.querySelector('script.dl-figure[data-units="us"]')).length);
  check("unit switch changes charts with units", changed > 0 || inUnits === 0, `${changed} of ${inUnits}`);
  check("unit switch shows one system only", await page.evaluate(() => [...document.querySelectorAll("main .u-si")].every((e) => getComputedStyle(e).display === "none") || [...document.querySelectorAll("main .u-us")].every((e) => getComputedStyle(e).display === "none")));
  check("unit switch: no console error", errors.length === 0, errors.join(" | "));

  // Controls over results computed before: each changes what is shown.
  for (const explorer of await page.$$(".dl-explorer")) {
    for (const select of await explorer.$$("select, input[type=range]")) {
      const shown = () => explorer.evaluate((e) => e.querySelector(".dl-explorer-answer").textContent + [...e.querySelectorAll(".dl-plot .trace path")].map((p) => p.getAttribute("d")).join());
      const was = await shown();
      await select.focus();
      await page.keyboard.press((await select.evaluate((s) => (s.tagName === "SELECT" ? s.selectedIndex : Number(s.value)) > 0)) ? "ArrowUp" : "ArrowDown");
      if ((await shown()) === was) await page.keyboard.press("ArrowRight");
      await page.waitForTimeout(300);
      check(`explorer control '${await select.getAttribute("name")}' changes what is shown`, (await shown()) !== was);
    }
  }
  await context.close();
}

// The numbers behind each chart as a file: by keyboard, without network, the rows of the table and no formula in them.
for (const javaScriptEnabled of [true, false]) {
  const { context, page, outside, errors } = await open({ viewport: { width: 1400, height: 900 }, javaScriptEnabled });
  const folder = mkdtempSync(join(tmpdir(), "decklife-saved-"));
  await saveInto(context, page, folder);
  const figures = await page.$$("figure.dl-chart");
  for (const figure of javaScriptEnabled ? figures : figures.slice(0, 1)) {
    const title = (await figure.$eval("figcaption b", (b) => b.textContent)) + (javaScriptEnabled ? "" : " (without scripts)");
    await (await figure.$("summary")).focus();
    await page.keyboard.press("Enter");
    // Opening is asynchronous: a Tab before it would pass the link by.
    await figure.waitForSelector("details[open] .dl-csv:visible", { state: "visible", timeout: 20000 });
    await page.keyboard.press("Tab");
    const link = await figure.$(".dl-csv:visible");
    check(`'${title}': Tab reaches the link`, await link.evaluate((a) => a === document.activeElement));
    const name = await link.getAttribute("download");
    const text = decodeURIComponent((await link.getAttribute("href")).replace(/^data:text\/csv;charset=utf-8,/, ""));
    // Saved for real: the browser writes into a folder, and the file there counts, not an event, which a headless browser now and then drops.
    await page.keyboard.press("Enter");
    const saved = await fileIn(join(folder, name));
    check(`'${title}' is saved as a file`, saved === text, saved === null ? "no file" : "another text");
    const lines = text.replace(/^\uFEFF/, "").trimEnd().split("\r\n");
    check(`'${title}' CSV has the rows of its table`, lines.length === 1 + (await link.evaluate((a) => a.parentElement.querySelectorAll("tbody tr").length)), `${lines.length}`);
    check(`'${title}' CSV has a .csv name`, /^[a-z0-9-]+\.csv$/.test(name), name);
    check(`'${title}' CSV holds no formula`, !lines.some((l) => /^"?[=+@]|,"?[=+@]/.test(l)));
  }
  check("saving asks nothing of the network", outside.length === 0 && errors.length === 0, [...outside, ...errors].join(" "));
  await context.close();
  rmSync(folder, { recursive: true });
}

// Numbers lead to what they rest on: every link has its target, and each number of the table that decides has a link.
{
  const { context, page, errors } = await open({ viewport: { width: 1400, height: 900 } });
  const dangling = await page.$$eval('a[href^="#"]', (links) => links.map((a) => a.getAttribute("href").slice(1)).filter((id) => !document.getElementById(decodeURIComponent(id))));
  check("no link within the page dangles", dangling.length === 0, [...new Set(dangling)].join(" "));
  const twice = await page.$$eval("[id]", (all) => all.map((e) => e.id).filter((id, i, ids) => ids.indexOf(id) !== i));
  check("no id stands twice", twice.length === 0, twice.join(" "));
  const bare = await page.$$eval(".dl-strategies tbody td", (cells) => cells.filter((c) => /\d/.test(c.textContent) && !c.querySelector('a.dl-basis[href^="#"]')).map((c) => c.textContent));
  check("each number of the table that decides links to what it rests on", bare.length === 0, bare.join(" | "));
  const charts = await page.$$eval("main > figure.dl-chart, main .dl-gallery figure, main .dl-pair figure", (figures) => figures.filter((f) => !f.querySelector('figcaption a[href^="#"]') && !f.closest(".dl-explorer")).map((f) => f.querySelector("b").textContent));
  check("each chart links to what it rests on", charts.length === 0, charts.join(" | "));
  // By keyboard: Enter goes there, and the row is on screen; the browser's own Back returns.
  for (const link of (await page.$$(".dl-strategies a.dl-basis")).slice(0, 8)) {
    await link.focus();
    const target = (await link.getAttribute("href")).slice(1);
    await page.keyboard.press("Enter");
    await page.waitForFunction((id) => location.hash === "#" + id, target);
    const seen = await page.$eval("#" + target, (e) => e.getBoundingClientRect().top >= 0 && e.getBoundingClientRect().top < innerHeight);
    check(`Enter on a number shows '${target}'`, seen);
    await page.goBack();
  }
  check("links: no console error", errors.length === 0, errors.join(" | "));
  await context.close();
}

// Tables to sort: by keyboard alone, up and down, each column by its own values, no row lost, what is missing last.
{
  const { context, page, errors } = await open({ viewport: { width: 1400, height: 900 } });
  const boxes = await page.$$(".dl-sortable");
  check("number of tables to sort", boxes.length === expectSortable, `${boxes.length}, expected ${expectSortable}`);
  for (const box of boxes) {
    const name = await box.getAttribute("aria-label");
    const heads = await box.$$("thead th button");
    check(`'${name}': each head is a button`, heads.length > 0 && heads.length === (await box.$$("thead th")).length, `${heads.length}`);
    const values = await box.evaluate((b) => JSON.parse(b.parentElement.querySelector("script.dl-sort").textContent));
    const rows = () => box.$$eval("tbody tr", (all) => all.map((r) => r.textContent));
    const before = await rows();
    const place = new Map(before.map((text, i) => [text, i]));
    for (let column = 0; column < heads.length; column++) {
      for (const direction of ["ascending", "descending"]) {
        if (direction === "ascending") {
          if (column === 0) await heads[0].focus();
          else await page.keyboard.press("Tab");
          check(`'${name}': Tab reaches head ${column + 1}`, await heads[column].evaluate((h) => h === document.activeElement));
        }
        await page.keyboard.press(column % 2 === 0 ? "Enter" : "Space");
        const sorted = await box.$$eval("thead th", (all) => all.map((h) => h.getAttribute("aria-sort")));
        check(`'${name}': head ${column + 1} says ${direction}`, sorted.every((s, i) => s === (i === column ? direction : null)), sorted.join());
        const now = await rows();
        check(`'${name}': no row lost by head ${column + 1}`, [...now].sort().join("|") === [...before].sort().join("|"));
        const keys = now.map((text) => values[place.get(text)][column]);
        const told = keys.filter((k) => k !== null);
        const rises = told.every((k, i) => i === 0 || (direction === "ascending" ? told[i - 1] <= k : told[i - 1] >= k));
        check(`'${name}': head ${column + 1} sorts ${direction}`, rises && keys.slice(told.length).every((k) => k === null), keys.slice(0, 6).join());
      }
    }
  }
  check("sorting: no console error", errors.length === 0, errors.join(" | "));
  await context.close();
}

// A list of reports leads to pages that are there.
{
  const { context, page } = await open({ viewport: { width: 1400, height: 900 } });
  const links = await page.$$eval('main a[href^="./"]', (all) => all.map((a) => a.href));
  check("number of links to reports", links.length === expectReports, `${links.length}, expected ${expectReports}`);
  for (const link of links) check("a link to a report leads to a page", existsSync(fileURLToPath(link)), link);
  await context.close();
}

// Without scripts: the numbers are there.
{
  const { context, page } = await open({ viewport: { width: 1000, height: 900 }, javaScriptEnabled: false });
  const rows = await page.locator(".dl-numbers tbody tr").count();
  check("without scripts the numbers stand in tables", rows > 0 || expectCharts === 0, `${rows}`);
  check("without scripts one unit system shows", !(await page.locator("main .u-us").first().isVisible()) || !(await page.locator("main .u-si").first().isVisible()));
  await context.close();
}

await browser.close();
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
