// Draws the app's own icons into public/icons/: a filled stick over an open one, as on the page. `node scripts/icons.mjs`
import { mkdirSync, writeFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';

const PAPER = [0xf8, 0xf6, 0xf1];
const INK = [0x22, 0x26, 0x2b];
/** In 32nds of the side: two rounded bars, the second one open. */
const BARS = [
  { x: 5, y: 7, width: 22, height: 7 },
  { x: 5, y: 18, width: 22, height: 7, open: 2.4 },
];

const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32">
  <rect width="32" height="32" fill="#f8f6f1" />
  <rect x="5" y="7" width="22" height="7" rx="3.5" fill="#22262b" />
  <rect x="6.2" y="19.2" width="19.6" height="4.6" rx="2.3" fill="none" stroke="#22262b" stroke-width="2.4" />
</svg>
`;

/** Signed distance to a pill: negative inside. */
function distance(x, y, bar) {
  const radius = bar.height / 2;
  const left = bar.x + radius;
  const nearest = Math.min(Math.max(x, left), bar.x + bar.width - radius);
  return Math.hypot(x - nearest, y - bar.y - radius) - radius;
}

/** `scale`: how much of the side the drawing takes; what is masked round by a phone must stay in the middle. */
function picture(side, scale) {
  const rows = [];
  for (let row = 0; row < side; row += 1) {
    const line = Buffer.alloc(1 + 3 * side);
    for (let column = 0; column < side; column += 1) {
      const at = (pixel) => 16 + (((pixel + 0.5) * 32) / side - 16) / scale;
      const pixel = 32 / side / scale;
      const ink = Math.max(
        ...BARS.map((bar) => {
          const far = distance(at(column), at(row), bar);
          const inside = Math.min(1, Math.max(0, 0.5 - far / pixel));
          const hole = bar.open === undefined ? 0 : Math.min(1, Math.max(0, 0.5 - (far + bar.open) / pixel));
          return inside - hole;
        }),
      );
      PAPER.forEach((paper, channel) => {
        line[1 + 3 * column + channel] = Math.round(paper + ink * (INK[channel] - paper));
      });
    }
    rows.push(line);
  }
  return Buffer.concat(rows);
}

/** PNG (ISO 15948): signature, header, one data chunk, end; 8 bits, RGB. */
function png(side, scale) {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(side, 0);
  header.writeUInt32BE(side, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const data = deflateSync(picture(side, scale), { level: 9 });
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', data),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

function crc32(bytes) {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

const folder = new URL('../public/icons/', import.meta.url);
mkdirSync(folder, { recursive: true });
writeFileSync(new URL('icon.svg', folder), svg);
for (const side of [180, 192, 512]) writeFileSync(new URL(`icon-${side}.png`, folder), png(side, 1));
writeFileSync(new URL('icon-maskable-512.png', folder), png(512, 0.75));
