import { interval, type Subscription } from 'rxjs';
import type { AudioClick } from '../click/audio-click';
import { midiClick } from '../click/midi-click';
import type { Click } from '../click/types';
import type { AudioOut } from '../click/web-audio';
import { monitorText, noMessages } from '../midi/monitor';
import type { MidiGateway } from '../midi/types';
import type { NamedRig, RigFile } from '../sessions/rig-file';
import { rigFileFrom, rigFileOf, writeRigFile } from '../sessions/rig-file';
import { rigFrom } from '../sessions/take';
import type { Rig } from '../sessions/types';
import type { KeptRigs } from '../state/actions';
import type { Effects } from '../state/dispatcher';
import { kitOutputOf } from '../state/outputs';
import type { State } from '../state/state';
import { CLICK_LEAD_MS, playAlong, testClick } from '../take/play-along';
import type { Context } from './context';
import { queue } from './queue';
import { saveFile } from './save-file';
import { fileName } from '../sessions/file-name';

const DELETE_WORDS =
  'Delete this rig for good? Takes keep the rig they were played with; a downloaded file is not touched.';
const TICK_MS = 100;
const nowMs = (): number => performance.now();

/** What the world has of the rigs, as far as it was told. */
interface Written {
  readonly rig: Rig | null;
  readonly rigs: readonly NamedRig[];
  readonly ignoredPorts: readonly string[];
  readonly portIds: Readonly<Record<string, string>>;
}

/**
 * Rigs: what is learned of them is kept in the store, with the time and the click that learning needs; out and in as files.
 * @param sound the computer's own click
 */
// eslint-disable-next-line max-lines-per-function -- one rig: its click, its clock and what is written of it follow the same state
export function rigEffects(context: Context, midi: MidiGateway, sound: AudioClick, out: AudioOut) {
  const { state, dispatch, store, attempt } = context;
  const inOrder = queue();
  let written: Written = { rig: null, rigs: [], ignoredPorts: noNames, portIds: noIds };
  let click: Click | null = null;
  let ticking: Subscription | null = null;

  const clickOn = (kit: string | null): Click =>
    kit === null ? sound : midiClick((...note) => midi.send(kit, ...note));

  /** The click of a play-along runs as long as it is asked for. */
  function playedAlong({ screen, rigging: { task }, output }: State): void {
    if (screen !== 'rig' || task.kind !== 'delays') {
      click?.stop();
      click = null;
    } else if (task.state === null) {
      click?.stop();
      void out.wake();
      const { grid, downbeatMs, clicksMs } = playAlong(nowMs() + CLICK_LEAD_MS);
      click = clickOn(kitOutputOf(output));
      click.start(grid, downbeatMs);
      // The click is steered to what is heard, so that the output delay is nothing where the audio clock is right.
      const steered = output === '' && out.delayMs() > 0;
      dispatch({ kind: 'clicks begun', clicksMs, output: steered ? { ms: 0, from: 'audio clock' } : null });
    }
  }

  /** A step, and strikes that may be a command, wait for a silence. */
  function timed({ screen, rigging: { task, taps } }: State): void {
    const wanted = screen === 'rig' && (task.kind !== 'rest' || taps !== null);
    if (wanted === (ticking !== null)) return;
    ticking?.unsubscribe();
    ticking = wanted
      ? interval(TICK_MS).subscribe(() => dispatch({ kind: 'rig time', atMs: nowMs() }))
      : null;
  }

  function keep({ rig, rigging: { rigs, ignoredPorts, portIds } }: State): void {
    const before = written;
    written = { rig, rigs, ignoredPorts, portIds };
    if (rig !== before.rig) attempt(() => store().keep('rig', rig));
    if (ignoredPorts !== before.ignoredPorts) attempt(() => store().keep('ports not heard', ignoredPorts));
    if (portIds !== before.portIds) attempt(() => store().keep('port ids', portIds));
    if (rigs !== before.rigs) attempt(() => inOrder(() => keepRigs(before.rigs, rigs)));
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

  async function read(): Promise<KeptRigs> {
    const all = await store().all('rigs');
    const newestFirst = [...all].sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1));
    const rigs = newestFirst.flatMap(({ rig }) => {
      const sound = namedRigFrom(rig);
      return sound === undefined ? [] : [sound];
    });
    const ignoredPorts = namesFrom(await store().kept('ports not heard'));
    const portIds = idsFrom(await store().kept('port ids'));
    return { rigs, ignoredPorts, portIds, rig: rigFrom(await store().kept('rig')) };
  }

  function test(output: string): void {
    void out.wake();
    const tested = clickOn(output === '' ? null : output);
    const { grid, downbeatMs, endMs } = testClick(nowMs() + CLICK_LEAD_MS);
    tested.start(grid, downbeatMs);
    setTimeout(() => tested.stop(), endMs - nowMs());
  }

  async function copyMonitor(): Promise<void> {
    await navigator.clipboard.writeText(monitorText(state().rigging.monitor ?? noMessages));
    dispatch({ kind: 'message', message: 'The monitor is on the clipboard.' });
  }

  const on = {
    // What is asked for stands on top.
    'begin step': () => window.scrollTo(0, 0),
    'delete rig': ({ id }) => {
      if (window.confirm(DELETE_WORDS)) dispatch({ kind: 'rig deleted', id });
    },
    'export rig': ({ id }) => {
      const rig = state().rigging.rigs.find((one) => one.id === id);
      if (rig === undefined) return;
      const name = fileName({ kind: 'rig', about: rig.name, ending: 'rig.json' });
      saveFile(name, writeRigFile(rigFileOf(rig, rig.id, rig.name)));
    },
    'copy monitor': () => attempt(copyMonitor),
    'test click': ({ output }) => test(output),
  } satisfies Effects['on'];

  return {
    on,
    changed(state) {
      // Before the library is open nothing of it is written.
      if (state.rigging.waiting !== null) return;
      keep(state);
      timed(state);
      playedAlong(state);
    },
    /** Shows those that were kept, with the one in use; what was done before then comes on top. */
    async open(): Promise<void> {
      let kept: KeptRigs | undefined;
      try {
        kept = await read();
        // A rig that was struck on Play before now, where none was kept, is still to be kept.
        written = { ...kept, rig: kept.rig ?? null };
      } finally {
        dispatch(kept === undefined ? { kind: 'rigs opened' } : { kind: 'rigs opened', kept });
      }
    },
    /** Keeps and takes up the rig of a file. */
    add(rig: NamedRig): void {
      dispatch({ kind: 'rig added', rig });
    },
  } satisfies Effects & { open(): Promise<void>; add(rig: NamedRig): void };
}

const noNames: readonly string[] = [];
const noIds: Readonly<Record<string, string>> = {};

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
