// Opens the page of evenings to come, and prints its cards.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import ICAL from "ical.js";
import { evenings, launch, open, scratch } from "./browser.mjs";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
let browser, usual, most;

before(async () => {
  usual = evenings("evenings", () => {}, "--count", "3", "--teams", "3");
  most = evenings("evenings-most", () => {}, "--count", "2", "--teams", "4", "--set", "evenings.posts=6",
    "--set", "evenings.permission_from=Parks and Gardens, Town Hall", "--set", "evenings.gate_closes=23:30",
    "--set", "evenings.seen_by=thermal", "--set", "activity.start_before_sunset_min=60");
  browser = await launch();
});
after(() => browser.close());

for (const viewport of [{ width: 1280, height: 800 }, { width: 390, height: 844 }]) {
  test(`axe finds no fault, nothing is asked for and nothing juts out, ${viewport.width} px wide`, async () => {
    const { page, said, asked, close } = await open(browser, usual, { viewport, bypassCSP: true });
    assert.deepEqual(said, []);
    assert.deepEqual(asked, [`file://${usual}`]);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), viewport.width);
    await page.addScriptTag({ path: axe });
    const faults = (await page.evaluate(() => window.axe.run())).violations;
    assert.deepEqual(faults.map((fault) => `${fault.id}: ${fault.nodes[0].html.slice(0, 160)}`), []);
    await close();
  });
}

/// What stands on each printed page.
async function printed(report, format) {
  const { page, close } = await open(browser, report);
  const file = join(scratch, `${format}.pdf`);
  await page.pdf({ path: file, format, preferCSSPageSize: false });
  await close();
  return execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" }).split("\f").slice(0, -1);
}

for (const format of ["A4", "Letter"]) {
  for (const [name, report, cards] of [["usual rounds", () => usual, 9], ["rounds of many posts", () => most, 8]]) {
    test(`each card is one page of ${format}: ${name}`, async () => {
      const pages = await printed(report(), format);
      const begins = pages.filter((text) => /· team \d/.test(text.split("\n")[0]));
      assert.equal(begins.length, cards);
      for (const text of begins) {
        assert.match(text, /Go if:/);
        assert.match(text, /Look up before you stand/);
      }
    });
  }
}

// ical.js forgives much; the musts of RFC 5545 are checked on the bytes by tests/report.
test("ical.js reads the evenings out of evenings.ics", () => {
  const folder = dirname(usual), index = JSON.parse(readFileSync(join(folder, "evenings.json"), "utf8"));
  const calendar = new ICAL.Component(ICAL.parse(readFileSync(join(folder, "evenings.ics"), "utf8")));
  const zone = new ICAL.Timezone(calendar.getFirstSubcomponent("vtimezone"));
  assert.equal(zone.tzid, "Europe/London");
  const events = calendar.getAllSubcomponents("vevent");
  const wanted = [...index.evenings, ...index.spare];
  assert.equal(events.length, wanted.length);
  const utc = (time) => time.convertToZone(ICAL.Timezone.utcTimezone).toString();
  events.forEach((component, i) => {
    const event = new ICAL.Event(component), start = event.startDate, end = event.endDate;
    for (const time of [start, end]) time.zone = zone;
    assert.equal(utc(start), wanted[i].begin);
    assert.equal(utc(end), wanted[i].end);
    assert.equal(event.uid.includes(wanted[i].evening), true);
    assert.equal(component.getFirstPropertyValue("status"), i < index.evenings.length ? "CONFIRMED" : "TENTATIVE");
    const alarm = component.getFirstSubcomponent("valarm");
    assert.equal(alarm.getFirstPropertyValue("trigger").toSeconds(), -7200);
  });
});
