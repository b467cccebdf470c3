import { numberBeside } from './axis-of-rows';
import type { CeilingPicture, ChartPoint, RowsPicture } from './picture';

/** The tokens of the look, as they stand on the page. */
export interface Inks {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly line: string;
  readonly band: string;
  readonly out: string;
  readonly face: string;
}

/** As much of a chart as marks are drawn on. */
export interface Drawn {
  readonly ctx: CanvasRenderingContext2D;
  readonly scales: Readonly<
    Record<string, { readonly min: number; readonly max: number; getPixelForValue(value: number): number }>
  >;
}

/** What is drawn behind or over a chart's own marks. */
export interface Marks {
  readonly id: string;
  readonly beforeDatasetsDraw?: (chart: Drawn) => void;
  readonly afterDatasetsDraw?: (chart: Drawn) => void;
}

const HAND_OFFSET = 0.2;
const PILL = { width: 20, height: 10 };
const SQUARE_PX = 11;

/** The band of each row, behind everything. */
export function bandsBehind({ rows }: RowsPicture, inks: Inks): Marks {
  return {
    id: 'bands',
    beforeDatasetsDraw: (chart) => {
      const { ctx } = chart;
      const { x, y } = chart.scales;
      ctx.save();
      ctx.fillStyle = inks.band;
      rows.forEach(({ band }, index) => {
        if (band === undefined) return;
        const from = x.getPixelForValue(Math.max(x.min, band[0] ?? x.min));
        const to = x.getPixelForValue(Math.min(x.max, band[1] ?? x.max));
        const top = y.getPixelForValue(index - 0.42);
        if (to > from) ctx.fillRect(from, top, to - from, y.getPixelForValue(index + 0.42) - top);
      });
      ctx.restore();
    },
  };
}

/** A pill a hand, right filled and left open; both hands together in one filled pill. */
export function pillsOf(picture: RowsPicture, inks: Inks): Marks {
  return {
    id: 'pills',
    afterDatasetsDraw: (chart) => {
      const { ctx } = chart;
      ctx.save();
      ctx.textBaseline = 'middle';
      picture.rows.forEach((row, index) => {
        const two = row.R !== null && row.L !== null;
        if (row.R !== null) pill(chart, row.R, { letter: 'R', row: index - (two ? HAND_OFFSET : 0) });
        if (row.L !== null) pill(chart, row.L, { letter: 'L', row: index + (two ? HAND_OFFSET : 0) });
        if (row.both) pill(chart, row.both, { letter: '', row: index });
      });
      ctx.restore();
    },
  };

  function pill(chart: Drawn, point: ChartPoint, { letter, row }: { letter: string; row: number }): void {
    const { ctx } = chart;
    const { x, y } = chart.scales;
    const at = (value: number): number => x.getPixelForValue(Math.max(x.min, Math.min(x.max, value)));
    const [from, middle, to] = [-point.spread, 0, point.spread].map((off) => at(point.median + off));
    const top = y.getPixelForValue(row);
    const ink = point.out ? inks.out : inks.ink;
    ctx.strokeStyle = ink;
    ctx.lineWidth = point.out ? 2.5 : 1.5;
    ctx.beginPath();
    ctx.moveTo(from, top);
    ctx.lineTo(to, top);
    ctx.stroke();
    ctx.beginPath();
    ctx.roundRect(middle - PILL.width / 2, top - PILL.height / 2, PILL.width, PILL.height, PILL.height / 2);
    ctx.fillStyle = letter === 'L' ? inks.paper : ink;
    ctx.fill();
    ctx.lineWidth = 2.5;
    ctx.stroke();
    ctx.fillStyle = ink;
    ctx.font = `${point.out ? '700 ' : ''}13px ${inks.face}`;
    const words = `${letter} ${numberBeside(picture, point.median)}`.trim();
    ctx.fillText(words, Math.max(to, middle + PILL.width / 2) + 9, top + 1);
  }
}

/** Squares at tempos: full where all bars held, half where some did, empty where none; the ceiling as a line. */
export function squaresOf({ rows }: CeilingPicture, inks: Inks): Marks {
  return {
    id: 'squares',
    afterDatasetsDraw: (chart) => {
      const { ctx } = chart;
      const { x, y } = chart.scales;
      ctx.save();
      ctx.textBaseline = 'middle';
      ctx.font = `13px ${inks.face}`;
      rows.forEach(({ bars, ceilingBpm }, index) => {
        const middle = y.getPixelForValue(index);
        for (const { bpm, held, notHeld } of bars) {
          const left = x.getPixelForValue(bpm) - SQUARE_PX / 2;
          const full = (SQUARE_PX * held) / (held + notHeld);
          ctx.strokeStyle = inks.ink;
          ctx.fillStyle = inks.ink;
          ctx.lineWidth = 1.8;
          ctx.strokeRect(left, middle - SQUARE_PX / 2, SQUARE_PX, SQUARE_PX);
          ctx.fillRect(left, middle + SQUARE_PX / 2 - full, SQUARE_PX, full);
        }
        if (ceilingBpm === null) return;
        ctx.strokeStyle = inks.ink;
        ctx.lineWidth = 2.5;
        ctx.beginPath();
        ctx.moveTo(x.getPixelForValue(ceilingBpm), y.getPixelForValue(index - 0.42));
        ctx.lineTo(x.getPixelForValue(ceilingBpm), y.getPixelForValue(index + 0.42));
        ctx.stroke();
      });
      ctx.restore();
    },
  };
}
