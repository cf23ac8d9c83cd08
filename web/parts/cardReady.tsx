import type { JobCard } from '../../models/schema/jobCard.ts';
import { plain, volume } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { useSettings } from './fleetState.tsx';

/** What the job is, the cautions, and what to have ready before it begins. */
export function CardReady({ card }: { card: JobCard }) {
  const { measures } = useSettings();
  const amount = (quantity: number, measure: 'l' | 'pieces'): string =>
    measure === 'l' ? volume(quantity, measures) : plain(quantity, 1);
  return (
    <>
      <p>{[card.site, card.engineWords, card.jobWords.join(', ')].filter(Boolean).join('; ')}</p>
      <ul class="cautions" aria-label="Cautions">
        {card.cautions.map((words) => (
          <li key={words}>{modelWords(words)}</li>
        ))}
      </ul>
      <section>
        <h2>Have ready</h2>
        <ul>
          {card.items.map(({ item, words, quantity, measure, onHand, oneTime }) => (
            <li key={item}>
              {quantity === null
                ? 'number by the maker'
                : `${amount(quantity, measure)}${measure === 'l' ? '' : ' ×'}`}{' '}
              {words}
              {oneTime && ', used once'}
              <span class="muted">
                ; {onHand === null ? 'no stock record here' : `${amount(onHand, measure)} on hand`}
              </span>
            </li>
          ))}
          {card.tools.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
        {card.notes.map((words) => (
          <p class="muted" key={words}>
            {modelWords(words)}
          </p>
        ))}
      </section>
    </>
  );
}
