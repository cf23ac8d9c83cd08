import type { FitVersion } from '../../models/schema/hindcastEndpoints.ts';
import { moment } from '../format/dates.ts';
import { percent, plain, rounded } from '../format/measures.ts';
import { counted } from '../format/words.ts';

/** Versions of the failure model: when it learned anew, from how much, and what moved. */
export function ProofVersions({ versions }: { versions: readonly FitVersion[] }) {
  if (versions.length === 0)
    return <p class="muted">The model has not learned anew since this program keeps versions of it.</p>;
  return (
    <ul class="proof-versions">
      {versions.map((one, index) => (
        <li key={`${one.version} ${one.madeAt}`}>
          <strong>{moment(one.madeAt)}</strong>: {counted(one.sets, 'timing set')}, {plain(one.failures, 1)}{' '}
          failures; {percent(one.ownDataShare)} of the level from this fleet, the rest from prior experience.
          {one.changes.length === 0 &&
            index < versions.length - 1 &&
            ' Nothing that counts moved against the version before.'}{' '}
          <span class="muted">Kept as {one.version}.</span>
          {one.changes.length > 0 && (
            <ul>
              {one.changes.map((change) => (
                <li key={change.what}>
                  {change.what.replaceAll('_', ' ')}: {rounded(change.before, 3)} before,{' '}
                  {rounded(change.after, 3)} now; {change.why}.
                </li>
              ))}
            </ul>
          )}
        </li>
      ))}
    </ul>
  );
}
