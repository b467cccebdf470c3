import { dateOf } from '../../insight/history/weeks';
import { cell } from '../../sessions/csv';
import { hands, type ChartPoint, type CoursePicture, type Picture } from './picture';

/** A picture's numbers as comma-separated values (RFC 4180): a row a point, as computed. */
export function pictureCsv(picture: Picture): string {
  return table(picture)
    .map((row) => `${row.map(cell).join(',')}\r\n`)
    .join('');
}

type Row = readonly (string | number)[];

function table(picture: Picture): readonly Row[] {
  switch (picture.kind) {
    case 'rows': {
      const { unit, rows, name } = picture;
      const isDifference = name === 'differences by place';
      const head: Row = [
        'row',
        'hand',
        `${isDifference ? 'difference' : 'middle'} ${unit}`,
        isDifference ? `half the 90 % interval ${unit}` : `spread ${unit}`,
        'strokes',
        'band low',
        'band high',
      ];
      return [
        head,
        ...rows.flatMap(({ label, R, L, both, band }) => {
          const row = (hand: string, point: ChartPoint | null | undefined): readonly Row[] =>
            point
              ? [
                  [
                    label.replaceAll(/\s+/g, ' '),
                    hand,
                    point.median,
                    point.spread,
                    point.n,
                    band?.[0] ?? '',
                    band?.[1] ?? '',
                  ],
                ]
              : [];
          return [...hands.flatMap((hand) => row(hand, { R, L }[hand])), ...row('both', both)];
        }),
      ];
    }
    case 'tempo':
      return [
        ['bar', 'asked bpm', 'played bpm'],
        ...picture.points.map(({ bar, plannedBpm, playedBpm }): Row => [bar, plannedBpm, playedBpm ?? '']),
      ];
    case 'ceiling':
      return [
        ['variation', 'tempo bpm', 'bars clean', 'bars not clean'],
        ...picture.rows.flatMap(({ label, bars }) =>
          bars.map(({ bpm, held, notHeld }): Row => [label, bpm, held, notHeld]),
        ),
      ];
    case 'course':
      return courseTable(picture);
    case 'weeks':
      return [
        ['day', 'takes', picture.name, '90 % low', '90 % high', 'cold or warm', 'of'],
        ...picture.points.map(({ day, takes, value, interval, cold, of }): Row => [
          dateOf(day),
          takes,
          value,
          interval?.[0] ?? '',
          interval?.[1] ?? '',
          cold ? 'cold' : 'warm',
          of,
        ]),
      ];
  }
}

function courseTable({ tried, spells }: CoursePicture): readonly Row[] {
  return [
    ['day', 'tempo bpm', 'bars', 'clean', 'ceiling is', 'ceiling bpm', '90 % low', '90 % high'],
    ...tried.map(({ day, bpm, bars, clean }): Row => [dateOf(day), bpm, bars, clean, '', '', '', '']),
    ...spells.flat().map(({ day, ceiling }): Row => {
      const [low, high] = ceiling.kind === 'at' ? ceiling.clean.interval : ['', ''];
      const bpm = ceiling.kind === 'at' ? ceiling.clean.value : 'bpm' in ceiling ? ceiling.bpm : '';
      return [dateOf(day), '', '', '', ceiling.kind, bpm, low, high];
    }),
  ];
}
