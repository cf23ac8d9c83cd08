import type { ComponentChildren } from 'preact';
import { useId, useState } from 'preact/hooks';
import type { GoverningLimit } from '../../models/schema/assessment.ts';
import { limitWords } from '../format/words.ts';
import '../styles/terms.css';

type Terms = typeof import('../../data/catalog/terms.json');
export type TermId = Exclude<keyof Terms, 'default'>;

const loadTerms = (): Promise<Terms> => import('../../data/catalog/terms.json');

/** Words with help behind them: Enter, space or a tap opens two sentences and their source in place, Escape closes them. */
export function Term({ id, children }: { id: TermId; children: ComponentChildren }) {
  const [terms, setTerms] = useState<Terms | null>(null);
  const [open, setOpen] = useState(false);
  const place = useId();
  const toggle = (): void => {
    setOpen(!open);
    if (terms === null) void loadTerms().then(setTerms, () => undefined);
  };
  return (
    <span
      class="term"
      onFocusOut={() => setOpen(false)}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && open) setOpen(false);
      }}
    >
      <button type="button" aria-expanded={open} aria-controls={open ? place : undefined} onClick={toggle}>
        {children}
      </button>
      {open && (
        <span class="term-words" id={place} role="note">
          {terms === null ? (
            'Reading …'
          ) : (
            <>
              {terms[id].words} <span class="muted">Source: {terms[id].source}.</span>
            </>
          )}
        </span>
      )}
    </span>
  );
}

/** The term that explains a limit, where there is one. */
const limitTerms: Readonly<Partial<Record<GoverningLimit, TermId>>> = {
  base_number: 'base_number',
  acid_number: 'acid_number',
  oxidation: 'oxidation',
  soot: 'soot',
  dispersancy: 'dispersancy',
  fuel: 'fuel_dilution',
  viscosity: 'viscosity',
};

/** A limit's name, with help behind it where it is a term of the laboratory. */
export function LimitTerm({ limit }: { limit: GoverningLimit }) {
  const id = limitTerms[limit];
  return id === undefined ? <>{limitWords[limit]}</> : <Term id={id}>{limitWords[limit]}</Term>;
}

/** The words of a page with what they mean, to open when wanted. */
export function PageTerms({ ids }: { ids: readonly TermId[] }) {
  const [terms, setTerms] = useState<Terms | null>(null);
  return (
    <details
      class="page-terms no-print"
      onToggle={(event) => {
        if (event.currentTarget.open && terms === null) void loadTerms().then(setTerms, () => undefined);
      }}
    >
      <summary>Words on this page</summary>
      {terms === null ? (
        <p class="muted">Reading the words …</p>
      ) : (
        <dl>
          {ids.map((id) => (
            <div key={id}>
              <dt>{terms[id].term}</dt>
              <dd>
                {terms[id].words} <span class="muted">Source: {terms[id].source}.</span>
              </dd>
            </div>
          ))}
        </dl>
      )}
    </details>
  );
}
