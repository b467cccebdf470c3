import type { Mark, SeriesPoint } from '../../insight/history/series';
import type { Drawn, Inks, Marks } from './marks';
import type { WeeksPicture } from './picture';
import { figureOn, isTwoSided } from './weeks-axis';

const DOT_PX = 4.5;
const CROSS_PX = 4;
/** Of the height of a line of text. */
const CLEAR_PX = 16;

/** A letter for a mark, from a on. @example markLetter(1) // => b */
export function markLetter(index: number): string {
  return String.fromCharCode('a'.charCodeAt(0) + (index % 26));
}

/**
 * Warm takes as dots with a line through them, cold ones as crosses; intervals as thin lines; the trend dashed where it is one; where something began, a letter on a thin line.
 */
// eslint-disable-next-line max-lines-per-function -- a picture's layers in the order they are painted
export function weeksOf(picture: WeeksPicture, inks: Inks): Marks {
  return {
    id: 'weeks',
    afterDatasetsDraw: (chart) => {
      const { ctx } = chart;
      ctx.save();
      ctx.font = `13px ${inks.face}`;
      limits(chart);
      marksThrough(chart, picture.marks, inks);
      for (const point of picture.points) reach(chart, point);
      throughWarm(chart);
      for (const point of picture.points) (point.cold ? cross : dot)(chart, point);
      trend(chart);
      const newest = picture.points.at(-1);
      if (newest !== undefined)
        atTheEdge(chart, newest.value, figureOn(picture.name, newest.value, true), inks);
      ctx.restore();
    },
  };

  function limits(chart: Drawn): void {
    if (picture.limit === null) return;
    for (const limit of isTwoSided(picture.name) ? [-picture.limit, picture.limit] : [picture.limit]) {
      line(
        chart,
        [
          [chart.scales.x.min, limit],
          [chart.scales.x.max, limit],
        ],
        inks.quiet,
        1,
      );
      limitWord(chart, limit);
    }
  }

  /** Right of everything, clear of the newest value. */
  function limitWord({ ctx, scales: { x, y } }: Drawn, limit: number): void {
    const newest = picture.points.at(-1);
    const at = y.getPixelForValue(limit);
    const value = newest === undefined ? -Infinity : y.getPixelForValue(newest.value);
    const clear = Math.abs(at - value) >= CLEAR_PX ? at : value + (at < value ? -CLEAR_PX : CLEAR_PX);
    ctx.fillStyle = inks.quiet;
    ctx.textAlign = 'left';
    ctx.textBaseline = 'middle';
    ctx.fillText('holds', x.getPixelForValue(x.max) + 8, clear);
  }

  function reach(chart: Drawn, { day, interval }: SeriesPoint): void {
    if (interval === null) return;
    line(
      chart,
      [
        [day, interval[0]],
        [day, interval[1]],
      ],
      inks.quiet,
      1.2,
    );
  }

  function throughWarm(chart: Drawn): void {
    const warm = picture.points.filter(({ cold }) => !cold);
    const own = warm.length > 0 ? warm : picture.points;
    line(
      chart,
      own.map(({ day, value }) => [day, value]),
      inks.ink,
      1.4,
    );
  }

  function trend(chart: Drawn): void {
    const { trend } = picture;
    if (trend.kind !== 'known' || trend.change === 'none') return;
    line(
      chart,
      [
        [trend.days[0], trend.from],
        [trend.days[1], trend.to],
      ],
      inks.ink,
      2,
      [7, 4],
    );
  }

  function dot(chart: Drawn, { day, value }: SeriesPoint): void {
    const { ctx } = chart;
    ctx.fillStyle = inks.ink;
    ctx.beginPath();
    ctx.arc(
      chart.scales.x.getPixelForValue(day),
      chart.scales.y.getPixelForValue(value),
      DOT_PX,
      0,
      2 * Math.PI,
    );
    ctx.fill();
  }

  function cross(chart: Drawn, { day, value }: SeriesPoint): void {
    const { ctx } = chart;
    const [at, top] = [chart.scales.x.getPixelForValue(day), chart.scales.y.getPixelForValue(value)];
    ctx.strokeStyle = inks.ink;
    ctx.lineWidth = 2;
    ctx.beginPath();
    ctx.moveTo(at - CROSS_PX, top - CROSS_PX);
    ctx.lineTo(at + CROSS_PX, top + CROSS_PX);
    ctx.moveTo(at - CROSS_PX, top + CROSS_PX);
    ctx.lineTo(at + CROSS_PX, top - CROSS_PX);
    ctx.stroke();
  }
}

/** A thin line with a letter where something began. */
export function marksThrough(chart: Drawn, marks: readonly Mark[], inks: Inks): void {
  const { ctx } = chart;
  const { x, y } = chart.scales;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'bottom';
  let lastPx = -Infinity;
  marks.forEach(({ day }, index) => {
    const at = x.getPixelForValue(day);
    const ends: readonly (readonly [number, number])[] = [
      [day, y.min],
      [day, y.max],
    ];
    line(chart, ends, inks.quiet, 1, [2, 3]);
    ctx.fillStyle = inks.ink;
    // Letters of one day stand side by side.
    const beside = Math.max(at, lastPx + 11);
    ctx.fillText(markLetter(index), beside, y.getPixelForValue(y.max) - 3);
    lastPx = beside;
  });
}

/** The newest value, right of everything. */
export function atTheEdge({ ctx, scales: { x, y } }: Drawn, value: number, words: string, inks: Inks): void {
  ctx.font = `15px ${inks.face}`;
  ctx.fillStyle = inks.ink;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  ctx.fillText(words, x.getPixelForValue(x.max) + 8, y.getPixelForValue(value));
}

export function line(
  { ctx, scales: { x, y } }: Drawn,
  points: readonly (readonly [day: number, value: number])[],
  ink: string,
  widthPx: number,
  dash: readonly number[] = [],
): void {
  ctx.strokeStyle = ink;
  ctx.lineWidth = widthPx;
  ctx.setLineDash([...dash]);
  ctx.beginPath();
  for (const [day, value] of points) ctx.lineTo(x.getPixelForValue(day), y.getPixelForValue(value));
  ctx.stroke();
  ctx.setLineDash([]);
}
