import {
  Chart,
  LinearScale,
  LineElement,
  PointElement,
  ScatterController,
  type ChartOptions,
} from 'chart.js';
import { fixed } from '../shared/numbers';
import { axisOf, numberOn } from './axis-of-rows';
import { bandsBehind, pillsOf, squaresOf, type Inks, type Marks } from './marks';
import type {
  CeilingPicture,
  CoursePicture,
  Picture,
  RowsPicture,
  TempoPicture,
  WeeksPicture,
} from './picture';
import { courseOf } from './course-marks';
import { daysOf, figureOn, temposOf, valuesOf, type ValuesAxis } from './weeks-axis';
import { weeksOf } from './weeks-marks';

// The only import of chart.js: loaded when the first picture is drawn.
Chart.register(ScatterController, LinearScale, PointElement, LineElement);

/** Draws a picture on a canvas. Not animated: nothing on a page of evidence moves. */
export function drawPicture(canvas: HTMLCanvasElement, picture: Picture, inks: Inks): Chart {
  switch (picture.kind) {
    case 'rows':
      return drawRows(canvas, picture, inks);
    case 'tempo':
      return drawTempo(canvas, picture, inks);
    case 'ceiling':
      return drawCeiling(canvas, picture, inks);
    case 'weeks': {
      const axis = { ...valuesOf(picture), words: (value: number) => figureOn(picture.name, value) };
      return drawDays(canvas, picture, axis, weeksOf(picture, inks), inks);
    }
    case 'course': {
      const axis = { ...temposOf(picture), words: (value: number) => `${fixed(value, 0)} bpm` };
      return drawDays(canvas, picture, axis, courseOf(picture, inks), inks);
    }
  }
}

/** A row a group: a pill a hand at its middle, a thin line for its spread, the band behind. */
function drawRows(canvas: HTMLCanvasElement, picture: RowsPicture, inks: Inks): Chart {
  const { min, max, step } = axisOf(picture);
  return inRows(canvas, {
    inks,
    labels: picture.rows.map(({ label }) => label),
    axis: { min, max, step, words: (value) => numberOn(picture, value) },
    plugins: [bandsBehind(picture, inks), pillsOf(picture, inks)],
  });
}

const BPM_STEP = 10;

/** A row a variation: a full square a tempo whose bars held, an empty one where they didn't. */
function drawCeiling(canvas: HTMLCanvasElement, picture: CeilingPicture, inks: Inks): Chart {
  const tempos = picture.rows.flatMap(({ bars }) => bars.map(({ bpm }) => bpm));
  return inRows(canvas, {
    inks,
    labels: picture.rows.map(({ label }) => label),
    axis: {
      min: BPM_STEP * Math.floor(Math.min(...tempos) / BPM_STEP - 1),
      max: BPM_STEP * Math.ceil(Math.max(...tempos) / BPM_STEP + 1),
      step: BPM_STEP,
      words: (value) => `${fixed(value, 0)} bpm`,
    },
    plugins: [squaresOf(picture, inks)],
  });
}

interface InRows {
  readonly inks: Inks;
  readonly labels: readonly string[];
  readonly axis: { min: number; max: number; step: number; words: (value: number) => string };
  readonly plugins: readonly Marks[];
}

/** Under this width labels stand smaller, and words beside the points have less space. */
const NARROW_PX = 560;

function inRows(canvas: HTMLCanvasElement, { inks, labels, axis, plugins }: InRows): Chart {
  const { min, max, step, words } = axis;
  const narrow = canvas.parentElement !== null && canvas.parentElement.clientWidth < NARROW_PX;
  const options: ChartOptions<'scatter'> = {
    animation: false,
    events: [],
    maintainAspectRatio: false,
    layout: { padding: { right: narrow ? 52 : 70 } },
    scales: {
      x: {
        min,
        max,
        border: { display: false },
        grid: { color: inks.line, drawTicks: false },
        ticks: {
          color: inks.quiet,
          font: { family: inks.face, size: narrow ? 12 : 14 },
          padding: 8,
          stepSize: step,
          maxRotation: 0,
          callback: (value) => words(Number(value)),
        },
      },
      y: {
        min: -0.5,
        max: labels.length - 0.5,
        reverse: true,
        border: { display: false },
        grid: { display: false },
        afterBuildTicks: (scale) => {
          scale.ticks = labels.map((_, value) => ({ value }));
        },
        ticks: {
          color: inks.ink,
          font: { family: inks.face, size: narrow ? 13 : 15 },
          padding: narrow ? 6 : 14,
          crossAlign: 'far',
          autoSkip: false,
          callback: (value) => folded(labels[Number(value)] ?? '', narrow),
        },
      },
    },
  };
  return new Chart(canvas, {
    type: 'scatter',
    data: { datasets: [{ data: [] }] },
    plugins: [...plugins],
    options,
  });
}

const LONGEST_NARROW = 16;

/** A long label in two lines where there is little space. */
function folded(label: string, narrow: boolean): string | string[] {
  if (!narrow || label.length <= LONGEST_NARROW) return label;
  const words = label.split(' ');
  const half = Math.ceil(words.length / 2);
  return [words.slice(0, half).join(' '), words.slice(half).join(' ')];
}

/** Bars to the right, bpm upwards; what was asked as a thin quiet line, what was played in ink. */
function drawTempo(canvas: HTMLCanvasElement, { points }: TempoPicture, inks: Inks): Chart {
  const font = { family: inks.face, size: 14 };
  const axis = (words: string, unit: string) => ({
    border: { display: false },
    grid: { color: inks.line, drawTicks: false },
    title: { display: true, text: words, color: inks.quiet, font },
    ticks: {
      color: inks.quiet,
      font,
      padding: 8,
      callback: (value: string | number) => `${fixed(Number(value), 0)}${unit}`,
    },
  });
  return new Chart(canvas, {
    type: 'scatter',
    data: {
      datasets: [
        {
          data: points.flatMap(({ bar, playedBpm }) => (playedBpm === null ? [] : { x: bar, y: playedBpm })),
          showLine: true,
          borderColor: inks.ink,
          borderWidth: 2,
          pointRadius: points.length > 60 ? 0 : 3,
          pointBackgroundColor: inks.ink,
        },
        {
          data: points.map(({ bar, plannedBpm }) => ({ x: bar, y: plannedBpm })),
          showLine: true,
          borderColor: inks.quiet,
          borderWidth: 1,
          borderDash: [5, 4],
          pointRadius: 0,
        },
      ],
    },
    options: {
      animation: false,
      events: [],
      maintainAspectRatio: false,
      scales: { x: { ...axis('bar', ''), min: 1, max: points.length }, y: axis('tempo', ' bpm') },
    },
  });
}

/** Space left and right of pictures under one time axis: for figures on the left, for the newest value on the right. */
const EDGE_PX = 84;

/** Days to the right with a tick a Monday, the figure upwards; everything else is drawn by hand. */
function drawDays(
  canvas: HTMLCanvasElement,
  picture: WeeksPicture | CoursePicture,
  values: ValuesAxis & { words(value: number): string },
  own: Marks,
  inks: Inks,
): Chart {
  const font = { family: inks.face, size: 13 };
  const days = daysOf(picture);
  const narrow = canvas.parentElement !== null && canvas.parentElement.clientWidth < NARROW_PX;
  const mondays = days.mondays.filter((_, index) => index % (narrow ? days.every * 2 : days.every) === 0);
  return new Chart(canvas, {
    type: 'scatter',
    data: { datasets: [{ data: [] }] },
    plugins: [own],
    options: {
      animation: false,
      events: [],
      maintainAspectRatio: false,
      layout: { padding: { top: picture.marks.length > 0 ? 22 : 8, right: narrow ? 62 : EDGE_PX } },
      scales: {
        x: {
          min: days.min,
          max: days.max,
          border: { color: inks.line },
          grid: { display: false },
          afterBuildTicks: (scale) => {
            scale.ticks = mondays.map((value) => ({ value }));
          },
          ticks: {
            color: inks.quiet,
            font,
            maxRotation: 0,
            autoSkip: false,
            callback: (value) => days.words(Number(value)),
          },
        },
        y: {
          // One width for all, so that days stand under each other.
          afterFit: (scale) => {
            scale.width = narrow ? 62 : EDGE_PX;
          },
          min: values.min,
          max: values.max,
          border: { display: false },
          grid: { color: inks.line, drawTicks: false },
          ticks: {
            color: inks.quiet,
            font,
            padding: 8,
            stepSize: values.step,
            callback: (value) => values.words(Number(value)),
          },
        },
      },
    },
  });
}
