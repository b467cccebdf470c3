import type { MidiStatus, Port } from '../../midi/types';
import type { Rig } from '../../sessions/types';
import type { RawHit } from '../../stroke';
import type { State } from '../state';
import { keptRigs } from './rigs';

/** "Pad" of "Pad" and of "Pad (2)". */
const ownName = (name: string): string => name.replace(/ \(\d+\)$/, '');

/**
 * Ports of the rig of which nobody can say which they are: others of the same name are there too, and they came back under
 * another id than the one that a strike confirmed.
 * @param confirmed id by name, as it was when a strike last told them apart
 */
function uncertainPorts(
  rig: Rig | null,
  midi: MidiStatus,
  confirmed: Readonly<Record<string, string>>,
): readonly string[] {
  if (rig === null || midi.kind !== 'on') return [];
  const there = midi.inputs.filter(({ connected }) => connected);
  const ofRig = new Set(rig.surfaces.map(({ port }) => port));
  const uncertain = there.filter((port) => {
    const alike = there.filter((other) => ownName(other.name) === ownName(port.name));
    return ofRig.has(port.name) && alike.length > 1 && confirmed[port.name] !== port.id;
  });
  return uncertain.map(({ name }) => name);
}

/** Asks which port is which where that is not known. */
export function withPortsChecked(state: State): State {
  const { rig, midi, rigging } = state;
  const uncertain = uncertainPorts(rig, midi, rigging.portIds);
  if (uncertain.length === 0 && rigging.uncertain.length === 0) return state;
  return { ...state, rigging: { ...rigging, uncertain } };
}

/** A port that has come into the rig by a strike is the one that is there now. */
export function withPortsSeen(before: State, now: State): State {
  const known = new Set(before.rig?.surfaces.map(({ port }) => port));
  const added = now.rig?.surfaces.filter(({ port }) => !known.has(port)) ?? [];
  if (added.length === 0) return now;
  const ids = idsOf(now.midi);
  const seen = Object.fromEntries(added.flatMap(({ port }) => (port in ids ? [[port, ids[port]]] : [])));
  return { ...now, rigging: { ...now.rigging, portIds: { ...now.rigging.portIds, ...seen } } };
}

/** A strike while ports are uncertain: it may say which one is. */
export function withPortStruck(state: State, hit: RawHit): State {
  const { rig, rigging, midi } = state;
  const found = rig && confirmedBy(rig, rigging.uncertain, hit, namedAs(midi, hit.port));
  if (!found) return state;
  const { uncertain } = found;
  const portIds = uncertain.length === 0 ? { ...rigging.portIds, ...idsOf(midi) } : rigging.portIds;
  const rigs = keptRigs(rigging.rigs, found.rig);
  return { ...state, rig: found.rig, rigging: { ...rigging, rigs, uncertain, portIds } };
}

/** Ids by name of the ports that are there. */
function idsOf(midi: MidiStatus): Readonly<Record<string, string>> {
  const ports: readonly Port[] = midi.kind === 'on' ? midi.inputs.filter(({ connected }) => connected) : [];
  return Object.fromEntries(ports.map(({ name, id }) => [name, id]));
}

/** What a strike says of ports of one name. */
interface Confirmed {
  readonly rig: Rig;
  readonly uncertain: readonly string[];
}

/** How many ports that are there have this port's own name. */
function namedAs(midi: MidiStatus, port: string): number {
  if (midi.kind !== 'on') return 0;
  return midi.inputs.filter(({ name, connected }) => connected && ownName(name) === ownName(port)).length;
}

/**
 * A strike on a surface of the first uncertain port tells which it is: where it came from another of that name the two
 * change places. Undefined where the strike is of no port of that name, or on no note of the rig there.
 * @param there how many ports of that name are there: of two the other is known with the one, of more each is asked for
 */
function confirmedBy(
  rig: Rig,
  uncertain: readonly string[],
  hit: RawHit,
  there: number,
): Confirmed | undefined {
  const asked = uncertain[0] as string | undefined;
  if (asked === undefined || ownName(asked) !== ownName(hit.port)) return undefined;
  const isOfIt = rig.surfaces.some(
    ({ port, channel, notes }) => port === asked && channel === hit.channel && notes.includes(hit.note),
  );
  if (!isOfIt) return undefined;
  const swapped = (port: string): string => (port === asked ? hit.port : port === hit.port ? asked : port);
  const rest =
    there > 2
      ? uncertain.slice(1).map(swapped)
      : uncertain.filter((name) => ownName(name) !== ownName(asked));
  if (hit.port === asked) return { rig, uncertain: rest };
  const surfaces = rig.surfaces.map((surface) => ({ ...surface, port: swapped(surface.port) }));
  return { rig: { ...rig, surfaces }, uncertain: rest };
}
