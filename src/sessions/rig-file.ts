import * as v from 'valibot';
import { InputError } from '../errors';
import { checked, parsedJson, type Format } from './read-json';
import { rig } from './rig-schema';
import type { Stored } from './stored';
import type { Rig } from './types';

/** `evenhand-rig`, version 1: a rig to keep, to carry to another machine, to hand on. It must have an id and a name. */
export const rigFileSchema = v.looseObject({
  format: v.literal('evenhand-rig', 'must be "evenhand-rig"'),
  version: v.literal(1, 'must be 1'),
  rig: v.intersect([
    rig,
    v.looseObject({
      id: v.pipe(v.string('must be text'), v.minLength(1, 'must not be empty')),
      name: v.string('must be text'),
    }),
  ]),
});

export type RigFile = Stored<typeof rigFileSchema>;
export type NamedRig = RigFile['rig'];

const format: Format<typeof rigFileSchema> = { format: 'evenhand-rig', version: 1, schema: rigFileSchema };

/**
 * A rig from the text of a `.rig.json` file. Unknown keys survive.
 * @throws InputError at the place that breaks a rule: a foreign or newer file, a value out of range, two surfaces of one
 *   id or of one note, a window or start that names no surface
 */
export function readRigFile(json: string): RigFile {
  return rigFileFrom(parsedJson(json));
}

/** The same from data that is parsed already, as a store gives it. */
export function rigFileFrom(data: unknown): RigFile {
  const file: RigFile = checked(data, format);
  checkSurfaces(file.rig);
  checkNamed(file.rig);
  return file;
}

export function writeRigFile(file: RigFile): string {
  return `${JSON.stringify(file, undefined, 2)}\n`;
}

/** A rig as a file holds it. @throws InputError as {@link rigFileFrom} */
export function rigFileOf(of: Rig, id: string, name: string): RigFile {
  return rigFileFrom({ format: 'evenhand-rig', version: 1, rig: { ...of, id, name } });
}

function checkSurfaces({ surfaces }: Rig): void {
  const ids = new Set<string>();
  const owned = new Map<string, string>();
  surfaces.forEach((surface, index) => {
    const place = `rig.surfaces[${index}]`;
    if (ids.has(surface.id)) throw new InputError(`${place}.id`, 'must not be another’s', surface.id);
    ids.add(surface.id);
    surface.notes.forEach((note, at) => {
      const key = `${surface.port} ${surface.channel} ${note}`;
      const owner = owned.get(key);
      if (owner !== undefined) {
        throw new InputError(`${place}.notes[${at}]`, `must not be owned by "${owner}" too`, note);
      }
      owned.set(key, surface.name);
    });
  });
}

function checkNamed({ surfaces, crosstalk, start }: Rig): void {
  const known = (place: string, id: string): void => {
    if (!surfaces.some((surface) => surface.id === id)) {
      throw new InputError(place, 'must be the id of a surface', id);
    }
  };
  crosstalk?.forEach(({ from, to }, index) => {
    known(`rig.crosstalk[${index}].from`, from);
    known(`rig.crosstalk[${index}].to`, to);
  });
  if (start !== undefined) known('rig.start.surface', start.surface);
}
