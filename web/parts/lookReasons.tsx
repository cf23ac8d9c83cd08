import { modelWords } from '../format/modelWords.ts';

const shownFirst = 4;

/** Why the call is so, most urgent first; what goes beyond four stands behind "more". */
export function LookReasons({ reasons }: { reasons: readonly string[] }) {
  const further = reasons.slice(shownFirst);
  return (
    <>
      <ul>
        {reasons.slice(0, shownFirst).map((reason) => (
          <li key={reason}>{modelWords(reason)}</li>
        ))}
      </ul>
      {further.length > 0 && (
        <details class="further">
          <summary>and {further.length} more</summary>
          <ul>
            {further.map((reason) => (
              <li key={reason}>{modelWords(reason)}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
