// Opens the demo's report as people do: on an office PC, on a phone, on paper, by mouse and by keyboard.
import assert from "node:assert/strict";
import { readFileSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import { launch, open, planned, write } from "./browser.mjs";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
const wide = { viewport: { width: 1280, height: 800 } }, phone = { viewport: { width: 390, height: 844 }, hasTouch: true };
let browser, report;

before(async () => {
  report = planned("demo");
  browser = await launch();
});
after(() => browser.close());

const firstTag = (page) => page.locator("#trees tbody .tag").first().innerText();
const rows = (page) => page.locator("#trees tbody tr").count();
/// The pixels of the map, to see whether they change.
const mapPixels = (page) => page.locator("#map canvas").evaluate((canvas) => canvas.toDataURL());

for (const [width, options] of [["1280", wide], ["390", phone]])
  test(`opens from a file without network, says nothing and asks for nothing, ${width} px wide`, async () => {
    const { page, said, asked, close } = await open(browser, report, options);
    await page.mouse.wheel(0, 3000);
    assert.deepEqual(said, []);
    assert.deepEqual(asked, [`file://${report}`]);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), Number(width));
    await close();
  });

for (const [width, options] of [["1280", wide], ["390", phone]])
  test(`axe finds no fault, with and without a card, ${width} px wide`, async () => {
    const { page, close } = await open(browser, report, { ...options, bypassCSP: true });
    await page.addScriptTag({ path: axe });
    const faults = async () => (await page.evaluate(() => window.axe.run())).violations
      .map((fault) => `${fault.id}: ${fault.nodes.slice(0, 3).map((node) => `${node.html.slice(0, 160)} ${node.failureSummary.slice(0, 200)}`).join(" | ")}`);
    assert.deepEqual(await faults(), []);
    await page.locator(".sites .tag").first().click();
    await page.locator("details").first().evaluate((details) => { details.open = true; });
    assert.deepEqual(await faults(), []);
    await close();
  });

test("the first screen holds what nobody checked, the caveat, the sites and the map", async () => {
  const { page, close } = await open(browser, report);
  for (const part of [".unchecked", ".caveat", "#map", ".sites li"]) {
    const box = await page.locator(part).first().boundingBox();
    assert.ok(box.y >= 0 && box.y + Math.min(box.height, 300) <= 800, `${part} at ${box.y}`);
  }
  assert.equal(await page.locator(".sites > li").count(), 6);
  assert.match(await page.locator(".caveat").innerText(), /three evenings within ten days of June, \d+\.\d hours of watching that places flights, \d+\.\d hours of recorders or hearing that place none, \d+ % of the park not watched/);
  await close();
});

test("it reads without scripts", async () => {
  const { page, close } = await open(browser, report, { javaScriptEnabled: false });
  const text = await page.locator("main").innerText();
  for (const words of ["Where to hang the boxes", "Worth settling", "Settings, who set them"]) assert.ok(text.includes(words), words);
  assert.equal(await rows(page), 30);
  assert.equal(await page.locator(".filters").count(), 0);
  await close();
});

test("sorts by mouse, the other way on a second click", async () => {
  const { page, close } = await open(browser, report);
  const flights = () => page.locator("#trees tbody td:nth-child(4)").allInnerTexts();
  const value = (text) => Number(text.replace("<", "").split(" ")[0]);
  await page.getByRole("button", { name: "Flights an hour" }).click();
  let told = (await flights()).map(value);
  assert.deepEqual(told, [...told].sort((a, b) => b - a));
  assert.equal(await page.locator("th[aria-sort]").getAttribute("aria-sort"), "descending");
  await page.getByRole("button", { name: "Flights an hour" }).click();
  told = (await flights()).map(value);
  assert.deepEqual(told, [...told].sort((a, b) => a - b));
  await close();
});

test("filters by words, state and rule, and turns pages", async () => {
  const { page, close } = await open(browser, report);
  await page.getByLabel("Find a tree or species").fill("tilia");
  for (const species of await page.locator("#trees tbody td:nth-child(10)").allInnerTexts()) assert.match(species, /^Tilia/);
  await page.getByLabel("Find a tree or species").fill("0103");
  assert.equal(await page.locator(".pages [role=status]").innerText(), "No tree fits.");
  await page.getByLabel("Show").selectOption({ label: "ruled out" });
  assert.equal(await firstTag(page), "0103");
  await page.getByLabel("Find a tree or species").fill("");
  await page.getByRole("combobox", { name: /^Rule/ }).selectOption("3 lamp");
  const lit = await page.locator("#trees tbody td:nth-child(3)").allInnerTexts();
  assert.equal(lit.length, 13);
  for (const state of lit) assert.match(state, /^ruled out: .*lamp/);
  await page.getByRole("combobox", { name: /^Rule/ }).selectOption("");
  await page.getByLabel("Show").selectOption("");
  const first = await firstTag(page);
  assert.equal(await rows(page), 50);
  await page.getByRole("button", { name: "Later" }).click();
  assert.notEqual(await firstTag(page), first);
  await page.getByRole("button", { name: "Earlier" }).click();
  assert.equal(await firstTag(page), first);
  await close();
});

test("the table says why: in order of rank, and what stands too near a site is told", async () => {
  const { page, close } = await open(browser, report);
  const column = (n) => page.locator(`#trees tbody td:nth-child(${n})`).allInnerTexts();
  const ranks = (await column(1)).map(Number), standing = await column(3);
  assert.deepEqual(ranks, [...ranks].sort((a, b) => a - b));
  assert.equal(standing[0], "site 1");
  assert.equal(standing[1], "can be chosen, but 22 m from site 1");
  await close();
  const still = await open(browser, report, { javaScriptEnabled: false });
  assert.deepEqual((await still.page.locator("#trees tbody td:nth-child(3)").allInnerTexts()).slice(0, 20), standing.slice(0, 20));
  await still.close();
});

test("a rule's name shows its trees", async () => {
  const { page, close } = await open(browser, report);
  await page.locator("#ruled-out-part").getByRole("button", { name: "overhead power line" }).click();
  assert.equal(await rows(page), 5);
  await close();
});

test("by keyboard: from tree to tree, its card, and back", async () => {
  const { page, close } = await open(browser, report);
  await page.locator("#trees tbody .tag").first().focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  const third = await page.locator("#trees tbody .tag").nth(2).innerText();
  await page.keyboard.press("Enter");
  assert.equal(await page.locator("#card-title").innerText(), `Tree ${third}`);
  assert.equal(await page.evaluate(() => document.activeElement.id), "card-title");
  await page.keyboard.press("Escape");
  assert.equal(await page.locator("#card").isVisible(), false);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), third);
  await page.getByRole("button", { name: "Rank" }).focus();
  await page.keyboard.press("Enter");
  assert.equal(await page.locator("th[aria-sort]").getAttribute("aria-sort"), "descending");
  await close();
});

test("a card tells measures, contributions and reasons", async () => {
  const { page, close } = await open(browser, report);
  await page.locator(".sites .tag").first().click();
  const chosen = await page.locator("#card").innerText();
  for (const words of ["Tree 0155", "site 1", "Way there", "Flights an hour within 20 m", "Points for flights beside it", "Score in this plan"])
    assert.ok(chosen.includes(words), words);
  // How much flies here and whether the tree would be chosen again are two questions.
  assert.match(chosen, /How much flies here[^]*Would it be chosen again\?[^]*In \d+ of 27 ways to re-draw three evenings\.[^]*What is known[^]*fair condition/);
  assert.doesNotMatch(chosen, /Firm|cannot be told apart/);
  await page.getByRole("button", { name: "Close", exact: true }).click();
  await page.getByLabel("Show").selectOption({ label: "settle first" });
  await page.getByLabel("Find a tree or species").fill("0101");
  await page.locator("#trees tbody .tag").first().click();
  const roost = await page.locator("#card").innerText();
  assert.match(roost, /Animals may already live here/);
  assert.doesNotMatch(roost, /Boxes face/, "nobody plans a box where animals may live");
  await page.getByRole("button", { name: "Close", exact: true }).click();
  await page.getByLabel("Show").selectOption({ label: "ruled out" });
  await page.getByLabel("Find a tree or species").fill("0103");
  await page.locator("#trees tbody .tag").first().click();
  assert.match(await page.locator("#card").innerText(), /What speaks against it[^]*lamp/);
  await close();
});

test("the map tells coordinates, opens cards and draws what is switched on", async () => {
  const { page, close } = await open(browser, report);
  // The place of site 1 on the map, by its own numbers: the middle of the red square that it draws.
  const square = await page.locator("#map canvas").evaluate((canvas) => {
    const { data, width, height } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
    const box = canvas.getBoundingClientRect(), map = document.getElementById("map").getBoundingClientRect();
    for (let y = 0; y < height; ++y)
      for (let x = 0; x < width; ++x) {
        const [red, green, blue] = data.subarray(4 * (y * width + x), 4 * (y * width + x) + 3);
        const at = { x: box.left + (x / width) * box.width + 8, y: box.top + (y / height) * box.height + 8 };
        if (red === 168 && green === 50 && blue === 26 && at.x > map.left && at.y > map.top && at.x < map.right && at.y < map.bottom) return at;
      }
    return null;
  });
  await page.mouse.move(square.x, square.y);
  assert.match(await page.locator("#pointer").innerText(), /^575\d\d\d E 5794\d\d\d N, WGS 84 \/ UTM zone 30N \(EPSG:32630\) · 52\.\d{5}, -1\.\d{5}$/);
  await page.mouse.click(square.x, square.y);
  assert.match(await page.locator("#card .state").innerText(), /^site \d/);
  await page.keyboard.press("Escape");

  const before = await mapPixels(page);
  await page.getByLabel("Flight lines").press("Space");
  assert.notEqual(await mapPixels(page), before);
  await page.getByLabel("Flight lines").click();
  assert.equal(await mapPixels(page), before);
  await page.locator("#map").focus();
  await page.keyboard.press("+");
  await page.keyboard.press("ArrowRight");
  assert.notEqual(await mapPixels(page), before);
  await page.getByRole("button", { name: "Whole ground" }).click();
  await close();
});

test("the picture behind the map goes off and on by keyboard and mouse, and is not printed", async () => {
  const { page, close } = await open(browser, report);
  const layer = page.getByLabel("Picture from above");
  await page.waitForTimeout(300);   // until it is unpacked
  const seen = await mapPixels(page);
  await layer.press("Space");
  const without = await mapPixels(page);
  assert.notEqual(without, seen);
  await layer.click();
  assert.equal(await mapPixels(page), seen);
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  assert.equal(await mapPixels(page), without);
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  assert.equal(await mapPixels(page), seen);
  await close();
});

for (const [width, options] of [["1280", wide], ["390", phone]])
  test(`the map's names cover neither each other nor a site, ${width} px wide`, async () => {
    const context = await browser.newContext({ ...options, locale: "en-GB", offline: true });
    const page = await context.newPage();
    // What the map writes, and where, since it was last wiped.
    await page.addInitScript(() => {
      const { fillText, clearRect } = CanvasRenderingContext2D.prototype;
      window.written = [];
      CanvasRenderingContext2D.prototype.clearRect = function (...box) { window.written = []; return clearRect.apply(this, box); };
      CanvasRenderingContext2D.prototype.fillText = function (text, x, y) {
        const half = this.measureText(text).width / 2, site = this.font.includes("14px") && /^\d+$/.test(text), tall = site ? 10 : 6;
        if (this.canvas.classList.contains("sheet")) window.written.push({ text, site, left: x - (site ? Math.max(10, half + 4) : half), right: x + (site ? Math.max(10, half + 4) : half), top: y - tall, bottom: y + tall });
        return fillText.call(this, text, x, y);
      };
    });
    await page.goto(`file://${report}`);
    for (const times of [0, 1, 2]) {
      if (times > 0) await page.getByRole("button", { name: "Closer" }).click();
      const written = await page.evaluate(() => window.written);
      for (const line of ["A", "B", "C", "D"]) assert.ok(written.some(({ text }) => text === line), `${line} in ${written.map(({ text }) => text)}`);
      if (width === "1280") assert.ok(written.some(({ text }) => text === "footbridge-1, 2, 3"), written.map(({ text }) => text).join(" | "));
      for (const a of written)
        for (const b of written)
          if (a !== b && !(a.site && b.site)) assert.ok(a.left >= b.right || b.left >= a.right || a.top >= b.bottom || b.top >= a.bottom, `${a.text} and ${b.text}, ${times} times closer`);
    }
    await context.close();
  });

test("a card has the coordinates that ranked_sites.geojson has", async () => {
  const { features: [{ geometry, properties }] } = JSON.parse(readFileSync(join(dirname(report), "ranked_sites.geojson"), "utf8"));
  const { page, close } = await open(browser, report);
  await page.locator("#trees tbody .tag", { hasText: properties.tree }).click();
  const told = (await page.locator("#card").innerText()).match(/· (52\.\d+), (-\d\.\d+)/).slice(1);
  const [lon, lat] = geometry.coordinates;
  assert.deepEqual(told, [lat.toFixed(5), lon.toFixed(5)], "the file's seven decimals, as people read them");
  await close();
});

// CIE lightness of the sRGB colours (CIE 15:2004; IEC 61966-2-1), which colour-blind people and grey prints keep.
test("more flights are darker, in even steps of lightness", async () => {
  const { page, close } = await open(browser, report);
  const pixels = await page.locator(".ramp canvas").first().evaluate((canvas) => [...canvas.getContext("2d").getImageData(0, 0, canvas.width, 1).data]);
  const linear = (value) => (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4);
  const lightness = [];
  for (let i = 0; i < pixels.length; i += 4) {
    const y = 0.2126 * linear(pixels[i]) + 0.7152 * linear(pixels[i + 1]) + 0.0722 * linear(pixels[i + 2]);
    lightness.push(y > (6 / 29) ** 3 ? 116 * Math.cbrt(y) - 16 : (y * 24389) / 27);
  }
  const steps = [];
  for (let i = 16; i < lightness.length; i += 16) steps.push(lightness[i - 16] - lightness[i]);
  assert.ok(lightness[0] - lightness.at(-1) > 60, lightness.at(-1));
  // The maps of the evenings have seven of these colours.
  const shades = await page.locator(".swatch path").evaluateAll((paths) => paths.map((path) => getComputedStyle(path).stroke));
  assert.deepEqual(shades, [0, 1, 2, 3, 4, 5, 6].map((shade) => `rgb(${pixels.slice(4 * Math.round((254 * shade) / 6)).slice(0, 3).join(", ")})`));
  assert.ok(Math.min(...steps) > 0.6 * (steps.reduce((sum, step) => sum + step) / steps.length), steps.join(" "));
  await close();
});

test("a park of which next to nothing is known", async () => {
  const poor = planned("poor", (park) => write(park, "site.toml", `[site]
name = "Poor park"
timezone = "Europe/London"
animal = "small-crevice-bat"
[inputs]
passes = "passes.csv"
max_bad_share = 0.9
[inputs.trees]
file = "trees.csv"
crs = "EPSG:27700"
fields = { tree = "asset_no", x = "easting", y = "northing" }
[[avoid]]
file = "power_lines.geojson"
within_m = 5000
reason = "invented line"
[activity]
bandwidth_m = 10
shrink_hours = 0.3
cell_m = 5
`));
  const { page, said, close } = await open(browser, poor);
  assert.match(await page.locator(".outcome").innerText(), /^No tree can be chosen/);
  assert.match(await page.locator(".unchecked").innerText(), /^Nobody has checked: .*lamps/);
  await page.locator("#trees select").first().selectOption("");
  await page.locator("#trees tbody .tag").first().click();
  assert.deepEqual(said, []);
  await close();
});

test("numbers and dates are written as the reader's country does", async () => {
  const { page, close } = await open(browser, report, { locale: "de-DE" });
  assert.match(await page.locator(".sites dd").first().innerText(), /^4,5\sm$/);
  assert.equal(await page.locator("#evidence-part time").first().innerText(), "09.06.2026");
  assert.equal(await page.locator("#evidence-part time").first().getAttribute("datetime"), "2026-06-09");
  await close();
});

test("paper shows the map and the list, and nothing to press", async () => {
  const { page, close } = await open(browser, report);
  await page.emulateMedia({ media: "print" });
  for (const hidden of ["nav", ".filters", "#zoom", "#card", ".screen-only"]) assert.equal(await page.locator(hidden).isVisible(), false, hidden);
  for (const shown of ["#map", ".sites", ".unchecked", "#cautions-part"]) assert.equal(await page.locator(shown).isVisible(), true, shown);
  const pdf = await page.pdf({ format: "A4" });
  assert.ok((pdf.toString("latin1").match(/\/Type \/Page\b/g) || []).length >= 4);
  await close();
});

test("the demo's report is smaller than 1.5 MB and holds no address to load from", () => {
  assert.ok(statSync(report).size < 1.5e6, String(statSync(report).size));
  const text = readFileSync(report, "utf8").replace(/<script[^]*?<\/script>/g, "");
  assert.deepEqual(text.match(/(src|href)="(?!#)[^"]*/g), null);
  assert.deepEqual(text.match(/url\([^)]*/g), null);
  assert.match(text, /http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'sha256-[^']+'; style-src 'sha256-[^']+'; img-src data:/);
});
