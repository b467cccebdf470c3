import type { Change } from './changes';
import type { Fate } from './tried';

/** A bug of an earlier run that no test need catch, or none does, and why. Found again by what stands there. */
export interface Known {
  readonly file: string;
  readonly was: string;
  readonly becomes: string;
  /** `same`: it changes nothing that anybody can see. `open`: it does, and no test says so. */
  readonly kind: 'same' | 'open';
  readonly why: string;
}

export interface Tried {
  readonly change: Change;
  readonly fate: Fate;
  readonly known?: Known;
}

export const folderOf = ({ file }: Change): string => file.split('/')[1];

export function knownOf(change: Change, all: readonly Known[]): Known | undefined {
  return all.find(
    ({ file, was, becomes }) => file === change.file && was === change.was && becomes === change.becomes,
  );
}

/** By folder: planted, caught, changing nothing, survived; and every survivor with why. Markdown. */
export function tableOf(tried: readonly Tried[], head: string): string {
  const folders = [...new Set(tried.map(({ change }) => folderOf(change)))];
  const rows = [
    ...folders.map((folder) => [folder, tried.filter(({ change }) => folderOf(change) === folder)] as const),
  ];
  const cells = (name: string, of: readonly Tried[]): string => {
    const { planted, caught, same, survived, share } = countsOf(of);
    return `| ${name} | ${planted} | ${caught} | ${same} | ${survived} | ${share.toFixed(1)} % |`;
  };
  const left = tried.filter(({ fate }) => fate.kind === 'survived');
  const line = ({ change, known }: Tried): string =>
    `* \`${change.file}:${change.line}\`: ${change.kind}, \`${oneLine(change.was)}\` → \`${oneLine(change.becomes)}\`. ${known?.why ?? 'Nobody has looked yet.'}`;
  const listed = (title: string, of: readonly Tried[]): string[] =>
    of.length === 0 ? [] : ['', `## ${title}`, '', ...of.map(line)];
  return [
    head,
    '',
    '| folder | planted | caught | changes nothing | survived | caught of those that change something |',
    '|---|---|---|---|---|---|',
    ...rows.map(([name, of]) => cells(name, of)),
    cells('**all**', tried),
    ...listed(
      'Change nothing',
      left.filter(({ known }) => known?.kind === 'same'),
    ),
    ...listed(
      'Survived',
      left.filter(({ known }) => known?.kind !== 'same'),
    ),
    '',
  ].join('\n');
}

export function countsOf(tried: readonly Tried[]) {
  const survivors = tried.filter(({ fate }) => fate.kind === 'survived');
  const same = survivors.filter(({ known }) => known?.kind === 'same').length;
  const planted = tried.length;
  const caught = planted - survivors.length;
  const share = planted === same ? 100 : (100 * caught) / (planted - same);
  return { planted, caught, same, survived: survivors.length - same, share };
}

const oneLine = (text: string): string => {
  const flat = text.replace(/\s+/g, ' ').replaceAll('`', '´');
  return flat.length > MOST_SIGNS ? `${flat.slice(0, MOST_SIGNS)}…` : flat;
};
const MOST_SIGNS = 110;
