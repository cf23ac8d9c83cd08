import { useEffect, useState } from 'preact/hooks';
import { pendingEvent, pendingWrites } from './pendingWrites.ts';

/** From when on a change that is under way is explained, ms. */
const explainedAfterMs = 2500;

/** Says that a change waits; stays in sight, since the button that was pressed may be anywhere on the page. */
export function Pending() {
  const [isSlow, setSlow] = useState(false);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = (): void => {
      if (pendingWrites() > 0) {
        timer ??= setTimeout(() => setSlow(true), explainedAfterMs);
        return;
      }
      clearTimeout(timer);
      timer = undefined;
      setSlow(false);
    };
    look();
    window.addEventListener(pendingEvent, look);
    return () => {
      window.removeEventListener(pendingEvent, look);
      clearTimeout(timer);
    };
  }, []);
  return (
    <div class="pending no-print" role="status">
      {isSlow && (
        <p>
          <strong>At work.</strong> Your change is under way: it waits while records are written, such as by
          an intake, or while the fleet is worked through, and is done by itself. Leave this page open; you
          can go on reading.
        </p>
      )}
    </div>
  );
}
