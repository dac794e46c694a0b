// Opens a page in a real browser, works it as a reader would, and prints what it saw as JSON. The modules of the browser and
// of the checkers are found through NODE_PATH.
//
//   node browser.mjs CHROMIUM PAGE.html FOLDER WIDTH HEIGHT touch|mouse light|dark [FLAG OF THE BROWSER]...
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import path from "node:path";

const [, , chromium, file, folder, width, height, hand, scheme, ...flags] = process.argv;
const need = createRequire(import.meta.url);
const puppeteer = need("puppeteer-core");
const axe = readFileSync(need.resolve("axe-core/axe.min.js"), "utf8");

const browser = await puppeteer.launch({
  executablePath: chromium, headless: true, protocolTimeout: 240000,
  args: ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--force-color-profile=srgb", ...flags],
});
const seen = { console: [], requests: [], pictures: {} };
try {
  const page = await browser.newPage();
  page.on("console", (m) => seen.console.push(`${m.type()}: ${m.text()}`));
  page.on("pageerror", (e) => seen.console.push(`thrown: ${e.message}`));
  page.on("request", (r) => { if (!/^(data|blob):/.test(r.url())) seen.requests.push(r.url()); });
  await page.setViewport({ width: Number(width), height: Number(height), deviceScaleFactor: 1, isMobile: hand === "touch", hasTouch: hand === "touch" });
  await page.emulateMediaFeatures([{ name: "prefers-reduced-motion", value: "reduce" }, { name: "prefers-color-scheme", value: scheme }]);
  const begun = Date.now();
  await page.goto(pathToFileURL(file).href);
  await page.waitForFunction(() => document.documentElement.matches(".turning, [data-why]"), { timeout: 200000 });
  seen.ready = Date.now() - begun;
  seen.why = await page.evaluate(() => document.documentElement.dataset.why || "");
  const stage = await page.$("#stage");
  seen.stage = await page.evaluate(() => [document.getElementById("stage").clientWidth, document.getElementById("stage").clientHeight]);

  // snap waits until the picture rests, and keeps it.
  const snap = async (name) => {
    for (let before = -1, now = 0; before !== now;) {
      before = now;
      await new Promise((done) => setTimeout(done, 250));
      now = await page.evaluate(() => Number(document.getElementById("stage").dataset.drawn || 0));
    }
    seen.pictures[name] = path.join(folder, name + ".png");
    await stage.screenshot({ path: seen.pictures[name] });
  };
  const press = (selector) => page.evaluate((s) => document.querySelector(s).click(), selector);
  const shown = () => page.evaluate(() => [...document.querySelectorAll(".dates [data-variant]:not([hidden])")].map((e) => e.dataset.variant).join());

  await page.screenshot({ path: path.join(folder, "page.png"), fullPage: true });
  if (!seen.why) {
    await snap("outside");
    const box = await stage.boundingBox(), at = [box.x + box.width / 2, box.y + box.height / 2];
    if (hand === "touch") {
      await page.touchscreen.touchStart(...at);
      for (const by of [20, 50, 90]) await page.touchscreen.touchMove(at[0] + by, at[1]);
      await page.touchscreen.touchEnd();
    } else {
      await page.mouse.move(...at);
      await page.mouse.down();
      await page.mouse.move(at[0] + 90, at[1] + 10, { steps: 4 });
      await page.mouse.up();
    }
    await snap("turned");
    await page.focus("#room");
    await page.keyboard.press("ArrowLeft");
    await snap("turned-by-key");
    await page.keyboard.press("Home");
    await snap("home");
    await press("#joints");
    await snap("without-joints");
    await press("#joints");
    await press("#light");
    await snap("outside-light");
    await press("input[name=place][value='2']");
    await snap("inside-light");
    await press("#light");
    await snap("inside");
    await press("input[name=place][value='0']");
  }
  seen.before = await shown();
  await press("input[name=variant][value='1']");
  seen.after = await shown();
  await snap("other");
  seen.stills = await page.evaluate(() => [...document.querySelectorAll(".still img")].filter((e) => e.checkVisibility() && e.naturalWidth > 0).map((e) => e.alt));
  seen.told = await page.evaluate(() => document.getElementById("cannot").checkVisibility());
  await page.evaluate(axe);
  seen.axe = await page.evaluate(async () => (await axe.run()).violations.map((v) => `${v.impact} ${v.id}: ${v.nodes.map((n) => n.target.join(" ")).join("; ")}`));
  seen.overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
} finally {
  await browser.close();
}
const { HtmlValidate } = need("html-validate");
const report = await new HtmlValidate({ extends: ["html-validate:recommended"], rules: { "no-inline-style": "error", "long-title": "off" } }).validateString(readFileSync(file, "utf8"));
seen.html = report.results.flatMap((r) => r.messages.map((m) => `${m.line}: ${m.ruleId}: ${m.message.slice(0, 200)}`));
console.log(JSON.stringify(seen));
