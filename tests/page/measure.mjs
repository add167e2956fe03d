// Prints how long a report takes to show its map, and its worst frame while the map is moved. Usage: measure.mjs REPORT
import { statSync } from "node:fs";
import { launch, open } from "./browser.mjs";

const report = process.argv[2];
const browser = await launch();

/// Two frames after all that was asked for is done.
const drawn = (page) => page.evaluate(() => new Promise((done) => { requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now()))); }));

const { page } = await open(browser, report);
console.log(`${(statSync(report).size / 1e6).toFixed(1)} MB, first map after ${(await drawn(page) / 1000).toFixed(2)} s`);

await page.evaluate(() => {
  window.frames_ms = [];
  let last = performance.now();
  const watch = (now) => { window.frames_ms.push(now - last); last = now; requestAnimationFrame(watch); };
  requestAnimationFrame(watch);
});
/// What was slowest since this was asked before.
const worst = () => page.evaluate(() => Math.max(...window.frames_ms.splice(0)));
await page.locator("#map").scrollIntoViewIfNeeded();
const box = await page.locator("#map").boundingBox(), middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
const frames = [];
for (let turn = 0; turn < 10; ++turn) {
  const angle = (turn * 2 * Math.PI) / 10;
  await page.mouse.move(middle.x, middle.y);
  await page.mouse.down();
  for (let step = 1; step <= 10; ++step) await page.mouse.move(middle.x + 20 * step * Math.cos(angle), middle.y + 20 * step * Math.sin(angle));
  await page.mouse.up();
  await drawn(page);
  frames.push(["pan", await worst()]);
  // In the middle of it the map goes closer, twice, and later back.
  const zoom = { 2: "Closer", 4: "Closer", 6: "Closer", 8: "Farther" }[turn];
  if (!zoom) continue;
  await page.getByRole("button", { name: zoom, exact: true }).click();
  await drawn(page);
  frames.push([zoom, await worst()]);
}
console.log(frames.map(([what, milliseconds]) => `${what} ${milliseconds.toFixed(0)}`).join(" · "));
console.log(`worst frame ${Math.max(...frames.map(([, milliseconds]) => milliseconds)).toFixed(0)} ms`);
await browser.close();
