import { recordKinds } from '../../models/schema/kinds.ts';
import { kindWords } from '../format/fieldWords.ts';

/** Empty tables of each kind to fill in, for a fleet that has no export to begin with. */
export function TemplateLinks() {
  return (
    <details class="templates">
      <summary>Empty tables to fill in</summary>
      <p>
        One for each kind of record. The workbook has a second sheet that says what each column means, its
        unit of measure and what may stand in it.
      </p>
      <ul>
        {recordKinds.map((kind) => (
          <li key={kind}>
            {kindWords[kind]}:{' '}
            <a href={`/api/templates/${kind}.xlsx`} download aria-label={`${kindWords[kind]} as XLSX`}>
              XLSX
            </a>{' '}
            <a href={`/api/templates/${kind}.csv`} download aria-label={`${kindWords[kind]} as CSV`}>
              CSV
            </a>
          </li>
        ))}
      </ul>
    </details>
  );
}
