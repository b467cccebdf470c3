import { filter, interval, map, type Observable } from 'rxjs';
import type { AudioClick } from '../click/audio-click';
import { midiClick } from '../click/midi-click';
import type { Click } from '../click/types';
import type { AudioOut } from '../click/web-audio';
import { monitorText, noMessages } from '../midi/monitor';
import type { MidiDoor } from '../midi/types';
import type { On } from '../state/commands';
import { CLICK_LEAD_MS, playAlong, testClick } from '../take/play-along';
import type { RiggingEvent } from '../state/rig';
import type { NamedRig, RigFile } from '../sessions/rig-file';
import { readRigFile, rigFileFrom, rigFileOf, writeRigFile } from '../sessions/rig-file';
import { rigFrom } from '../sessions/take';
import type { Rig } from '../sessions/types';
import { kitOutputOf } from '../state/reducer';
import type { Desk } from './page-effects';
import { inTurn } from './queue';
import { monitoring } from './monitoring';
import { fileNameOf, saveFile } from './save-file';

/** Rigs: learned from strikes, kept in the store, out and in as files. */
export interface RigDesk {
  /** Shows those that were kept, with the one in use. */
  open(): Promise<void>;
  /** Keeps and takes up the rig of a file. */
  take(file: File): Promise<void>;
  /** Keeps what has changed since it was last asked to. */
  keep(): void;
  /** Something was done on the Rig screen. */
  tell(event: RiggingEvent): void;
  /** Ends what sounds. */
  leave(): void;
}

const DELETE_WORDS =
  'Delete this rig for good? Takes keep the rig they were played with; a downloaded file is not touched.';
const TICK_MS = 100;
const nowMs = (): number => performance.now();

/** @param sound the computer's own click */
// eslint-disable-next-line max-lines-per-function -- what the Rig screen asks for shares one way of listening, which each ends for the next
export function rigDesk(desk: Desk, door: MidiDoor, sound: AudioClick, out: AudioOut): RigDesk {
  const { sitting, say, store, attempt } = desk;
  const kept = { rig: null as Rig | null, rigs: [] as readonly NamedRig[], unheard: noNames, portIds: noIds };
  const turn = inTurn();
  let click: Click | null = null;
  /** What is done before the library is open waits for it, so that it comes on top of what is kept there. */
  let early: RiggingEvent[] | null = [];

  function tell(event: RiggingEvent): void {
    if (early !== null) {
      early.push(event);
      return;
    }
    say({ kind: 'rigging', event });
    keep();
    alongside();
  }

  function clickOf(output: string): Click {
    const kit = kitOutputOf(output);
    return kit === null ? sound : midiClick((...note) => door.send(kit, ...note));
  }

  /** The click of a play-along runs as long as it is asked for. */
  function alongside(): void {
    const { screen, rigging, output } = sitting();
    const wanted = screen === 'rig' && rigging.task.kind === 'delays';
    if (!wanted) {
      leave();
      return;
    }
    if (rigging.task.kind === 'delays' && rigging.task.state === null) {
      leave();
      out.wake().catch(desk.trouble);
      const { grid, downbeatMs, clicksMs } = playAlong(nowMs() + CLICK_LEAD_MS);
      click = clickOf(output);
      click.start(grid, downbeatMs);
      // The click is steered to what is heard, so that the output delay is nothing where the audio clock is right.
      const steered = output === '' && out.delayMs() > 0;
      tell({ kind: 'clicks', clicksMs, output: steered ? { ms: 0, from: 'audio clock' } : null });
    }
  }

  function leave(): void {
    click?.stop();
    click = null;
  }

  function keep(): void {
    const { rig, rigging } = sitting();
    const { rigs, unheard, portIds } = rigging;
    if (rig !== kept.rig) attempt(() => store().keep('rig', rig));
    if (unheard !== kept.unheard) attempt(() => store().keep('ports not heard', unheard));
    if (portIds !== kept.portIds) attempt(() => store().keep('port ids', portIds));
    if (rigs !== kept.rigs) {
      const before = kept.rigs;
      attempt(() => turn(() => keepRigs(before, rigs)));
    }
    Object.assign(kept, { rig, rigs, unheard, portIds });
  }

  async function keepRigs(before: readonly NamedRig[], rigs: readonly NamedRig[]): Promise<void> {
    const changedAt = new Date().toISOString();
    for (const rig of rigs) {
      if (!before.includes(rig)) await store().place('rigs', { id: rig.id, rig, changedAt });
    }
    for (const { id } of before) {
      if (!rigs.some((rig) => rig.id === id)) await store().remove('rigs', id);
    }
  }

  async function open(): Promise<void> {
    try {
      await takeUpKept();
    } finally {
      const waiting = early ?? [];
      early = null;
      keep();
      for (const event of waiting) told(event);
    }
  }

  /** As `tell`, where nobody waits for what goes wrong: one bad event keeps none of the others back. */
  function told(event: RiggingEvent): void {
    try {
      tell(event);
    } catch (error) {
      desk.trouble(error);
    }
  }

  async function takeUpKept(): Promise<void> {
    const all = await store().all('rigs');
    const newestFirst = [...all].sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1));
    const rigs = newestFirst.flatMap(({ rig }) => {
      const sound = namedRigFrom(rig);
      return sound === undefined ? [] : [sound];
    });
    const unheard = namesFrom(await store().kept('ports not heard'));
    const portIds = idsFrom(await store().kept('port ids'));
    const rig = rigFrom(await store().kept('rig'));
    say({ kind: 'rigging', event: { kind: 'port ids', portIds } });
    say({ kind: 'rigging', event: { kind: 'kept', rigs, unheard } });
    if (rig !== undefined) say({ kind: 'rig', rig });
    // A rig that was struck on Play before now, where none was kept, is still to be kept.
    Object.assign(kept, { rig: rig === undefined ? null : sitting().rig, rigs, unheard, portIds });
  }

  const onRig = <T>(from$: Observable<T>): Observable<T> =>
    from$.pipe(filter(() => sitting().screen === 'rig'));
  onRig(door.hits$).subscribe((hit) => tell({ kind: 'hit', hit, newId: crypto.randomUUID() }));
  onRig(interval(TICK_MS).pipe(map(nowMs))).subscribe((atMs) => {
    const { task, taps } = sitting().rigging;
    if (task.kind !== 'rest' || taps !== null) tell({ kind: 'tick', atMs });
  });
  monitoring(desk, door, tell);

  return {
    open,
    keep,
    tell,
    leave,
    async take(file) {
      const { rig } = readRigFile(await file.text());
      tell({ kind: 'take rig', rig });
      say({ kind: 'go', screen: 'rig' });
    },
  };
}

const noNames: readonly string[] = [];
const noIds: Readonly<Record<string, string>> = {};

/** What the Rig screen may ask for. */
export function rigWires(
  on: On,
  desk: Desk,
  rigs: RigDesk,
  door: MidiDoor,
  out: AudioOut,
  sound: AudioClick,
): void {
  const { say, sitting } = desk;
  on('rigging', ({ event }) => {
    if (event.kind === 'delete rig' && !window.confirm(DELETE_WORDS)) return;
    rigs.tell(event);
    // What is asked for stands on top.
    if (event.kind === 'begin') window.scrollTo(0, 0);
  });
  on('rig-export', ({ id }) => {
    const rig = sitting().rigging.rigs.find((one) => one.id === id);
    if (rig === undefined) return;
    saveFile(`${fileNameOf(rig.name)}.rig.json`, writeRigFile(rigFileOf(rig, rig.id, rig.name)));
  });
  on('copy-monitor', () => {
    const { monitor } = sitting().rigging;
    desk.attempt(async () => {
      await navigator.clipboard.writeText(monitorText(monitor ?? noMessages));
      say({ kind: 'message', message: 'The monitor is on the clipboard.' });
    });
  });
  on('test-click', ({ output }) => {
    out.wake().catch(desk.trouble);
    const click = output === '' ? sound : midiClick((...note) => door.send(output, ...note));
    const { grid, downbeatMs, endMs } = testClick(nowMs() + CLICK_LEAD_MS);
    click.start(grid, downbeatMs);
    setTimeout(() => click.stop(), endMs - nowMs());
  });
}

function namedRigFrom(rig: Rig): RigFile['rig'] | undefined {
  try {
    return rigFileFrom({ format: 'evenhand-rig', version: 1, rig }).rig;
  } catch {
    // A rig of an older page without a name: it is in use, and gets its name when it is next changed.
    return undefined;
  }
}

const namesFrom = (data: unknown): readonly string[] =>
  Array.isArray(data) ? data.filter((name) => typeof name === 'string') : noNames;

function idsFrom(data: unknown): Readonly<Record<string, string>> {
  if (typeof data !== 'object' || data === null) return noIds;
  return Object.fromEntries(
    Object.entries(data).filter((entry): entry is [string, string] => typeof entry[1] === 'string'),
  );
}
