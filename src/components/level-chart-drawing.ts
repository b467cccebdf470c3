import { Chart, LinearScale, LineElement, PointElement, ScatterController, type Plugin } from 'chart.js';
import type { Hand } from '../stroke';
import type { ChartPicture, ChartPoint } from './types';
import { fixed, signed } from './numbers';

// The only import of chart.js: loaded when the first picture is drawn.
Chart.register(ScatterController, LinearScale, PointElement, LineElement);

export interface ChartInks {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly line: string;
  readonly out: string;
  readonly face: string;
}

const HAND_OFFSET = 0.2;
const DB_STEP = 6;
const MS_STEP = 10;

/** Draws a picture on a canvas: a row a group, a pill a hand at its median, a thin line for its spread. Not animated. */
export function drawChart(canvas: HTMLCanvasElement, picture: ChartPicture, inks: ChartInks): Chart {
  const { rows, unit } = picture;
  const font = { family: inks.face, size: 14 };
  const [min, max] = range(picture);
  return new Chart(canvas, {
    type: 'scatter',
    data: { datasets: [{ data: [] }] },
    plugins: [pills(picture, inks)],
    options: {
      animation: false,
      events: [],
      maintainAspectRatio: false,
      layout: { padding: { right: 70 } },
      scales: {
        x: {
          min,
          max,
          border: { display: false },
          grid: { color: inks.line, drawTicks: false },
          ticks: {
            color: inks.quiet,
            font,
            padding: 8,
            stepSize: unit === 'dB' ? DB_STEP : MS_STEP,
            callback: (value) =>
              `${unit === 'dB' ? fixed(Number(value), 0) : signed(Number(value), 0)} ${unit}`,
          },
        },
        y: {
          min: -0.5,
          max: rows.length - 0.5,
          reverse: true,
          border: { display: false },
          grid: { display: false },
          afterBuildTicks: (scale) => {
            scale.ticks = rows.map((_, value) => ({ value }));
          },
          ticks: {
            color: inks.ink,
            font: { ...font, size: 15 },
            padding: 14,
            crossAlign: 'far',
            autoSkip: false,
            callback: (value) => rows[Number(value)]?.label ?? '',
          },
        },
      },
    },
  });
}

/** Room for every spread, in whole steps; levels up to 0 dB, times as far to the left as to the right. */
function range({ rows, unit }: ChartPicture): readonly [number, number] {
  const points = rows.flatMap((row) => [row.R, row.L]).filter((point) => point !== null);
  const low = Math.min(...points.map((point) => point.median - point.spread));
  const high = Math.max(...points.map((point) => point.median + point.spread));
  if (unit === 'dB') return [DB_STEP * Math.floor(low / DB_STEP), 0];
  const reach = MS_STEP * Math.ceil(Math.max(Math.abs(low), Math.abs(high), MS_STEP) / MS_STEP);
  return [-reach, reach];
}

const PILL = { width: 20, height: 10 };

function pills({ rows, unit }: ChartPicture, inks: ChartInks): Plugin<'scatter'> {
  return {
    id: 'pills',
    afterDatasetsDraw: (chart) => {
      const { ctx } = chart;
      const { x, y } = chart.scales;
      ctx.save();
      ctx.font = `13px ${inks.face}`;
      ctx.textBaseline = 'middle';
      rows.forEach((row, index) => {
        const both = row.R !== null && row.L !== null;
        for (const hand of ['R', 'L'] as const) {
          const point = row[hand];
          if (point === null) continue;
          const off = both ? (hand === 'R' ? -HAND_OFFSET : HAND_OFFSET) : 0;
          drawPoint(ctx, point, hand, {
            from: x.getPixelForValue(Math.max(x.min, point.median - point.spread)),
            middle: x.getPixelForValue(point.median),
            to: x.getPixelForValue(Math.min(x.max, point.median + point.spread)),
            y: y.getPixelForValue(index + off),
            words: `${hand} ${unit === 'dB' ? fixed(point.median, 1) : signed(point.median, 0)}`,
          });
        }
      });
      ctx.restore();
    },
  };

  function drawPoint(
    ctx: CanvasRenderingContext2D,
    point: ChartPoint,
    hand: Hand,
    at: { from: number; middle: number; to: number; y: number; words: string },
  ): void {
    const ink = point.out ? inks.out : inks.ink;
    ctx.strokeStyle = ink;
    ctx.lineWidth = point.out ? 2.5 : 1.5;
    ctx.beginPath();
    ctx.moveTo(at.from, at.y);
    ctx.lineTo(at.to, at.y);
    ctx.stroke();
    ctx.beginPath();
    ctx.roundRect(
      at.middle - PILL.width / 2,
      at.y - PILL.height / 2,
      PILL.width,
      PILL.height,
      PILL.height / 2,
    );
    ctx.fillStyle = hand === 'R' ? ink : inks.paper;
    ctx.fill();
    ctx.lineWidth = 2.5;
    ctx.stroke();
    ctx.fillStyle = ink;
    ctx.font = `${point.out ? '700 ' : ''}13px ${inks.face}`;
    ctx.fillText(at.words, Math.max(at.to, at.middle + PILL.width / 2) + 9, at.y + 1);
  }
}
