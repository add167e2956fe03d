// An inventory that somebody wrote to do harm is shown as text everywhere and runs nothing.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launch, open, planned } from "./browser.mjs";

const script = "<script>window.harmed=1</script>", image = "<img src=x onerror=window.harmed=1>";
const ends = "</script><script>window.harmed=1</script><!--", quotes = "\"' onmouseover=window.harmed=1 x=\"", formula = "=HYPERLINK(0)";
const backwards = "\u202eabc\u2066", separators = "a\u2028b\u2029c", longest = "long ".repeat(2000).trim();
const names = [script, image, ends, quotes, formula, backwards, separators];
let browser, report;

const cell = (text) => `"${text.replaceAll("\"", "\"\"")}"`;
/// The best trees get the names.
function spoil(park) {
  const file = join(park, "trees.csv"), lines = readFileSync(file, "utf8").split("\n"), columns = lines[0].split(",");
  const tag = columns.indexOf("asset_no"), species = columns.indexOf("species");
  const best = ["0155", "0303", "0307", "0150", "0152", "0151", "0153"];
  const spoilt = lines.map((line) => {
    const cells = line.split(","), which = best.indexOf(cells[tag]);
    if (which < 0) return line;
    cells[tag] = cell(names[which]);
    cells[species] = cell(which === 0 ? longest : names[(which + 3) % names.length]);
    return cells.join(",");
  });
  writeFileSync(file, spoilt.join("\n"));
  const site = join(park, "site.toml");
  writeFileSync(site, readFileSync(site, "utf8").replace("\"Alder Reach Park\"", `'${image}'`));
}

before(async () => {
  report = planned("hostile", spoil);
  browser = await launch();
});
after(() => browser.close());

test("names stay texts in the list, the table and the cards", async () => {
  const { page, said, asked, close } = await open(browser, report);
  const shown = await page.locator("#trees tbody .tag").allTextContents();
  for (const name of names) assert.ok(shown.includes(name), name);
  for (const tag of await page.locator("#trees tbody .tag").all()) {
    await tag.click();
    assert.equal(await page.locator("#card-title bdi").textContent(), await tag.textContent());
    await page.keyboard.press("Escape");
  }
  assert.equal(await page.locator("h1").innerText(), image);
  assert.equal(await page.evaluate(() => window.harmed), undefined);
  assert.equal(await page.locator("img").count(), 0);
  assert.deepEqual(said, []);
  assert.equal(asked.length, 1);
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 1280);
  await close();
});

test("without scripts as well", async () => {
  const { page, close } = await open(browser, report, { javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
  const shown = await page.locator("main bdi").allTextContents();
  for (const name of names) assert.ok(shown.includes(name), name);
  assert.ok(shown.includes(longest));
  assert.equal(await page.locator("script").count(), 2);
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 390);
  await close();
});
