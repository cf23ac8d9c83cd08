import { useState } from 'preact/hooks';
import { counted } from '../format/words.ts';
import { useFleetState } from './fleetState.tsx';
import { useRead } from './useRead.ts';

const place = 'sumpwise.first-steps-done';

/** What a new shop does first, ticked off by what its store holds; gone once a plan is out or it is put away. */
export function FirstSteps() {
  const { data } = useFleetState();
  const own = data?.store === 'own';
  const [away, setAway] = useState(() => localStorage.getItem(place) === 'yes');
  const visits = useRead<'visits'>(own && !away ? '/api/visits' : null, {}, data?.revision);
  if (data === null || !own || away || visits.data === null || visits.data.visits.length > 0) return null;
  const steps = [
    {
      done: data.units > 0,
      words: 'Bring the units and their engines in',
      href: '/intake',
      now: data.units === 0 ? '' : counted(data.units, 'unit'),
    },
    {
      done: data.records > 3 * data.units && data.units > 0,
      words: 'Bring service history and meter readings in: the more, the narrower the ranges',
      href: '/intake',
      now: data.records === 0 ? '' : counted(data.records, 'record'),
    },
    {
      done: data.records > 0 && data.heldRows === 0,
      words: 'Decide the rows that were held',
      href: '/intake',
      now: data.heldRows === 0 ? '' : `${counted(data.heldRows, 'row')} wait`,
    },
    {
      done: false,
      words: 'Look through the shop’s rules: measures, currency, limits',
      href: '/settings',
      now: '',
    },
    { done: false, words: 'Make the first shop plan and publish it', href: '/shop', now: '' },
  ];
  return (
    <section class="first-steps no-print" aria-labelledby="first-steps-title">
      <h2 id="first-steps-title">First steps</h2>
      <ol>
        {steps.map(({ done, words, href, now }) => (
          <li key={words}>
            <strong>{done ? 'done' : 'to do'}</strong> <a href={href}>{words}</a>{' '}
            {now !== '' && <span class="muted">{now}</span>}
          </li>
        ))}
      </ol>
      <button
        type="button"
        onClick={() => {
          localStorage.setItem(place, 'yes');
          setAway(true);
        }}
      >
        Put this list away
      </button>
    </section>
  );
}
