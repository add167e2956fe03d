// Opens the page of a screening: what is read before anybody has watched.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launch, open, planned } from "./browser.mjs";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
let browser, report;

before(async () => {
  report = planned("screening", (park) => {
    const site = join(park, "site.toml");
    writeFileSync(site, readFileSync(site, "utf8").replace(/^(passes|tracks|tallies|routes)\b.*\n/gm, ""));
  });
  browser = await launch();
});
after(() => browser.close());

for (const viewport of [{ width: 1280, height: 800 }, { width: 390, height: 844 }]) {
  test(`axe finds no fault, nothing is asked for and nothing juts out, ${viewport.width} px wide`, async () => {
    const { page, said, asked, close } = await open(browser, report, { viewport, bypassCSP: true });
    assert.deepEqual(said, []);
    assert.deepEqual(asked, [`file://${report}`]);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), viewport.width);
    await page.addScriptTag({ path: axe });
    const faults = (await page.evaluate(() => window.axe.run())).violations;
    assert.deepEqual(faults.map((fault) => `${fault.id}: ${fault.nodes[0].html.slice(0, 160)}`), []);
    await close();
  });
}

test("the first screen says that nothing is ranked, and shows no sites and no sheets", async () => {
  const { page, close } = await open(browser, report);
  const first = await page.locator(".caveat").boundingBox();
  assert.ok(first.y + first.height <= 800);
  assert.match(await page.locator(".caveat").innerText(), /nothing is ranked/);
  assert.equal(await page.locator(".sites, #sheets-part, svg.chart").count(), 0);
  await close();
});
