import * as v from 'valibot';
import type { ClickPlan } from '../exercises/click-plan';
import { finite, whole } from './schema';
import { schemaOf } from './stored';

const most = 64;
const voice = v.looseObject({
  levelDb: v.nullable(
    v.pipe(finite, v.minValue(-40, 'must be from −40 to 0 dB'), v.maxValue(0, 'must be from −40 to 0 dB')),
  ),
  hz: v.pipe(
    finite,
    v.minValue(200, 'must be from 200 to 4000 Hz'),
    v.maxValue(4000, 'must be from 200 to 4000 Hz'),
  ),
  note: whole(0, 127),
});

/** `clicks` of a take: which partials click, how they sound, which bars are bare. */
export const clicks = schemaOf<ClickPlan>()(
  v.looseObject({
    beats: v.union(
      [v.picklist(['every', 'first', 'backbeats']), v.pipe(v.array(whole(0, 15)), v.minLength(1))],
      'must be "every", "first", "backbeats", or a list of beats from 0',
    ),
    partials: v.pipe(v.array(whole(0, 15)), v.minLength(1, 'must have at least one partial')),
    voices: v.looseObject({ downbeat: voice, beat: voice, subdivision: voice }),
    bare: v.nullable(
      v.union(
        [
          v.looseObject({ kind: v.literal('steady'), on: whole(1, most), off: whole(1, most) }),
          v.looseObject({ kind: v.literal('thinning'), on: whole(1, most), most: whole(1, most) }),
        ],
        `must be null, { "kind": "steady", "on", "off" } or { "kind": "thinning", "on", "most" } with 1 to ${most} bars`,
      ),
    ),
  }),
);
