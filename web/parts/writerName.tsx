import { useState } from 'preact/hooks';

const key = 'sumpwise.visit-writer';

/** The name under which this device writes; kept on it. */
export function useWriter(): readonly [string, (name: string) => void] {
  const [by, setBy] = useState(() => localStorage.getItem(key) ?? '');
  return [
    by,
    (name) => {
      setBy(name);
      localStorage.setItem(key, name);
    },
  ];
}

/** The field for it. */
export function WriterName({ by, setBy }: { by: string; setBy: (name: string) => void }) {
  return (
    <label>
      Your name
      <input value={by} autoComplete="name" onInput={(event) => setBy(event.currentTarget.value)} />
    </label>
  );
}

/** The same with what it is for, above forms that write something down. */
export function WriterLine({ by, setBy }: { by: string; setBy: (name: string) => void }) {
  return (
    <div class="entry-form no-print">
      <WriterName by={by} setBy={setBy} />
      {by.trim().length < 2 && <p class="muted">Write your name to note anything here.</p>}
    </div>
  );
}
