import { element, textElement, xmlOf, type Element } from '../xml';

const WIDTH = 190;
const HEIGHT = 20;
/** Where *not yet*, *holds* and *ideal* stand. */
const X = { notYet: 32, holds: 95, ideal: 158 } as const;
/** Lower margins stand at the edge. */
const LEAST = -1.4;

/**
 * Where a variation stands: its supported margin drawn between the *not yet* limit, the *holds* limit and the ideal. Black
 * on white; without a dot where there is no margin.
 */
export function marginPicture(supported: number | null): string {
  return svgOf(
    supported === null ? 'no margin' : 'margin',
    element('rect', {
      x: String(X.holds),
      y: '3',
      width: String(X.ideal - X.holds),
      height: '14',
      fill: '#ddd',
    }),
    ...[X.notYet, X.holds, X.ideal].map((x) => line(x, x, 1, HEIGHT - 1, x === X.holds ? 1.6 : 1)),
    ...(supported === null ? [] : reach(xOf(supported))),
  );
}

/** The words over a column of margins. */
export const marginScale = (): string =>
  svgOf(
    'not yet, holds, ideal',
    ...(['notYet', 'holds', 'ideal'] as const).map((key) =>
      textElement('text', key === 'notYet' ? 'not yet' : key, {
        x: String(X[key]),
        y: '14',
        'font-size': '12',
        'text-anchor': 'middle',
        fill: '#333',
      }),
    ),
  );

function svgOf(label: string, ...drawn: readonly Element[]): string {
  return xmlOf(
    element(
      'svg',
      {
        xmlns: 'http://www.w3.org/2000/svg',
        class: 'margin',
        viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
        width: String(WIDTH),
        height: String(HEIGHT),
        role: 'img',
        'aria-label': label,
        'font-family': 'system-ui, sans-serif',
      },
      ...drawn,
    ),
  );
}

const reach = (x: number): Element[] => [
  line(X.holds, x, HEIGHT / 2, HEIGHT / 2, 3),
  element('circle', { cx: String(x), cy: String(HEIGHT / 2), r: '5.5', fill: '#000' }),
];

function xOf(margin: number): number {
  const held = Math.max(LEAST, Math.min(1, margin));
  return Math.round((X.holds + held * (X.ideal - X.holds)) * 10) / 10;
}

const line = (x1: number, x2: number, y1: number, y2: number, width: number): Element =>
  element('line', {
    x1: String(x1),
    x2: String(x2),
    y1: String(y1),
    y2: String(y2),
    stroke: '#000',
    'stroke-width': String(width),
  });
