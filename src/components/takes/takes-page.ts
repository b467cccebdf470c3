import { html, type TemplateResult } from 'lit';
import { phrasesPlayed } from '../../insight/history/choices';
import { playerLabels } from '../../sessions/player-code';
import type { TakeSummary } from '../../sessions/take-record';
import { TEACHER, TEACHER_NAME } from '../../sessions/teacher';
import { remembered } from '../../state/remembered';
import type { State } from '../../state/state';
import { OF_ALL, OF_NOBODY, OF_TURN } from '../../state/takes';
import { bundledChoices } from '../review/review-page';
import type { PlayerChoice } from '../shared/types';
import './takes-screen';

/** The Takes screen: all that is kept here, newest first. */
export function takesPage({ kept, takesView, library, bundled, reviewed }: State): TemplateResult {
  return html`<evenhand-takes-screen
    .takes=${ofPhrase(kept, takesView.phraseKey)}
    .view=${takesView}
    .phrases=${phrasesIn(kept)}
    .whose=${whoseChoices(library)}
    .turn=${library.playerId}
    .labels=${labelsOf(library.players)}
    .bundled=${bundledChoices(bundled)}
    .openId=${reviewed?.take.id ?? ''}
  ></evenhand-takes-screen>`;
}

const ofPhrase = remembered((kept: readonly TakeSummary[], phraseKey: string) =>
  phraseKey === '' ? kept : kept.filter((take) => take.phraseKey === phraseKey),
);
const phrasesIn = remembered((kept: readonly TakeSummary[]) => phrasesPlayed(kept));
const labelsOf = remembered(playerLabels);

/** Whose takes there are to choose from: theirs whose turn it is first. */
const whoseChoices = remembered(
  ({ players, playerId, teacherTakes, nobodysTakes }: State['library']): readonly PlayerChoice[] => {
    const labels = playerLabels(players);
    const others = players.filter(({ id }) => id !== playerId);
    return [
      { id: OF_TURN, name: labels.get(playerId) ?? '' },
      ...others.map(({ id }) => ({ id, name: labels.get(id) ?? '' })),
      ...(teacherTakes.length === 0 ? [] : [{ id: TEACHER, name: TEACHER_NAME }]),
      ...(nobodysTakes.length === 0 ? [] : [{ id: OF_NOBODY, name: 'nobody’s yet' }]),
      ...(others.length === 0 ? [] : [{ id: OF_ALL, name: 'everybody' }]),
    ];
  },
);
