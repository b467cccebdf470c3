import { html, type TemplateResult } from 'lit';
import type { State } from '../../state/state';
import { currentPlayer } from '../../state/selectors/library';
import { remembered } from '../../state/remembered';
import { todayPlan } from '../../insight/today/plan';
import type { TodayItem, TodayLength } from '../../insight/today/types';
import type { WeekItem } from '../../sessions/player';
import type { WeekSheet } from '../../sessions/week-sheet';
import type { TakeSummary } from '../../sessions/take-record';
import type { Rig } from '../../sessions/types';
import type { Hand } from '../../stroke';
import { fixed } from '../shared/numbers';
import './today-screen';

/** The Today screen. */
export function todayPage({ today, library, rig, phrase, bpm }: State): TemplateResult {
  const player = currentPlayer(library);
  const week = player?.week ?? none;
  const { length, clock, nowMs } = today;
  return html`<evenhand-today-screen
    .length=${length}
    .plan=${clock?.plan ?? planOf(length, library.takes, nowMs, player?.lead ?? 'R', week, rig, sheetInForce(library))}
    .clock=${clock}
    .isNew=${library.takes.length === 0}
    .week=${week}
    .words=${library.listWords}
    .sheets=${library.sheets}
    .phraseWords=${`${phrase.title}, ${fixed(bpm, Number.isInteger(bpm) ? 0 : 1)} bpm`}
  ></evenhand-today-screen>`;
}

/** The newest that is theirs; one that is put away is played to no more. */
const sheetInForce = ({ sheets, playerId }: State['library']): WeekSheet | undefined =>
  sheets.find((one) => one.playerId === playerId)?.sheet;

const none: readonly WeekItem[] = [];

const planOf = remembered(
  (
    length: TodayLength,
    takes: readonly TakeSummary[],
    nowMs: number,
    lead: Hand,
    week: readonly WeekItem[],
    rig: Rig | null,
    sheet: WeekSheet | undefined,
  ): readonly TodayItem[] =>
    todayPlan(length, {
      takes,
      nowMs,
      eastMinutes: -new Date().getTimezoneOffset(),
      lead,
      week,
      ...(sheet === undefined ? {} : { sheet }),
      surfaces: (rig?.surfaces ?? []).map(({ name }) => name),
    }),
);
