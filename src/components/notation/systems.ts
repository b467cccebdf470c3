/** What a bar asks for. */
interface MeasureWidth {
  /** The least its notes need, in px at full size, without clef, time signature and bar line. */
  readonly leastWidth: number;
  readonly newBeats: boolean;
}

/** Where a bar stands in its system. */
export interface MeasureAt {
  readonly measure: number;
  readonly x: number;
  readonly width: number;
  /** It opens its system and has the clef; it is the last of the phrase. */
  readonly first: boolean;
  readonly last: boolean;
}

interface Systems {
  readonly systems: readonly (readonly MeasureAt[])[];
  /** The size asked for, smaller where even one bar needs more than the width. */
  readonly scale: number;
}

const CLEF_PX = 42;
const TIME_PX = 34;
const BAR_LINE_PX = 34;
/** Notes closer than the engraver's least are hard to read with letters under them. */
const AIR = 1.25;
/** A bar of few notes is not drawn out over the whole width. */
const MOST_STRETCH = 2.2;

/**
 * Bars into systems of equally many, as many as fit; a last system with fewer is not drawn out.
 * @param widthPx of the box
 * @param size of the music, at most
 */
export function systemsOf(measures: readonly MeasureWidth[], widthPx: number, size = 1): Systems {
  const needs = measures.map((measure) => needOf(measure, AIR));
  const scale = Math.min(size, scaleFor(measures, widthPx));
  const available = widthPx / scale - 1;
  const perSystem = mostInASystem(needs, available);

  const systems: MeasureAt[][] = [];
  for (let start = 0; start < measures.length; start += perSystem) {
    const own = needs.slice(start, start + perSystem);
    const total = sum(own) + CLEF_PX;
    const share = systems.length === 0 ? 1 : own.length / perSystem;
    const width = Math.min(available * share, CLEF_PX + sum(own) * MOST_STRETCH);
    const spare = (width - total) / sum(own);
    let x = 0;
    systems.push(
      own.map((need, index) => {
        const at = {
          measure: start + index,
          x,
          width: need * (1 + spare) + (index === 0 ? CLEF_PX : 0),
          first: index === 0,
          last: start + index === measures.length - 1,
        };
        x += at.width;
        return at;
      }),
    );
  }
  return { systems, scale };
}

/** The size at which the tightest of the bars just fits a system by itself. */
export function scaleFor(measures: readonly MeasureWidth[], widthPx: number): number {
  return widthPx / Math.max(...measures.map((measure) => CLEF_PX + needOf(measure, 1)));
}

function needOf({ leastWidth, newBeats }: MeasureWidth, air: number): number {
  return leastWidth * air + BAR_LINE_PX + (newBeats ? TIME_PX : 0);
}

/** The most bars a system may have so that each system fits, evened out: five bars in threes are three and two. */
function mostInASystem(needs: readonly number[], available: number): number {
  for (let count = needs.length; count > 1; count -= 1) {
    const systems = Math.ceil(needs.length / count);
    const even = Math.ceil(needs.length / systems);
    const fits = needs.every(
      (_, start) => start % even !== 0 || CLEF_PX + sum(needs.slice(start, start + even)) <= available,
    );
    if (fits) return even;
  }
  return 1;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
