// What the tests share: plans made by the program, and Chromium with no way out.
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
export const demoFolder = join(here, "../../data/demo");
export const program = process.env.ROOSTWARD_PROGRAM;

export const scratch = mkdtempSync(join(tmpdir(), "roostward-page-"));
process.on("exit", () => rmSync(scratch, { recursive: true, force: true }));

/// The folder that a command writes for a park. `change` may spoil a copy of the demo first.
function written(command, name, change, options) {
  const park = join(scratch, name), out = join(scratch, `${name}-out`);
  cpSync(demoFolder, park, { recursive: true });
  change(park);
  const ran = spawnSync(program, [command, join(park, "site.toml"), "--out", out, "--quiet", ...options], { encoding: "utf8" });
  if (ran.status !== 0 && ran.status !== 4) throw new Error(ran.stderr);   // 4: no tree can be chosen
  return out;
}

/// The report of a park.
export function planned(name, change = () => {}, ...options) {
  return join(written("plan", name, change, options), "report.html");
}

/// The page of evenings to come in a park, from 26 June 2026 on.
export function evenings(name, change, ...options) {
  return join(written("evenings", name, change, ["--start", "2026-06-26", ...options]), "evenings.html");
}

export function launch() {
  return chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
      "--disable-component-update", "--disable-sync"]
  });
}

/// Opens a file with the network cut. `said` collects what the console says, `asked` what the page asks for.
export async function open(browser, file, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: "en-GB", offline: true, ...options });
  const page = await context.newPage(), said = [], asked = [];
  page.on("console", (message) => said.push(message.text()));
  page.on("pageerror", (error) => said.push(error.message));
  page.on("request", (request) => asked.push(request.url()));
  await page.goto(`file://${file}`);
  return { page, said, asked, close: () => context.close() };
}

export function write(folder, name, text) {
  writeFileSync(join(folder, name), text);
}
