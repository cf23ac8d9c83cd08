import { useEffect, useState } from 'preact/hooks';

interface NoticeProps {
  /** fault: something did not work; hint: what to do next; done: it worked; wait: it is at work */
  readonly kind: 'fault' | 'hint' | 'done' | 'wait';
  readonly words: string;
  readonly action?: string;
  readonly onAction?: () => void;
  /** where to go on */
  readonly to?: { readonly href: string; readonly words: string };
}

/** Where records come in. */
export const toIntake = { href: '/intake', words: 'To Intake' };

const leads = { fault: 'Not done', hint: 'Next', done: 'Done', wait: 'At work' } as const;

/** A sentence in place: what happened and what to do. */
export function Notice({ kind, words, action, onAction, to }: NoticeProps) {
  return (
    <div class={`notice notice-${kind}`} role={kind === 'fault' ? 'alert' : 'status'}>
      <p>
        <strong>{leads[kind]}.</strong> {words}
        {to !== undefined && (
          <>
            {' '}
            <a href={to.href}>{to.words}</a>
          </>
        )}
      </p>
      {action !== undefined && (
        <button type="button" onClick={onAction}>
          {action}
        </button>
      )}
    </div>
  );
}

/** From when on a wait is explained, ms. */
const slowAfterMs = 5000;

/** What stands in for a page while it is read. */
export function Loading({ what }: { what: string }) {
  const [slow, setSlow] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setSlow(true), slowAfterMs);
    return () => clearTimeout(timer);
  }, []);
  return (
    <p class="loading" role="status">
      Reading {what} …
      {slow &&
        ' The server is still at work: after new records the whole fleet is worked through once, which takes up to a minute. Nothing is lost by waiting or by leaving this page.'}
    </p>
  );
}
