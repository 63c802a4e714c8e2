// node browser.mjs BROWSER EXECUTABLE PROFILE: a browser that is told what to do by lines of JSON
// on the standard input, [command, ...arguments], and answers each by a line {value} or {error}.
//
// Every request goes to a proxy that refuses it and writes it down: the network is cut off, and
// whatever would have gone out is known by the command "asked".

import { createServer, request as ask } from "node:http";
import { createRequire } from "node:module";
import { createInterface } from "node:readline";

const page_needs = createRequire(new URL("../../rungsheet/page/package.json", import.meta.url));
const { default: puppeteer } = await import(page_needs.resolve("puppeteer-core"));

const [name, executablePath, userDataDir] = process.argv.slice(2);

const asked = [];
const allowed = []; // addresses to which requests go through, and what they begin with
const proxy = createServer((request, response) => {
  asked.push(`${request.method} ${request.url}`);
  if (!allowed.some((one) => request.url.startsWith(one))) {
    response.writeHead(403).end();
    return;
  }
  const onward = ask(request.url, { method: request.method, headers: request.headers }, (found) => {
    response.writeHead(found.statusCode, found.headers);
    found.pipe(response);
  });
  onward.on("error", () => response.writeHead(502).end());
  request.pipe(onward);
});
proxy.on("connect", (request, socket) => {
  asked.push(`CONNECT ${request.url}`);
  socket.end("HTTP/1.1 403 Forbidden\r\n\r\n");
});
await new Promise((ready) => proxy.listen(0, "127.0.0.1", ready));
const { port } = proxy.address();

const launch = {
  chrome: {
    args: [
      "--no-sandbox",
      `--proxy-server=127.0.0.1:${port}`,
      "--proxy-bypass-list=<-loopback>",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-features=OptimizationHints,MediaRouter",
      "--force-color-profile=srgb",
    ],
  },
  firefox: {
    extraPrefsFirefox: {
      "network.proxy.type": 1,
      "network.proxy.http": "127.0.0.1",
      "network.proxy.http_port": port,
      "network.proxy.ssl": "127.0.0.1",
      "network.proxy.ssl_port": port,
      "network.proxy.allow_hijacking_localhost": true,
      "network.proxy.no_proxies_on": "",
    },
  },
}[name];

const browser = await puppeteer.launch({
  browser: name,
  executablePath,
  userDataDir,
  headless: true,
  protocolTimeout: 300_000,
  ...launch,
});
const page = await browser.newPage();
const said = [];
const requests = [];
page.on("console", (message) => said.push(`${message.type()}: ${message.text()}`));
page.on("pageerror", (error) => said.push(`error: ${error.message}`));
// Marks that are not saved hold the page back when it is left: whoever tests has meant it.
page.on("dialog", (dialog) => dialog.accept().catch(() => {}));
page.on("request", (request) => requests.push(request.url()));

const commands = {
  open: async (address) => {
    await page.goto(address, { waitUntil: "load", timeout: 120_000 });
  },
  evaluate: (script) => page.evaluate(`(async () => { ${script} })()`),
  click: (selector) => page.click(selector),
  type: (selector, text) => page.type(selector, text),
  // A key by its name, or several held together: "Alt+2".
  press: async (chord) => {
    const [key, ...held] = chord.split(/(?<=.)\+/).reverse();
    for (const one of held.reverse()) await page.keyboard.down(one);
    await page.keyboard.press(key);
    for (const one of held.reverse()) await page.keyboard.up(one);
  },
  keys: (text) => page.keyboard.type(text),
  // Press a key until what has the focus matches, as someone does who has no mouse.
  reach: async (selector, key, most) => {
    for (let pressed = 0; pressed < most; pressed += 1) {
      if (await page.evaluate((one) => document.activeElement.matches(one), selector)) return pressed;
      await commands.press(key);
    }
    throw new Error(`${key}, pressed ${most} times, does not reach ${selector}`);
  },
  allow: (address) => {
    allowed.push(address);
  },
  media: (features) => page.emulateMediaFeatures(features),
  size: (width, height, scale) =>
    page.setViewport({ width, height, deviceScaleFactor: scale ?? 1 }),
  wait: async (script, seconds) => {
    await page.waitForFunction(script, { timeout: seconds * 1000, polling: 50 });
  },
  print: async (path) => {
    await page.pdf({ path, preferCSSPageSize: true, printBackground: true });
  },
  picture: async (path) => {
    await page.screenshot({ path });
  },
  upload: async (selector, ...paths) => {
    const field = await page.$(selector);
    await field.uploadFile(...paths);
  },
  said: () => said,
  requests: () => requests,
  asked: () => asked,
  version: () => browser.version(),
};

const answer = (value) => process.stdout.write(`${JSON.stringify(value)}\n`);
answer({ value: "ready" });
for await (const line of createInterface({ input: process.stdin })) {
  const [command, ...given] = JSON.parse(line);
  try {
    answer({ value: (await commands[command](...given)) ?? null });
  } catch (error) {
    answer({ error: String(error?.message ?? error) });
  }
}
await browser.close();
proxy.close();
