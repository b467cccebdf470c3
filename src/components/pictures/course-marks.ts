import type { CoursePoint } from '../../insight/ceiling/progress';
import type { TriedBars } from '../../grading/tried-bars';
import { tempoWords } from '../../insight/ceiling/words';
import type { Drawn, Inks, Marks } from './marks';
import type { CoursePicture } from './picture';
import { atTheEdge, line, marksThrough } from './weeks-marks';

const SQUARE_PX = 8;
/** Days are whole ones: a day's bars stand in its middle. */
const MIDDLE = 0.5;
const ARROW_PX = 13;
/** Half of the least width of a band. */
const LEAST_PX = 3;

/**
 * Bars tried as squares at their tempo, filled from below by the share that was clean; over them the ceiling as a line in
 * its 90 % band; where it is over or under all that was tried, an arrow up or down.
 */
export function courseOf({ tried, spells, marks }: CoursePicture, inks: Inks): Marks {
  return {
    id: 'course',
    // Under the squares: the band must not hide them.
    beforeDatasetsDraw: (chart) => {
      for (const spell of spells) band(chart, spell, inks);
    },
    afterDatasetsDraw: (chart) => {
      const { ctx } = chart;
      ctx.save();
      ctx.font = `13px ${inks.face}`;
      marksThrough(chart, marks, inks);
      for (const one of tried) square(chart, one, inks);
      for (const spell of spells) {
        curve(chart, spell, inks);
        for (const point of spell) arrow(chart, point, inks);
      }
      const newest = spells.at(-1)?.at(-1);
      if (newest !== undefined) edge(chart, newest, inks);
      ctx.restore();
    },
  };
}

function band({ ctx, scales: { x, y } }: Drawn, spell: readonly CoursePoint[], inks: Inks): void {
  const points = spell.flatMap(({ day, ceiling }) =>
    ceiling.kind === 'at' ? [{ at: x.getPixelForValue(day + MIDDLE), interval: ceiling.clean.interval }] : [],
  );
  if (points.length === 0) return;
  const within = (bpm: number): number => y.getPixelForValue(Math.min(y.max, Math.max(y.min, bpm)));
  // One day alone has a band too.
  const [first, last] = [points[0], points[points.length - 1]];
  const wide = [{ ...first, at: first.at - LEAST_PX }, ...points, { ...last, at: last.at + LEAST_PX }];
  ctx.fillStyle = inks.band;
  ctx.beginPath();
  for (const { at, interval } of wide) ctx.lineTo(at, within(interval[0]));
  for (const { at, interval } of wide.toReversed()) ctx.lineTo(at, within(interval[1]));
  ctx.fill();
}

function curve(chart: Drawn, spell: readonly CoursePoint[], inks: Inks): void {
  const points = spell.flatMap(({ day, ceiling }) =>
    ceiling.kind === 'at' ? [[day + MIDDLE, ceiling.clean.value] as const] : [],
  );
  line(chart, points, inks.ink, 2.4);
}

function arrow({ ctx, scales: { x, y } }: Drawn, { day, ceiling }: CoursePoint, inks: Inks): void {
  if (ceiling.kind !== 'above' && ceiling.kind !== 'below') return;
  const way = ceiling.kind === 'above' ? -1 : 1;
  const at = x.getPixelForValue(day + MIDDLE);
  const from = y.getPixelForValue(ceiling.bpm) + (way * SQUARE_PX) / 2;
  const to = from + way * ARROW_PX;
  ctx.strokeStyle = inks.ink;
  ctx.lineWidth = 1.6;
  ctx.beginPath();
  ctx.moveTo(at, from);
  ctx.lineTo(at, to);
  ctx.moveTo(at - 3.5, to - way * 5);
  ctx.lineTo(at, to);
  ctx.lineTo(at + 3.5, to - way * 5);
  ctx.stroke();
}

function square({ ctx, scales: { x, y } }: Drawn, { day, bpm, bars, clean }: TriedBars, inks: Inks): void {
  const left = x.getPixelForValue(day + MIDDLE) - SQUARE_PX / 2;
  const top = y.getPixelForValue(bpm) - SQUARE_PX / 2;
  const full = (SQUARE_PX * clean) / bars;
  ctx.strokeStyle = inks.quiet;
  ctx.fillStyle = inks.quiet;
  ctx.lineWidth = 1.2;
  ctx.strokeRect(left, top, SQUARE_PX, SQUARE_PX);
  ctx.fillRect(left, top + SQUARE_PX - full, SQUARE_PX, full);
}

function edge(chart: Drawn, { ceiling }: CoursePoint, inks: Inks): void {
  switch (ceiling.kind) {
    case 'at':
      return atTheEdge(chart, ceiling.clean.value, `${tempoWords(ceiling)} bpm`, inks);
    case 'above':
      return atTheEdge(chart, ceiling.bpm, tempoWords(ceiling), inks);
    case 'below':
      return atTheEdge(chart, ceiling.bpm, tempoWords(ceiling), inks);
    case 'too few bars':
      return;
  }
}
