// Prints the sheets as people do, and reads them back from the paper.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launch, open, planned, scratch } from "./browser.mjs";

const longest = "long ".repeat(2000).trim(), script = "<script>window.harmed=1</script>";
let browser, report, spoilt;

const nameOf = (tag) => tag === "0155" ? longest : Number(tag) % 2 ? `\u202e${tag}\u2066` : `${script}${tag}`;

/// Trees get names that fill pages or would run, and nobody has asked or inspected anything.
function spoil(park) {
  const file = join(park, "trees.csv"), lines = readFileSync(file, "utf8").split("\n"), columns = lines[0].split(",");
  const [tag, species, owner] = ["asset_no", "species", "owner"].map((name) => columns.indexOf(name));
  const changed = lines.map((line, i) => {
    const cells = line.split(","), name = `"${nameOf(cells[tag])}"`;
    if (i > 0 && line) for (const column of [tag, species, owner]) cells[column] = name;
    return cells.join(",");
  });
  writeFileSync(file, changed.join("\n").replace("inspected", "seen_on").replace("permission", "yes_or_no"));
}

before(async () => {
  report = planned("sheets", () => {});
  spoilt = planned("sheets-spoilt", spoil);
  browser = await launch();
});
after(() => browser.close());

/// The texts of a print's pages. `kind` is the sheets that are printed alone.
async function printed(file, kind, format = "A4") {
  const { page, close } = await open(browser, kind ? `${file}#${kind}` : file);
  const pdf = join(scratch, "print.pdf");
  await page.pdf({ path: pdf, format, preferCSSPageSize: false });
  await close();
  const pages = execFileSync("pdftotext", [pdf, "-"], { encoding: "utf8" }).split("\f");
  return pages.slice(0, -1).map((text) => text.replace(/\s+/g, " "));
}

for (const format of ["A4", "Letter"])
  for (const [name, park] of [["the demo", () => report], ["an inventory with endless names", () => spoilt]])
    test(`a page a site, from box numbers to the code, ${format}, ${name}`, async () => {
      const pages = await printed(park(), "climbers-sheets", format);
      assert.equal(pages.length, 6);
      pages.forEach((text, i) => {
        assert.match(text, new RegExp(`Climber's sheet · site ${i + 1} of 6`));
        assert.match(text, new RegExp(`Boxes ${2 * i + 1} and ${2 * i + 2}`));
        assert.match(text, /STOP: /);
        assert.match(text, /geo:52\.\d{5},-1\.\d{5}\b/);
        assert.match(text, /A qualified arborist must inspect each tree/);
      });
    });

test("whatever is printed, each sheet has its page and the report comes first", async () => {
  const pages = await printed(report);
  assert.match(pages[0], /Hang boxes here|Alder Reach Park/);
  const sheets = pages.filter((text) => /Climber's sheet · site/.test(text));
  assert.equal(sheets.length, 6);
  for (const text of sheets) assert.doesNotMatch(text, /A question to the owner|For the committee|Method, settings/);
  assert.equal(pages.filter((text) => /A question to the owner/.test(text)).length, 1);
  assert.equal(pages.filter((text) => /For the committee/.test(text)).length, 1);
});

test("a tree that is the next one of two sites says so on both sheets", async () => {
  const sheets = await printed(report, "climbers-sheets"), next = sheets.map((text) => text.match(/The next tree is (\S+):/)?.[1]);
  const told = sheets.map((text) => text.replace(/\s+/g, " ").match(/It is also the next tree of (site \d(?: and site \d)*): agree who takes it/)?.[1]);
  next.forEach((tree, i) => {
    const others = next.flatMap((other, j) => (tree && j !== i && other === tree ? [`site ${j + 1}`] : []));
    assert.equal(told[i], others.length > 0 ? others.join(" and ") : undefined, `site ${i + 1}`);
  });
  assert.ok(told.some((sites) => sites));
});

test("letters and table are printed alone as well", async () => {
  const letters = await printed(report, "owners-letters");
  assert.equal(letters.length, 1);
  assert.match(letters[0], /To council/);
  assert.match(letters[0], /may we hang 2 boxes on each of 6 trees/);
  const table = await printed(report, "committee-table");
  assert.equal(table.length, 1);
  assert.match(table[0], /Looked after\s+by/);
  assert.match(table[0], /Friends of\s+Alder/);
  assert.equal((await printed(spoilt, "owners-letters")).filter((text) => /A question to the owner/.test(text)).length, 6);
});

test("a sheet is headed NOT READY where nobody asked or inspected", async () => {
  for (const text of await printed(spoilt, "climbers-sheets")) {
    assert.match(text, /STOP: NOT READY/);
    assert.match(text, /OPEN\s+Owner/);
    assert.match(text, /OPEN\s+Inspection/);
  }
  for (const text of await printed(report, "climbers-sheets")) assert.doesNotMatch(text, /NOT READY/);
});

test("a phone reads the code of each site", async () => {
  const { page, close } = await open(browser, report, { deviceScaleFactor: 3 });
  const codes = await page.locator(".climber .code").all();
  assert.equal(codes.length, 6);
  for (const code of codes) {
    const picture = join(scratch, "code.png");
    await code.screenshot({ path: picture });
    const read = execFileSync("zbarimg", ["--raw", "--quiet", picture], { encoding: "utf8" }).trim();
    assert.match(read, /^geo:52\.\d{5},-1\.\d{5}$/);
    assert.equal(await code.getAttribute("aria-label"), `Code that opens ${read} on a phone`);
  }
  await close();
});

test("a link prints its sheets alone, and another takes that back", async () => {
  const { page, close } = await open(browser, report);
  await page.evaluate(() => { window.print = () => { window.prints = (window.prints || 0) + 1; }; });
  await page.getByRole("link", { name: "Print the owners' letters" }).click();
  await page.waitForFunction(() => window.prints === 1);
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator(".climber").first().isVisible(), false);
  assert.equal(await page.locator(".letter").first().isVisible(), true);
  assert.equal(await page.locator("header").isVisible(), false);
  await page.emulateMedia({ media: "screen" });
  await page.getByRole("link", { name: "Print all again" }).click();
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator(".climber").first().isVisible(), true);
  assert.equal(await page.locator("header").isVisible(), true);
  await close();
});

test("hostile names stay texts on the sheets", async () => {
  const { page, said, close } = await open(browser, spoilt, { javaScriptEnabled: false });
  const shown = await page.locator(".climber .tag-line bdi").allTextContents();
  assert.equal(shown.length, 6);
  assert.ok(shown.includes(longest));
  for (const name of shown) assert.ok([longest, "\u202e", script].some((beginning) => name.startsWith(beginning)), name.slice(0, 40));
  assert.ok(new Set(shown.map((name) => name[0])).size === 3, "some of each kind are chosen");
  assert.equal(await page.locator("#sheets-part script").count(), 0);
  assert.deepEqual(said, []);
  await close();
});
