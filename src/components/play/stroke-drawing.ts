import type { BarMarks, ExtraMark, GraceMark, StrokeMark } from './bar-marks';

/** The tokens of the look that strokes are drawn in. */
export interface Inks {
  readonly ink: string;
  readonly paper: string;
  readonly out: string;
  /** Opacity of passes gone by, 0 to 1. */
  readonly faint: number;
}

/** The drawing's size: CSS pixels, and device pixels in one of them. */
export interface DrawingSize {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
}

const STROKE_PX = 13;
const PAST_PX = 5;
const GRACE_PX = 9;
const PAST_GRACE_PX = 4;
const EXTRA_SHARE = 0.045;
const CROSS_SHARE = 0.05;
const STRUCK_OUT_SHARE = 0.05;

/**
 * Draws the strokes and extras of a bar, oldest first, after wiping what was there. On a canvas because a stroke must
 * be on the screen with the next frame: drawing all of them anew costs less than moving one element in a page.
 */
export function drawStrokes(
  to: CanvasRenderingContext2D,
  size: DrawingSize,
  marks: BarMarks,
  inks: Inks,
): void {
  to.setTransform(size.scale, 0, 0, size.scale, 0, 0);
  to.clearRect(0, 0, size.width, size.height);
  for (const extra of marks.extras) drawExtra(to, size, extra, inks);
  for (const grace of marks.graces) drawGrace(to, size, grace, inks);
  for (const stroke of marks.strokes) drawStroke(to, size, stroke, inks);
  to.globalAlpha = 1;
}

function drawStroke(to: CanvasRenderingContext2D, size: DrawingSize, mark: StrokeMark, inks: Inks): void {
  const { hand, wrongHand, wrongSurface, age, edgeY } = mark;
  const isNow = age === 0;
  const tall = isNow ? STROKE_PX : PAST_PX;
  const [x, width] = [mark.x * size.width, mark.width * size.width];
  const middle = x + width / 2;
  const y = within(down(mark.y, size), tall, size);
  const colour = edgeY === null ? inks.ink : inks.out;
  to.globalAlpha = isNow ? 1 : inks.faint;
  if (edgeY !== null) line(to, inks.out, 7, middle, y, middle, down(edgeY, size));
  to.beginPath();
  to.roundRect(x, y - tall / 2, width, tall, tall / 2);
  if (hand === 'R' || isNow) {
    to.fillStyle = hand === 'R' ? colour : inks.paper;
    to.fill();
  }
  if (isNow || hand !== 'R') {
    to.strokeStyle = colour;
    to.lineWidth = isNow ? 3 : 1.5;
    to.stroke();
  }
  if (hand === 'both') {
    // Open as left, filled as right: half of each.
    to.fillStyle = colour;
    to.fillRect(middle, y - tall / 2, width / 2, tall);
  }
  if (wrongSurface && isNow) {
    // Struck out: nothing of its level counts.
    const reach = STRUCK_OUT_SHARE * size.height;
    line(to, inks.ink, 2, x, y + reach, x + width, y - reach);
  }
  if (wrongHand && isNow) {
    const reach = CROSS_SHARE * size.height;
    line(to, inks.ink, 2, middle, y - reach, middle, y + reach);
  }
}

function drawGrace(
  to: CanvasRenderingContext2D,
  size: DrawingSize,
  { hand, x, width, y, age }: GraceMark,
  inks: Inks,
): void {
  const tall = age === 0 ? GRACE_PX : PAST_GRACE_PX;
  const height = within(down(y, size), tall, size);
  to.globalAlpha = age === 0 ? 1 : inks.faint;
  to.beginPath();
  to.roundRect(x * size.width, height - tall / 2, width * size.width, tall, tall / 2);
  to.fillStyle = hand === 'R' ? inks.ink : inks.paper;
  to.fill();
  to.strokeStyle = inks.ink;
  to.lineWidth = age === 0 ? 2 : 1;
  to.stroke();
}

function drawExtra(
  to: CanvasRenderingContext2D,
  size: DrawingSize,
  { x, y, age }: ExtraMark,
  inks: Inks,
): void {
  to.globalAlpha = age === 0 ? 1 : inks.faint;
  const at = x * size.width;
  line(
    to,
    inks.ink,
    2,
    at,
    down(Math.min(1, y + EXTRA_SHARE), size),
    at,
    down(Math.max(0, y - EXTRA_SHARE), size),
  );
}

/** A mark at the very edge is drawn whole. */
const within = (y: number, tall: number, { height }: DrawingSize): number =>
  Math.min(height - tall / 2 - 1, Math.max(tall / 2 + 1, y));

/** Fractions of the height go up, pixels go down. */
const down = (y: number, { height }: DrawingSize): number => (1 - y) * height;

function line(
  to: CanvasRenderingContext2D,
  colour: string,
  width: number,
  fromX: number,
  fromY: number,
  toX: number,
  toY: number,
): void {
  to.strokeStyle = colour;
  to.lineWidth = width;
  to.beginPath();
  to.moveTo(fromX, fromY);
  to.lineTo(toX, toY);
  to.stroke();
}
