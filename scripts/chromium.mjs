// Finds a Chromium or Chrome for the browser tests and the benchmark, or installs one, and says what it did.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chromium } from 'playwright';

const INSTALLED = [
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/opt/google/chrome/chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
];

const say = (text) => process.stderr.write(`browser: ${text}\n`);

function run(command, args) {
  return spawnSync(command, args, { stdio: ['ignore', 2, 2] }).status === 0;
}

/** @returns {string} path of a browser; throws where there is none and none could be installed */
export function findOrInstallChromium() {
  const given = process.env.CHROMIUM_PATH;
  if (given !== undefined && given !== '') {
    if (!existsSync(given)) throw new Error(`CHROMIUM_PATH names no file: ${given}`);
    say(`using ${given} (CHROMIUM_PATH)`);
    return given;
  }
  const found = [...INSTALLED, chromium.executablePath()].find((path) => existsSync(path));
  if (found !== undefined) {
    say(`using ${found}`);
    return found;
  }
  return install();
}

function install() {
  const isRoot = typeof process.getuid === 'function' && process.getuid() === 0;
  if (isRoot && existsSync('/usr/bin/apt-get')) {
    say('none found; installing Debian’s chromium-headless-shell with apt-get');
    run('apt-get', ['update', '-qq']);
    for (const name of ['chromium-headless-shell', 'chromium']) {
      run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', name]);
      const path = `/usr/bin/${name}`;
      if (existsSync(path)) {
        say(`installed ${path}`);
        return path;
      }
    }
  }
  say('none found; asking Playwright to download its own Chromium');
  run(process.execPath, ['node_modules/playwright/cli.js', 'install', 'chromium']);
  const own = chromium.executablePath();
  if (existsSync(own)) {
    say(`installed ${own}`);
    return own;
  }
  throw new Error(
    'No Chromium or Chrome found, and none could be installed. Install one, or set CHROMIUM_PATH to its executable.',
  );
}
