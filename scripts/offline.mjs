import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A name for the lot: another file, or one byte of one, makes another. */
function nameOf(files) {
  const hash = createHash('sha256');
  for (const [name, content] of [...files].sort(([a], [b]) => (a < b ? -1 : 1))) {
    hash.update(`${name}\0`).update(content).update('\0');
  }
  return `evenhand-${hash.digest('hex').slice(0, 12)}`;
}

/** The service worker with its list and its name put in. */
export function workerText(worker, files) {
  const names = [...files.keys()].sort().map((name) => JSON.stringify(`./${name}`));
  return worker
    .replace("'%NAME%'", () => JSON.stringify(nameOf(files)))
    .replace("'%FILES%'", () => names.join(', '));
}

/** Writes `sw.js` beside the build: every file of it, those of `public/` too, is kept by the browser. */
export function offline(folder = import.meta.dirname) {
  const shared = join(folder, '../public');
  return {
    name: 'evenhand-offline',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const files = new Map();
        for (const name of readdirSync(shared, { recursive: true })) {
          if (/\.\w+$/.test(name)) files.set(name.replaceAll('\\', '/'), readFileSync(join(shared, name)));
        }
        for (const file of Object.values(bundle)) {
          if (!file.fileName.endsWith('.map')) files.set(file.fileName, file.code ?? file.source);
        }
        const worker = readFileSync(join(folder, 'service-worker.js'), 'utf8');
        this.emitFile({ type: 'asset', fileName: 'sw.js', source: workerText(worker, files) });
      },
    },
  };
}
