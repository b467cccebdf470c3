import type { BarMarks, ExtraMark, StrokeMark } from './bar-marks';

/** The tokens of the look that strokes are drawn in. */
export interface Inks {
  readonly ink: string;
  readonly paper: string;
  readonly out: string;
  /** Opacity of passes gone by, 0 to 1. */
  readonly faint: number;
}

/** The drawing's room: CSS pixels, and device pixels in one of them. */
export interface Room {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
}

const STROKE_PX = 13;
const PAST_PX = 5;
const EXTRA_SHARE = 0.045;
const CROSS_SHARE = 0.05;

/**
 * Draws the strokes and extras of a bar, oldest first, after wiping what was there. On a canvas because a stroke must
 * be on the screen with the next frame: drawing all of them anew costs less than moving one element in a page.
 */
export function drawStrokes(to: CanvasRenderingContext2D, room: Room, marks: BarMarks, inks: Inks): void {
  to.setTransform(room.scale, 0, 0, room.scale, 0, 0);
  to.clearRect(0, 0, room.width, room.height);
  for (const extra of marks.extras) drawExtra(to, room, extra, inks);
  for (const stroke of marks.strokes) drawStroke(to, room, stroke, inks);
  to.globalAlpha = 1;
}

function drawStroke(to: CanvasRenderingContext2D, room: Room, mark: StrokeMark, inks: Inks): void {
  const { hand, wrongHand, age, edgeY } = mark;
  const isNow = age === 0;
  const tall = isNow ? STROKE_PX : PAST_PX;
  const [x, width] = [mark.x * room.width, mark.width * room.width];
  const middle = x + width / 2;
  const y = down(mark.y, room);
  const colour = edgeY === null ? inks.ink : inks.out;
  to.globalAlpha = isNow ? 1 : inks.faint;
  if (edgeY !== null) line(to, inks.out, 7, middle, y, middle, down(edgeY, room));
  to.beginPath();
  to.roundRect(x, y - tall / 2, width, tall, tall / 2);
  if (hand === 'R' || isNow) {
    to.fillStyle = hand === 'R' ? colour : inks.paper;
    to.fill();
  }
  if (isNow || hand === 'L') {
    to.strokeStyle = colour;
    to.lineWidth = isNow ? 3 : 1.5;
    to.stroke();
  }
  if (wrongHand && isNow) {
    const reach = CROSS_SHARE * room.height;
    line(to, inks.ink, 2, middle, y - reach, middle, y + reach);
  }
}

function drawExtra(to: CanvasRenderingContext2D, room: Room, { x, y, age }: ExtraMark, inks: Inks): void {
  to.globalAlpha = age === 0 ? 1 : inks.faint;
  const at = x * room.width;
  line(
    to,
    inks.ink,
    2,
    at,
    down(Math.min(1, y + EXTRA_SHARE), room),
    at,
    down(Math.max(0, y - EXTRA_SHARE), room),
  );
}

/** Fractions of the height go up, pixels go down. */
const down = (y: number, { height }: Room): number => (1 - y) * height;

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
