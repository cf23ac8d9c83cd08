interface NoticeProps {
  /** fault: something did not work; hint: what to do next; done: it worked */
  readonly kind: 'fault' | 'hint' | 'done';
  readonly words: string;
  readonly action?: string;
  readonly onAction?: () => void;
}

const leads = { fault: 'Not done', hint: 'Next', done: 'Done' } as const;

/** A sentence in place: what happened and what to do. */
export function Notice({ kind, words, action, onAction }: NoticeProps) {
  return (
    <div class={`notice notice-${kind}`} role={kind === 'fault' ? 'alert' : 'status'}>
      <p>
        <strong>{leads[kind]}.</strong> {words}
      </p>
      {action !== undefined && (
        <button type="button" onClick={onAction}>
          {action}
        </button>
      )}
    </div>
  );
}

/** What stands in for a page while it is read. */
export function Loading({ what }: { what: string }) {
  return (
    <p class="loading" role="status">
      Reading {what} …
    </p>
  );
}
