import type { WorkAt } from './intakeWork.ts';

/** How far the work on files is, with a button that calls it off. */
export function WorkBar({ at, onCancel }: { at: WorkAt; onCancel: () => void }) {
  return (
    <div class="work-bar">
      <p class="loading" role="status">
        {at.words}
      </p>
      <progress aria-label={at.words} max={1} {...(at.share === null ? {} : { value: at.share })} />{' '}
      {at.share !== null && <span>{Math.floor(100 * at.share)} %</span>}{' '}
      <button type="button" onClick={onCancel}>
        Cancel
      </button>
    </div>
  );
}
